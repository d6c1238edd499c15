"""A label right above or below what it names, where there is room for it.

It is for pieces in the middle of a wide drawing: a line from them to either
side would run through everything between.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from manualgen.drawing.face import lettering_mm
from manualgen.drawing.geometry import Box, Points

REACHES_MM: Final = (3.0, 5.0, 8.0, 12.0)
"""How long its line may be, the shortest first."""


def near_places(
    words: str, anchors: Points, size_mm: float
) -> Iterator[tuple[Box, Points]]:
    """Boxes that one line of words could stand in, each with its line."""
    width, height = lettering_mm(words, size_mm), size_mm * 1.22
    for reach in REACHES_MM:
        for x, y in anchors:
            for sign in (-1, 1):
                near = y + sign * reach
                far = near + sign * height
                box = Box(x - width / 2, min(near, far), x + width / 2, max(near, far))
                yield box, ((x, y), (x, near))
