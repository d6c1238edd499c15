"""A smooth curve through readings, and the tangent to it.

Each point of the curve is read off a parabola fitted to the readings near it,
the nearer weighing more (Cleveland's locally weighted regression, J. Am. Stat.
Assoc. 74 (1979) 829, with his tricube weights).  The tangent is that of the
same parabola, so it touches the curve that is drawn, at the ends too, where an
initial rate is read.  No uncertainty is claimed for it: it depends on how
strongly one smooths.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from manualgen.quantities.fits import FitError, Point

FEWEST = 3
"""Points that determine a parabola."""


@dataclass(frozen=True, slots=True)
class Tangent:
    """The line ``y = intercept + gradient x`` that touches the curve at ``x``."""

    x: float
    y: float
    gradient: float

    @property
    def intercept(self) -> float:
        """Where the tangent meets x = 0."""
        return self.y - self.gradient * self.x


def tangent(points: Sequence[Point], x: float) -> Tangent:
    """The tangent to the smooth curve at x.

    Raises `FitError` for fewer than three different x, or outside them.
    """
    places = sorted({float(p.x) for p in points})
    if len(places) < FEWEST:
        raise FitError(f"a curve needs at least {FEWEST} different x")
    if not places[0] <= x <= places[-1]:
        raise FitError(
            f"there are readings from {places[0]:g} to {places[-1]:g}, none about {x:g}"
        )
    value, gradient = _local_parabola(points, x, _reach(places, x))
    return Tangent(x, value, gradient)


def smooth_curve(points: Sequence[Point], steps: int = 60) -> tuple[Tangent, ...]:
    """Points of the smooth curve, evenly spaced from the first x to the last.

    Each has its gradient, so that a drawing can join them by cubic curves.
    Raises `FitError` for fewer than three different x.
    """
    if not points:
        raise FitError(f"a curve needs at least {FEWEST} different x")
    first, last = float(min(points).x), float(max(points).x)
    step = (last - first) / steps
    return tuple(
        tangent(points, last if i == steps else first + i * step)
        for i in range(steps + 1)
    )


def _reach(places: list[float], x: float) -> float:
    """How far a reading is heard: a little past two fifths of them, or past five."""
    distances = sorted(abs(place - x) for place in places)
    heard = min(len(places), max(5, ceil(0.4 * len(places))))
    return 1.1 * distances[heard - 1]


def _local_parabola(
    points: Sequence[Point], x: float, reach: float
) -> tuple[float, float]:
    """Value and gradient at x of the weighted parabola about it."""
    offsets = [((float(p.x) - x) / reach, float(p.y)) for p in points]
    near = [(d, y, (1 - abs(d) ** 3) ** 3) for d, y in offsets if abs(d) < 1]
    moments = [sum(w * d**k for d, _, w in near) for k in range(5)]
    right = [sum(w * y * d**k for d, y, w in near) for k in range(3)]
    matrix = [moments[k : k + 3] for k in range(3)]
    whole = _determinant(matrix)
    value, slope = (
        _determinant(
            [
                [right[i] if j == column else matrix[i][j] for j in range(3)]
                for i in range(3)
            ]
        )
        / whole
        for column in (0, 1)
    )
    return value, slope / reach


def _determinant(m: list[list[float]]) -> float:
    return (
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    )
