"""Which words of a text went, came and stayed, and how a change is said in one line."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from manualgen.review.changes import Change, Comparison, ExperimentChange
from manualgen.review.writing import said

LIKE = 0.3
"""Less alike than this, two texts are shown one after the other."""

MOST_COMPARED = 4_000_000
"""Words of one text times words of the other; past it all between the first and
the last difference is marked.
"""


class Mark(StrEnum):
    """What became of a run of words."""

    SAME = "same"
    GONE = "gone"
    NEW = "new"


@dataclass(frozen=True, slots=True)
class Run:
    """Words one after the other that share one fate."""

    mark: Mark
    text: str


def runs(before: str, after: str) -> tuple[Run, ...]:
    """The new text with what went put where it stood; a quantity is one word."""
    old, new = before.split(" "), after.split(" ")
    if len(old) * len(new) > MOST_COMPARED:
        return tuple(_between(old, new))
    matcher = difflib.SequenceMatcher(None, old, new, autojunk=False)
    if matcher.ratio() < LIKE:
        return Run(Mark.GONE, _plain(old)), Run(Mark.NEW, _plain(new))
    return tuple(_runs(matcher, old, new))


def _between(old: list[str], new: list[str]) -> Iterator[Run]:
    """What both begin and end with, and all between as gone and as new."""
    start = _in_common(old, new)
    rest_old, rest_new = old[start:], new[start:]
    end = _in_common(rest_old[::-1], rest_new[::-1])
    parts = (
        (Mark.SAME, new[:start]),
        (Mark.GONE, rest_old[: len(rest_old) - end]),
        (Mark.NEW, rest_new[: len(rest_new) - end]),
        (Mark.SAME, rest_new[len(rest_new) - end :]),
    )
    return (Run(mark, _plain(words)) for mark, words in parts if words)


def _in_common(one: list[str], other: list[str]) -> int:
    """How many words both begin with."""
    pairs = enumerate(zip(one, other, strict=False))
    differing = (n for n, (a, b) in pairs if a != b)
    return next(differing, min(len(one), len(other)))


def _runs(
    matcher: difflib.SequenceMatcher[str], old: list[str], new: list[str]
) -> Iterator[Run]:
    for tag, i1, i2, j1, j2 in matcher.get_opcodes():
        if tag == "equal":
            yield Run(Mark.SAME, _plain(new[j1:j2]))
            continue
        if i2 > i1:
            yield Run(Mark.GONE, _plain(old[i1:i2]))
        if j2 > j1:
            yield Run(Mark.NEW, _plain(new[j1:j2]))


def _plain(words: list[str]) -> str:
    return said(" ".join(words))


def called(change: Change) -> str:
    """What changed, in a few words: ``step 4``, ``strength sodium hydroxide``."""
    if change.what.startswith(change.kind):
        return said(change.what)
    return said(f"{change.kind} {change.what}")


def stands(change: Change, *, in_file: bool = False) -> str:
    """Where a change stands: ``line 7``, or with its file ``chemicals.yaml:7``."""
    if change.place is None:
        return ""
    if in_file:
        return f"{change.place.file}:{change.place.line}"
    return f"line {change.place.line}"


def headline(experiment: ExperimentChange) -> str:
    """An experiment, what became of it, and what has to be printed again."""
    return f"{experiment.id} ({experiment.title}): {standing(experiment)}"


def standing(experiment: ExperimentChange) -> str:
    """What became of an experiment, and what has to be printed again."""
    status = experiment.status.value
    if not experiment.reprint:
        return status
    moves = "can move" if experiment.pages_can_move else "stay"
    editions = ", ".join(experiment.reprint)
    return f"{status}; print again: {editions}; its page numbers {moves}"


def again(comparison: Comparison) -> Iterator[tuple[str, str]]:
    """What has to be printed again, by edition."""
    for reprint in comparison.reprint:
        told = ", ".join((*reprint.experiments, *reprint.matter))
        if told:
            yield reprint.edition, told
