"""Mends that cannot change what an author means, made in the author's own file.

An edit is made only where the file has the very words that it is for: a title
with escapes, or a file that was saved meanwhile, stays as it is.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from manualgen.model.finding import Edit, Finding
from manualgen.model.place import Place
from manualgen.quantities import QuantityError, parse_quantity, parse_unit

_LINE_END = re.compile(r"(\r\n?|\n)")
_BYTE_ORDER_MARK = "\ufeff"


def edits_by_file(findings: Iterable[Finding]) -> Mapping[str, tuple[Edit, ...]]:
    """The edits that the findings carry, by file, in source order."""
    found: dict[str, list[Edit]] = defaultdict(list)
    for finding in findings:
        if finding.fault.edit:
            found[finding.fault.edit.place.file].append(finding.fault.edit)
    return {
        file: tuple(sorted(set(edits), key=_order)) for file, edits in found.items()
    }


def mended(text: str, edits: Sequence[Edit]) -> str:
    """The text with the edits made, and nothing else touched.

    Of two edits that overlap the first is made.
    """
    mark = _BYTE_ORDER_MARK if text.startswith(_BYTE_ORDER_MARK) else ""
    # Every second part is a line end, which stays as it is.
    parts = _LINE_END.split(text.removeprefix(_BYTE_ORDER_MARK))
    lines = parts[::2]
    for edit in reversed(list(_apart(lines, edits))):
        start, end = edit.place.column - 1, edit.place.end_column - 1
        line = lines[edit.place.line - 1]
        lines[edit.place.line - 1] = line[:start] + edit.replacement + line[end:]
    parts[::2] = lines
    return mark + "".join(parts)


def _apart(lines: Sequence[str], edits: Iterable[Edit]) -> Iterator[Edit]:
    """The edits whose words are there, without those that reach into the one before."""
    last = (0, 0)
    for edit in edits:
        place = edit.place
        if _is_there(lines, edit) and last <= (place.line, place.column):
            yield edit
            last = place.end_line, place.end_column


def _is_there(lines: Sequence[str], edit: Edit) -> bool:
    place = edit.place
    if place.line != place.end_line or place.line > len(lines):
        return False
    words = lines[place.line - 1][place.column - 1 : place.end_column - 1]
    if edit.written:
        return words == edit.written
    return _value(words) is not None and _value(words) == _value(edit.replacement)


def _value(words: str) -> tuple[object, ...] | None:
    """What a quantity or a unit amounts to; None for other words."""
    try:
        quantity = parse_quantity(words)
    except QuantityError:
        return _size(words)
    return quantity.si_value, quantity.si_upper, quantity.dimension


def _size(words: str) -> tuple[object, ...] | None:
    try:
        unit = parse_unit(words)
    except QuantityError:
        return None
    return unit.factor, unit.dimension


def _order(edit: Edit) -> tuple[Place, str]:
    return edit.place, edit.replacement
