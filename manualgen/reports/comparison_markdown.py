"""A comparison as Markdown, to paste under a change request as it is.

Every mark of punctuation that Markdown or a code host could read as a sign of
its own is escaped, so that what an author wrote is shown and never obeyed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from manualgen.reports.changed_words import (
    Mark,
    again,
    called,
    headline,
    runs,
    stands,
)
from manualgen.reports.comparison import NOTHING
from manualgen.review.changes import Change, Comparison
from manualgen.review.writing import said

_MARKS = {Mark.SAME: ("", ""), Mark.GONE: ("~~", "~~"), Mark.NEW: ("**", "**")}
_SIGNS = re.compile(r"([\\`*_{}\[\]<>|~$&#!])")
_BREAKS = re.compile(r"\s+")
_ADDRESSED = re.compile(r"@(?=\w)")


def comparison_as_markdown(comparison: Comparison) -> str:
    """To paste under a change request."""
    return "\n".join(_markdown(comparison)) + "\n"


def _markdown(comparison: Comparison) -> Iterator[str]:
    yield f"### Changes from {_escaped(comparison.base)} to {_escaped(comparison.head)}"
    for sentence in comparison.unread:
        yield f"\nNot read: {_escaped(sentence)}"
    for edition, told in again(comparison):
        yield f"\nPrint again, {edition}: {_escaped(told)}"
    if not comparison.manual and not comparison.experiments:
        yield f"\n{NOTHING[0].upper()}{NOTHING[1:]}."
    if comparison.manual:
        yield "\n#### The manual\n"
        yield from _table(comparison.manual, in_file=True)
    for experiment in comparison.experiments:
        yield f"\n#### {_escaped(headline(experiment))}\n"
        if experiment.changes:
            yield from _table(experiment.changes)


def _table(changes: Iterable[Change], *, in_file: bool = False) -> Iterator[str]:
    yield "| where | what | change | so |"
    yield "| --- | --- | --- | --- |"
    for change in changes:
        so = _escaped(change.consequence or "")
        cells = (
            _escaped(stands(change, in_file=in_file)),
            _escaped(called(change)),
            _told(change),
            f"**{so}**" if change.leak else so,
        )
        yield f"| {' | '.join(cells)} |"


def _told(change: Change) -> str:
    if change.before is None:
        return f"new: {_in_marks(Mark.NEW, change.after)}" if change.after else ""
    if change.after is None:
        return f"gone: {_in_marks(Mark.GONE, change.before)}"
    return " ".join(
        _in_marks(run.mark, run.text) for run in runs(change.before, change.after)
    )


def _in_marks(mark: Mark, text: str) -> str:
    before, after = _MARKS[mark]
    return f"{before}{_escaped(text)}{after}"


def _escaped(text: str) -> str:
    """Text on one line, shown as it is; nobody is addressed by it."""
    flat = _BREAKS.sub(" ", said(text)).strip()
    return _ADDRESSED.sub("@\u2060", _SIGNS.sub(r"\\\1", flat))
