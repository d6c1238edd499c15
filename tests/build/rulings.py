"""Straight lines that a page draws, measured on the paper."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

import pikepdf

Point: TypeAlias = tuple[float, float]
MM = 25.4 / 72


def level_lines(page: pikepdf.Page) -> Iterator[float]:
    """The lengths in mm of the level lines that are stroked on a page."""
    for a, b in _segments(page):
        if abs(a[1] - b[1]) < 0.01:
            yield abs(b[0] - a[0]) * MM


def _segments(page: pikepdf.Page) -> Iterator[tuple[Point, Point]]:
    """Each `m … l` of the page, in points on the paper (ISO 32000-1, 8.3.4)."""
    matrix, kept, at = pikepdf.Matrix(), [], (0.0, 0.0)
    wanted = "q Q cm m l"
    for instruction in pikepdf.parse_content_stream(page, wanted):
        operator = str(instruction.operator)
        if operator == "q":
            kept.append(matrix)
        elif operator == "Q":
            matrix = kept.pop()
        elif operator == "cm":
            matrix = pikepdf.Matrix(*map(float, instruction.operands)) @ matrix
        else:
            x, y = map(float, instruction.operands)
            if operator == "l":
                yield matrix.transform(at), matrix.transform((x, y))
            at = (x, y)
