"""The reviewer's answer: what changed between two manuals, in the manual's own terms.

`sections` and `fences` take an experiment apart into `pieces`, each with what the
teacher and what students read of it; `pairing` finds out which piece of one is
which of the other, and `telling` what became of each.  `lists`, `settings`,
`store` and `order` do the same for what is no running text, and `marks` adds up
the marks.  What follows from a change is found by `hazards`, `preparing` and
`findings`, and `prints` compares the pages themselves.  `compare` brings all of
it together.
"""
