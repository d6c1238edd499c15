"""Whether an answer stands in its room as it is, or has to be set closer.

The check that looks for answers too long for their room and the page that
prints them reckon with this, from the face's own widths, so that they agree.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from math import ceil
from typing import Final

from manualgen.drawing.face import TEXT_PT, width_mm

RULING_MM: Final = 8.0
LARGE_RULING_MM: Final = 12.0
"""The same in large print."""
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
    CLOSER = "closer"
    """Three lines of text to a ruled line, in large print alone."""
    CLOSEST = "closest"
    """Five lines of text to two ruled lines, in small type; seven in large print."""


_SIZES = {Fit.ON_LINES: (1, TEXT_PT), Fit.CLOSE: (2, 9.0), Fit.CLOSEST: (2.5, 7.5)}
_LARGE_SIZES = {
    Fit.ON_LINES: (1, 18.0),
    Fit.CLOSE: (2, 14.0),
    Fit.CLOSER: (3, 12.0),
    Fit.CLOSEST: (3.5, 9.4),
}
"""Lines of text to a ruled line, and their size; what fits ordinary rooms fits these."""


def fit_text(
    paragraphs: Sequence[str], height_mm: float, *, large: bool = False
) -> Fit | None:
    """The loosest setting in which the paragraphs fit; None where none is close enough.

    In large print the room is so high as its wider ruling makes it.

    >>> fit_text(["Too large."], 8.0).value
    'on-lines'
    """
    ruling = LARGE_RULING_MM if large else RULING_MM
    for fit, (lines_per_ruling, size_pt) in (_LARGE_SIZES if large else _SIZES).items():
        needed = sum(_lines(p, size_pt) for p in paragraphs if p.strip())
        if needed * ruling <= height_mm * lines_per_ruling:
            return fit
    return None


def _lines(paragraph: str, size_pt: float) -> int:
    return max(1, ceil(width_mm(paragraph.strip(), size_pt) * _RAGGED / ROOM_MM))
