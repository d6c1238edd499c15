"""What a label, or the line from it, would hide of a drawing."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import Final

from manualgen.drawing.geometry import (
    Box,
    Point,
    Points,
    box_of,
    crossings,
    segments_cross,
)
from manualgen.drawing.shape import Stroke

FOREIGN: Final = 1.6
"""The cost of a label's line that crosses another piece's line."""
OWN: Final = 0.9
"""The cost where the line is the piece's own."""
CLEAR_MM: Final = 0.8
"""Between words and what is drawn."""
AT_ENDS_MM: Final = 0.3
"""So near to the ends of a label's line, nothing is crossed."""


class Lines:
    """The lines of a drawing; each height is looked at only once."""

    def __init__(self, strokes: Iterable[Stroke]) -> None:
        self._strokes = [(stroke, box_of(stroke.points)) for stroke in strokes]
        self._met: dict[float, list[tuple[int, float]]] = {}

    def add(self, stroke: Stroke) -> None:
        """A further line that is not to be hidden."""
        self._strokes.append((stroke, box_of(stroke.points)))
        self._met.clear()

    def with_strokes(self, strokes: Iterable[Stroke]) -> Lines:
        """These lines and further ones."""
        more = Lines(strokes)
        more._strokes = [*self._strokes, *more._strokes]
        return more

    def hidden(self, start: Point, edge: float, own: frozenset[int]) -> float:
        """The cost of what a level line from a point to an edge crosses.

        ``own`` are the identities of the lines of what the point lies on.
        """
        x, y = start
        low, high = min(x, edge) + AT_ENDS_MM, max(x, edge) - AT_ENDS_MM
        return sum(
            OWN if stroke in own else FOREIGN
            for stroke, at in self._crossings(y)
            if low < at < high
        )

    def _crossings(self, y: float) -> list[tuple[int, float]]:
        if y not in self._met:
            self._met[y] = [
                (id(stroke), x)
                for stroke, box in self._strokes
                if box.top < y <= box.bottom
                for x in crossings(stroke.course, y)
            ]
        return self._met[y]

    def are_clear_of(self, box: Box, line: Points, own: frozenset[int]) -> bool:
        """Whether none runs through a box, and none but its own across its line."""
        wide = box.wider(CLEAR_MM)
        start, stop = line
        reach = wide.around(box_of(line))
        return not any(
            touches(a, b, wide)
            or (id(stroke) not in own and segments_cross(a, b, start, stop))
            for stroke, around in self._strokes
            if around.meets(reach, 0.01)
            for a, b in pairwise(stroke.course)
        )


def touches(a: Point, b: Point, box: Box) -> bool:
    """Whether a straight piece enters a box."""
    if max(a[0], b[0]) < box.left or min(a[0], b[0]) > box.right:
        return False
    if max(a[1], b[1]) < box.top or min(a[1], b[1]) > box.bottom:
        return False
    inside = any(
        box.left <= p[0] <= box.right and box.top <= p[1] <= box.bottom for p in (a, b)
    )
    corners = box.corners
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    return inside or any(segments_cross(a, b, c, d) for c, d in sides)
