"""What changed in the manual itself: its settings, its order, its experiments' names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields
from typing import TypeAlias

from manualgen.model.walk import all_blocks, plain, texts
from manualgen.quantities import Quantity, printed
from manualgen.quantities.style import AS_TYPED, NO_BREAK
from manualgen.review.align import align
from manualgen.review.changes import Change
from manualgen.working.worked import Worked, WorkedExperiment

Pairs: TypeAlias = Sequence[tuple[WorkedExperiment | None, WorkedExperiment | None]]


def same_experiments(base: Worked, head: Worked) -> Pairs:
    """Each experiment of one manual with what it is in the other.

    Those of one id belong together; of the rest, those that say much the same.
    """
    before = {w.experiment.id: w for w in base.experiments}
    after = {w.experiment.id: w for w in head.experiments}
    pairs: list[tuple[WorkedExperiment | None, WorkedExperiment | None]] = [
        (before[i], after[i]) for i in after if i in before
    ]
    lost = [w for i, w in before.items() if i not in after]
    found = [w for i, w in after.items() if i not in before]
    return (*pairs, *align(lost, found, _all_words))


def _all_words(work: WorkedExperiment) -> str:
    experiment = work.experiment
    words = (
        plain(content) for block in all_blocks(experiment) for content in texts(block)
    )
    return " ".join((experiment.title, *words))


def manual_changes(base: Worked, head: Worked, pairs: Pairs) -> Iterator[Change]:
    """Changes of settings, names and numbers."""
    yield from _settings(base, head)
    for old, new in pairs:
        if old and new:
            yield from _names(old, new)


def _settings(base: Worked, head: Worked) -> Iterator[Change]:
    old, new = base.manual.settings, head.manual.settings
    for field in fields(new):
        before, after = getattr(old, field.name), getattr(new, field.name)
        if before != after:
            yield Change("setting", field.name, _said(before), _said(after), None)


def _said(value: object) -> str:
    if isinstance(value, Quantity):
        return printed(value, AS_TYPED).replace(NO_BREAK, " ")
    if isinstance(value, tuple):
        return "; ".join(map(str, value))
    return str(value)


def _names(old: WorkedExperiment, new: WorkedExperiment) -> Iterator[Change]:
    before, after = old.experiment.id, new.experiment.id
    if before != after:
        yield Change("renamed", after, before, after, None)
    if old.number != new.number:
        yield Change(
            "number",
            after,
            old.number,
            new.number,
            None,
            "its pages have to be printed again",
        )
