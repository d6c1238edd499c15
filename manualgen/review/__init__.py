"""The reviewer's answer: what changed between two manuals, in the manual's own terms.

`pieces` takes an experiment apart into what a reviewer would call one thing;
`align` finds out which piece of one manual is which of the other;
`compare` says what changed, and `consequences` what follows from it.
"""
