"""How a working is set into the room for it, beside the box for its result.

The room is the same whether anything stands in it or not.  A working stands on
one line, its algebra and then the numbers, or on two, whichever lets it be
larger; the style sheet has a class for each size of type.
"""

from __future__ import annotations

from typing import Final

from manualgen.pages.mathematics import height_mm, width_mm

SIZES: Final = {"roomy": 1.0, "tight": 0.8, "tighter": 0.72, "tightest": 0.64}
"""The style sheet's classes, and the size of type in each."""

ROOM_MM: Final = 80.0
LARGE_MM: Final = 72.0
"""The width of the room in large print, in the ordinary size of type."""
HEIGHT_MM: Final = 12.2
_EQUALS_MM: Final = 4.0


def fit_working(parts: tuple[str, str], is_large: bool) -> str:
    """The classes for a working of these parts in MathML, of which any may be empty."""
    told = [part for part in parts if part]
    widths = [width_mm(part) + _EQUALS_MM * n for n, part in enumerate(told)]
    height = sum(map(height_mm, told))
    room = LARGE_MM if is_large else ROOM_MM
    for name, size in SIZES.items():
        if sum(widths) * size <= room:
            return name
        if max(widths) * size <= room and height * size <= HEIGHT_MM:
            return f"{name} stacked"
    return "doubled"
