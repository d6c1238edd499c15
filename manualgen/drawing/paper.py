"""Squared paper: 2 mm squares, every fifth line heavier, true to scale."""

from __future__ import annotations

from math import floor
from typing import Final

from manualgen.drawing import svg

SQUARE_MM: Final = 2
HEAVY_MM: Final = 10
CHECK_MM: Final = 100
"""The line that shows whether a printer kept the scale."""


def squared_paper(left: float, top: float, width: float, height: float) -> str:
    """Squares over an area whose width and height are whole squares, in mm.

    Heavy lines start at the lower left corner, where the axes meet.
    """
    fine = _lines(left, top, width, height, SQUARE_MM)
    heavy = _lines(left, top, width, height, HEAVY_MM)
    return svg.path(fine, "fine") + svg.path(heavy, "heavy")


def _lines(left: float, top: float, width: float, height: float, pitch: int) -> str:
    upright = (
        f"M{svg.number(left + i * pitch)} {svg.number(top)}v{svg.number(height)}"
        for i in range(floor(width / pitch + 0.01) + 1)
    )
    level = (
        f"M{svg.number(left)} {svg.number(top + height - i * pitch)}h{svg.number(width)}"
        for i in range(floor(height / pitch + 0.01) + 1)
    )
    return "".join((*upright, *level))


def check_line(left: float, y: float, words: str, size_mm: float) -> str:
    """A line of 10 cm between two ticks, with its length written behind it."""
    a, b = svg.number(left), svg.number(y)
    line = svg.path(f"M{a} {b}h{CHECK_MM}m0 -1v2M{a} {svg.number(y - 1)}v2", "check")
    return line + svg.text(
        svg.Letters((left + CHECK_MM + 2, y + size_mm / 3), size_mm),
        words,
        "aside-words",
    )
