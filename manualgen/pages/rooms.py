"""Whether an answer stands in its room as it is, or has to be set closer.

The same reckoning serves the check that looks for answers that do not fit, so
that it finds before printing what the page shows.
"""

from __future__ import annotations

from enum import StrEnum
from math import ceil
from typing import Final

from manualgen.drawing.face import TEXT_PT, width_mm
from manualgen.editions.sheet import AnswerRoom

RULING_MM: Final = 8.0
ROOM_MM: Final = 149.0
"""How wide the narrowest paper's column is."""

_RAGGED: Final = 1.06
"""What breaking at words costs, as a part of the length."""


class Fit(StrEnum):
    """How closely an answer is set; each is a class of the style sheet."""

    ON_LINES = "on-lines"
    """One line of text on each ruled line."""
    CLOSE = "close"
    """Two lines of text to a ruled line."""
    CLOSEST = "closest"
    """Three lines of text to a ruled line, in small type."""


_SIZES = {Fit.ON_LINES: (1, TEXT_PT), Fit.CLOSE: (2, 9.0), Fit.CLOSEST: (2.5, 7.5)}


def fit_room(room: AnswerRoom, text: str) -> Fit:
    """The loosest setting in which the text fits, or the closest of all."""
    height = room.lines * RULING_MM + room.frame_mm
    for fit, (lines_per_ruling, size_pt) in _SIZES.items():
        needed = sum(_lines(p, size_pt) for p in text.split("\n") if p.strip())
        if needed * RULING_MM <= height * lines_per_ruling:
            return fit
    return Fit.CLOSEST


def _lines(paragraph: str, size_pt: float) -> int:
    return max(1, ceil(width_mm(paragraph.strip(), size_pt) * _RAGGED / ROOM_MM))
