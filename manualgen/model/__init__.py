"""What a manual is: frozen dataclasses in which every piece knows its place.

Nothing here formats, computes or reads.  `place` and `finding` are the common
ground; `text`, `blocks` and `lab` are what an experiment is made of;
`experiment` and `manual` put them together; `walk` finds its way through.
"""
