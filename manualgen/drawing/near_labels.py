"""A label right above or below what it names, where there is room for it.

It is for pieces in the middle of a wide drawing: a line from them to either
side would run through everything between.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from manualgen.drawing.face import width_mm
from manualgen.drawing.geometry import Box, Point, Points, segments_cross
from manualgen.drawing.shape import Stroke

REACHES_MM: Final = (3.0, 5.0, 8.0, 12.0)
"""How long its line may be, the shortest first."""
CLEAR_MM: Final = 0.8
PT_PER_MM: Final = 72 / 25.4


def near_places(
    words: str, anchors: Points, size_mm: float
) -> Iterator[tuple[Box, Points]]:
    """Boxes that one line of words could stand in, each with its line."""
    width, height = width_mm(words, size_mm * PT_PER_MM), size_mm * 1.22
    for reach in REACHES_MM:
        for x, y in anchors:
            for sign in (-1, 1):
                near = y + sign * reach
                far = near + sign * height
                box = Box(x - width / 2, min(near, far), x + width / 2, max(near, far))
                yield box, ((x, y), (x, near))


def is_free(
    box: Box, line: Points, strokes: Sequence[Stroke], own: Sequence[Stroke]
) -> bool:
    """Whether nothing is drawn in a box, and nothing foreign across its line."""
    wide = Box(
        box.left - CLEAR_MM,
        box.top - CLEAR_MM,
        box.right + CLEAR_MM,
        box.bottom + CLEAR_MM,
    )
    for stroke in strokes:
        is_own = stroke in own
        for a, b in _pieces(stroke):
            if touches(a, b, wide) or (
                not is_own and segments_cross(a, b, line[0], line[1])
            ):
                return False
    return True


def _pieces(stroke: Stroke) -> Iterator[tuple[Point, Point]]:
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    yield from pairwise(points)


def touches(a: Point, b: Point, box: Box) -> bool:
    """Whether a straight piece enters a box."""
    if max(a[0], b[0]) < box.left or min(a[0], b[0]) > box.right:
        return False
    if max(a[1], b[1]) < box.top or min(a[1], b[1]) > box.bottom:
        return False
    corners = (
        (box.left, box.top),
        (box.right, box.top),
        (box.right, box.bottom),
        (box.left, box.bottom),
    )
    inside = any(
        box.left <= p[0] <= box.right and box.top <= p[1] <= box.bottom for p in (a, b)
    )
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    return inside or any(segments_cross(a, b, c, d) for c, d in sides)
