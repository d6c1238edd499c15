"""The part of a line that lies inside a box."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]
Box: TypeAlias = tuple[float, float, float, float]
"""Left, top, right, bottom."""


def clipped(points: Sequence[Point], box: Box) -> Iterator[tuple[Point, ...]]:
    """The stretches of a line of straight pieces that lie inside the box, in order."""
    stretch: list[Point] = []
    for a, b in itertools.pairwise(points):
        inside = _segment_inside(a, b, box)
        if inside is None or (stretch and inside[0] != stretch[-1]):
            if len(stretch) > 1:
                yield tuple(stretch)
            stretch = []
        if inside is not None:
            stretch = stretch or [inside[0]]
            stretch.append(inside[1])
    if len(stretch) > 1:
        yield tuple(stretch)


def _segment_inside(a: Point, b: Point, box: Box) -> tuple[Point, Point] | None:
    """The inside part of a straight piece, after Liang and Barsky (1984)."""
    left, top, right, bottom = box
    dx, dy = b[0] - a[0], b[1] - a[1]
    enter, leave = 0.0, 1.0
    for step, room in (
        (-dx, a[0] - left),
        (dx, right - a[0]),
        (-dy, a[1] - top),
        (dy, bottom - a[1]),
    ):
        if step == 0:
            if room < 0:
                return None
            continue
        at = room / step
        enter, leave = (max(enter, at), leave) if step < 0 else (enter, min(leave, at))
    if enter > leave:
        return None
    return _along(a, dx, dy, enter, b), _along(a, dx, dy, leave, b)


def _along(a: Point, dx: float, dy: float, part: float, b: Point) -> Point:
    """A point a part of the way from one end; the ends themselves exactly."""
    if part == 0:
        return a
    if part == 1:
        return b
    return a[0] + part * dx, a[1] + part * dy
