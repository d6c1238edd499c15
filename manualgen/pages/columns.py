"""How wide the columns of a pipe table are that students write in.

The widths follow from the sheet alone, so both editions get the same, and what
stands in a gap can be measured against them.
"""

from __future__ import annotations

from typing import Final

from manualgen.drawing.face import width_mm
from manualgen.editions.line import Gap, GapWidth, Line
from manualgen.editions.sheet import Grid
from manualgen.editions.within import within
from manualgen.model.text import Words

COLUMN_MM: Final = 149.0
"""The width of a page's column, on the narrowest paper."""
LARGE_MM: Final = 80.0
"""The same in large print, in the ordinary size of type."""
PADDING_MM: Final = 4.6
"""What a cell's edges take of its width."""

_WANTED_MM = {
    GapWidth.SHORT: 18.0,
    GapWidth.MEDIUM: 34.0,
    GapWidth.LONG: 54.0,
    GapWidth.FULL: 64.0,
}
_WIDEST_MM: Final = 46.0
"""Printed words wrap from here on."""


def column_widths(grid: Grid, room_mm: float) -> tuple[float, ...]:
    """The width of each column in mm; empty where nobody writes in the table."""
    if not any(within(grid.rows, Gap)):
        return ()
    columns = range(len(grid.header))
    least = [_least(grid, column) + PADDING_MM for column in columns]
    wanted = [
        max(m, _wanted(grid, c) + PADDING_MM)
        for c, m in zip(columns, least, strict=True)
    ]
    spare = room_mm - sum(wanted)
    if spare >= 0:
        return tuple(w * room_mm / sum(wanted) for w in wanted)
    over = sum(wanted) - sum(least)
    if over <= 0 or sum(least) >= room_mm:
        return tuple(m * room_mm / sum(least) for m in least)
    part = (room_mm - sum(least)) / over
    return tuple(m + (w - m) * part for m, w in zip(least, wanted, strict=True))


def _cells(grid: Grid, column: int) -> list[Line]:
    rows = [row[column] for row in grid.rows if column < len(row)]
    return [grid.header[column], *rows]


def _least(grid: Grid, column: int) -> float:
    """The longest word of a column: narrower it would be broken."""
    words = (
        word
        for cell in _cells(grid, column)
        for text in within(cell, Words)
        for word in text.text.split()
    )
    return min(_WIDEST_MM, max(map(width_mm, words), default=10.0))


def _wanted(grid: Grid, column: int) -> float:
    return max(_line_mm(cell) for cell in _cells(grid, column))


def _line_mm(line: Line) -> float:
    text = sum(width_mm(words.text) for words in within(line, Words))
    gaps = max((_WANTED_MM[gap.width] for gap in within(line, Gap)), default=0.0)
    return max(min(text, _WIDEST_MM), gaps)
