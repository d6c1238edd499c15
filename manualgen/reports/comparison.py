"""A comparison as text and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator

from manualgen.reports.changed_words import (
    Mark,
    again,
    called,
    headline,
    runs,
    stands,
)
from manualgen.reports.printable import printable
from manualgen.review.changes import Change, Comparison
from manualgen.review.writing import said

NOTHING = "nothing that the manual says has changed"
SHORT = 40
"""Up to this length a change is shown as before and after."""

_MARKS = {Mark.SAME: ("", ""), Mark.GONE: ("[-", "-]"), Mark.NEW: ("{+", "+}")}


def comparison_as_json(comparison: Comparison) -> str:
    """The report of ``manualgen compare --format json``; its schema is data/schemas/compare.json."""
    report = {
        "version": 1,
        "base": comparison.base,
        "head": comparison.head,
        "manual": [_change(c) for c in comparison.manual],
        "experiments": [
            {
                "id": e.id,
                "title": e.title,
                "status": e.status.value,
                "reprint": list(e.reprint),
                "changes": [_change(c) for c in e.changes],
            }
            for e in comparison.experiments
        ],
        "reprint": {
            r.edition: {"experiments": list(r.experiments), "matter": list(r.matter)}
            for r in comparison.reprint
        },
        "unread": list(comparison.unread),
    }
    return json.dumps(report, ensure_ascii=False, indent=2) + "\n"


def _change(change: Change) -> dict[str, object]:
    texts = (
        ("what", change.what),
        ("before", change.before),
        ("after", change.after),
        ("consequence", change.consequence),
    )
    told = {name: said(text) if text else None for name, text in texts}
    return {
        "kind": change.kind,
        "what": told["what"],
        "before": told["before"],
        "after": told["after"],
        "file": change.place.file if change.place else None,
        "line": change.line,
        "consequence": told["consequence"],
        "students": not change.teachers,
        "leak": change.leak,
    }


def comparison_as_text(comparison: Comparison) -> str:
    """For a terminal: an experiment a paragraph, a change a line or two."""
    return "\n".join(map(printable, _text(comparison))) + "\n"


def _text(comparison: Comparison) -> Iterator[str]:
    yield f"from {comparison.base} to {comparison.head}"
    for sentence in comparison.unread:
        yield f"not read: {sentence}"
    for edition, told in again(comparison):
        yield f"print again, {edition}: {told}"
    if not comparison.manual and not comparison.experiments:
        yield NOTHING
    if comparison.manual:
        yield ""
        yield "the manual"
        for change in comparison.manual:
            yield from _lines(change, in_file=True)
    for experiment in comparison.experiments:
        yield ""
        yield headline(experiment)
        for change in experiment.changes:
            yield from _lines(change)


def _lines(change: Change, *, in_file: bool = False) -> Iterator[str]:
    stood = stands(change, in_file=in_file)
    where = f" ({stood})" if stood else ""
    yield f"{'! ' if change.leak else '  '}{_sentence(change)}{where}"
    if change.consequence:
        yield f"      {said(change.consequence)}"


def _sentence(change: Change) -> str:
    named = called(change)
    before, after = change.before, change.after
    if before is None:
        return f"{named}, new: {said(after)}" if after else named
    if after is None:
        return f"{named}, gone: {said(before)}"
    if max(len(before), len(after)) <= SHORT:
        return f"{named}: {said(before)} → {said(after)}"
    return f"{named}: {_marked(before, after)}"


def _marked(before: str, after: str) -> str:
    return " ".join(
        f"{_MARKS[run.mark][0]}{run.text}{_MARKS[run.mark][1]}"
        for run in runs(before, after)
    )
