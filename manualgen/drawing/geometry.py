"""Points and lines in millimetres; y grows downwards, as on a page.

Curves are flattened to straight pieces too short to see, so that whatever is
drawn can be moved, turned, clipped and measured alike.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, pi, sin
from typing import Final, TypeAlias

Point: TypeAlias = tuple[float, float]
Points: TypeAlias = tuple[Point, ...]
Corner: TypeAlias = tuple[float, float, float]
"""A point and the radius at which a line turns there."""
Move: TypeAlias = Callable[[Point], Point]

_PIECES: Final = 8
"""Straight pieces to a rounded corner."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with level sides."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def corners(self) -> Points:
        """The four corners, clockwise from the upper left one."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )

    def wider(self, by: float) -> Box:
        """The box with a margin on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """Whether the two overlap, or come nearer than a gap."""
        across = self.left < other.right + gap and other.left < self.right + gap
        return (
            across and self.top < other.bottom + gap and other.top < self.bottom + gap
        )

    def around(self, other: Box) -> Box:
        """The smallest box that holds both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


def box_of(points: Iterable[Point]) -> Box:
    """The smallest box that holds the points, of which there is at least one."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def shift(dx: float, dy: float) -> Move:
    """A move to the right and down."""
    return lambda p: (p[0] + dx, p[1] + dy)


def turn(degrees: float) -> Move:
    """A clockwise turn, as seen on the page, about the origin."""
    c, s = cos(degrees * pi / 180), sin(degrees * pi / 180)
    return lambda p: (p[0] * c - p[1] * s, p[0] * s + p[1] * c)


def mirrored(point: Point) -> Point:
    """A point on the other side of the upright through the origin."""
    return -point[0], point[1]


def upended(point: Point) -> Point:
    """A point on the other side of the level through the origin."""
    return point[0], -point[1]


def arc(centre: Point, radius: float, start: float, stop: float) -> Points:
    """An arc between two angles in degrees, clockwise from 3 o'clock."""
    pieces = max(2, round(abs(stop - start) / 10))
    angles = (start + (stop - start) * i / pieces for i in range(pieces + 1))
    return tuple(
        (centre[0] + radius * cos(a * pi / 180), centre[1] + radius * sin(a * pi / 180))
        for a in angles
    )


def rounded(corners: Sequence[Corner]) -> Points:
    """A line through corners, each turned at its radius or what there is room for."""
    points = [corners[0][:2]]
    for before, corner, after in zip(corners, corners[1:], corners[2:], strict=False):
        points.extend(_turning(before[:2], corner, after[:2]))
    points.append(corners[-1][:2])
    return tuple(points)


def _turning(before: Point, corner: Corner, after: Point) -> Points:
    at = corner[:2]
    reach = min(corner[2], distance(before, at) / 2, distance(at, after) / 2)
    if reach <= 0:
        return (at,)
    start, stop = toward(at, before, reach), toward(at, after, reach)
    return tuple(_bezier(start, at, stop, i / _PIECES) for i in range(_PIECES + 1))


def _bezier(a: Point, b: Point, c: Point, t: float) -> Point:
    u = 1 - t
    return (
        u * u * a[0] + 2 * u * t * b[0] + t * t * c[0],
        u * u * a[1] + 2 * u * t * b[1] + t * t * c[1],
    )


def distance(a: Point, b: Point) -> float:
    """How far apart two points are."""
    return hypot(a[0] - b[0], a[1] - b[1])


def toward(a: Point, b: Point, reach: float) -> Point:
    """The point at a distance from one towards another."""
    length = distance(a, b)
    part = reach / length if length else 0.0
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def scaled(factor: float) -> Move:
    """A move away from the origin, or towards it."""
    return lambda p: (p[0] * factor, p[1] * factor)


def beside(points: Points, reach: float) -> Points:
    """A line that runs beside another at a distance, on the left of its course."""
    ends = (points[0], *points, points[-1])
    moved: list[Point] = []
    for before, at, after in zip(ends, points, ends[2:], strict=False):
        arms = [_across(a, b) for a, b in ((before, at), (at, after)) if a != b]
        x, y = (sum(arm[i] for arm in arms) / max(1, len(arms)) for i in (0, 1))
        square = x * x + y * y or 1.0
        moved.append((at[0] + reach * x / square, at[1] + reach * y / square))
    return tuple(moved)


def _across(a: Point, b: Point) -> Point:
    """The unit step to the left of the course from one point to another."""
    length = distance(a, b)
    return (b[1] - a[1]) / length, (a[0] - b[0]) / length


def below(polygon: Points, level: float) -> Points:
    """The part of a closed polygon that lies at or below a level line."""
    kept: list[Point] = []
    for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if a[1] >= level:
            kept.append(a)
        if (a[1] >= level) != (b[1] >= level):
            part = (level - a[1]) / (b[1] - a[1])
            kept.append((a[0] + (b[0] - a[0]) * part, level))
    return tuple(kept)


def above(polygon: Points, level: float) -> Points:
    """The part of a closed polygon that lies at or above a level line."""
    return tuple(map(upended, below(tuple(map(upended, polygon)), -level)))


def crossings(line: Points, level: float) -> Iterator[float]:
    """Where a line through points crosses a level line."""
    for a, b in pairwise(line):
        if (a[1] < level) != (b[1] < level):
            yield a[0] + (b[0] - a[0]) * (level - a[1]) / (b[1] - a[1])


def area(polygon: Points) -> float:
    """The area of a closed polygon."""
    pairs = zip(polygon, (*polygon[1:], polygon[:1][0]), strict=True) if polygon else ()
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


def level_of(polygon: Points, part: float) -> float:
    """The level below which a part of a polygon's area lies."""
    box = box_of(polygon)
    high, low, whole = box.top, box.bottom, area(polygon)
    for _ in range(30):
        middle = (high + low) / 2
        if area(below(polygon, middle)) > part * whole:
            high = middle
        else:
            low = middle
    return (high + low) / 2


def segments_cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two straight pieces cross inside both."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
