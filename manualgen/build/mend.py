"""Mends that cannot change what an author means, made in the author's own file."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from manualgen.model.finding import Edit, Finding
from manualgen.model.place import Place


def edits_by_file(findings: Iterable[Finding]) -> Mapping[str, tuple[Edit, ...]]:
    """The edits that the findings carry, by file, in source order."""
    found: dict[str, list[Edit]] = defaultdict(list)
    for finding in findings:
        if finding.fault.edit:
            found[finding.fault.edit.place.file].append(finding.fault.edit)
    return {file: _apart(edits) for file, edits in found.items()}


def mended(text: str, edits: Iterable[Edit]) -> str:
    """The text with the edits made, and nothing else touched."""
    lines = text.split("\n")
    for edit in sorted(edits, key=lambda e: e.place, reverse=True):
        place = edit.place
        line = lines[place.line - 1]
        lines[place.line - 1] = (
            line[: place.column - 1] + edit.replacement + line[place.end_column - 1 :]
        )
    return "\n".join(lines)


def _apart(edits: Iterable[Edit]) -> tuple[Edit, ...]:
    """The edits in order, without those that reach into the one before."""
    kept: list[Edit] = []
    for edit in sorted(set(edits), key=lambda e: e.place):
        place = edit.place
        one_line = place.line == place.end_line
        if one_line and (
            not kept or _end(kept[-1].place) <= (place.line, place.column)
        ):
            kept.append(edit)
    return tuple(kept)


def _end(place: Place) -> tuple[int, int]:
    return place.end_line, place.end_column
