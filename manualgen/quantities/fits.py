"""Least-squares fits to readings, in exact arithmetic.

Readings are decimals, so the normal equations are solved with fractions: no
figure is lost however ill-conditioned the set.  Only square roots make floats.
Uncertainties are standard ones (k = 1), from the scatter about the line with
n minus the number of coefficients degrees of freedom; where no point is left
over to show any scatter there are none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import lcm, sqrt
from typing import TypeAlias


class FitError(ValueError):
    """Points through which the line asked for cannot be drawn."""


@dataclass(frozen=True, slots=True, order=True)
class Point:
    """A reading of y at x, each in the unit of its axis."""

    x: Fraction
    y: Fraction


_ONE = Fraction(1)


@dataclass(frozen=True, slots=True)
class Polynomial:
    """The least-squares coefficients of some powers of x."""

    powers: tuple[int, ...]
    coefficients: tuple[Fraction, ...]
    inverse: tuple[tuple[Fraction, ...], ...]
    """Of the matrix of the normal equations; times `variance` the covariances."""
    residual_sum: Fraction
    """The sum of the squared residuals."""
    variance: Fraction | None
    """Of a single reading about the curve; None where nothing is left over."""

    def standard_uncertainty(self, index: int) -> float | None:
        """Of a coefficient, by its position."""
        if self.variance is None:
            return None
        return sqrt(self.variance * self.inverse[index][index])


def fit_polynomial(points: Sequence[Point], powers: tuple[int, ...]) -> Polynomial:
    """The coefficients that make the sum of squared residuals least.

    Raises `FitError` where the points do not determine them.
    """
    rows = [tuple(_power(point.x, power) for power in powers) for point in points]
    normal = [
        [_dot(a, b) for b in zip(*rows, strict=True)] for a in zip(*rows, strict=True)
    ]
    ys = tuple(point.y for point in points)
    right = [_dot(column, ys) for column in zip(*rows, strict=True)]
    inverse = _inverse(normal) if points else None
    if inverse is None:
        raise FitError(_too_few(points, powers))
    coefficients = tuple(_dot(row, right) for row in inverse)
    residuals = tuple(
        y - _dot(row, coefficients) for row, y in zip(rows, ys, strict=True)
    )
    squares = _dot(residuals, residuals)
    left_over = len(points) - len(powers)
    variance = squares / left_over if left_over else None
    return Polynomial(powers, coefficients, inverse, squares, variance)


def _power(x: Fraction, power: int) -> Fraction:
    """A power of x; nearly all are the powers of a straight line."""
    match power:
        case 0:
            return _ONE
        case 1:
            return x
        case _:
            return x**power


def _dot(left: Sequence[Fraction], right: Sequence[Fraction]) -> Fraction:
    """The sum of products, brought to lowest terms once and not at every step."""
    terms = [
        (a.numerator * b.numerator, a.denominator * b.denominator)
        for a, b in zip(left, right, strict=True)
    ]
    common = lcm(*(denominator for _, denominator in terms))
    return Fraction(sum(n * (common // d) for n, d in terms), common)


def _inverse(matrix: list[list[Fraction]]) -> tuple[tuple[Fraction, ...], ...] | None:
    """By Gauss and Jordan; None where the matrix is singular."""
    size = len(matrix)
    rows = [
        [*row, *(Fraction(i == j) for j in range(size))] for i, row in enumerate(matrix)
    ]
    for step in range(size):
        pivot = next((r for r in range(step, size) if rows[r][step]), None)
        if pivot is None:
            return None
        rows[step], rows[pivot] = rows[pivot], rows[step]
        rows[step] = [value / rows[step][step] for value in rows[step]]
        for other in range(size):
            if other != step:
                factor = rows[other][step]
                pairs = zip(rows[other], rows[step], strict=True)
                rows[other] = [a - factor * b for a, b in pairs]
    return tuple(tuple(row[size:]) for row in rows)


def _too_few(points: Sequence[Point], powers: tuple[int, ...]) -> str:
    different = len({point.x for point in points})
    return (
        f"{different} different x among {len(points)} points; "
        f"this line needs at least {len(powers)}"
    )


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line through readings, ``y = intercept + gradient x``."""

    gradient: Fraction
    intercept: Fraction
    u_gradient: float | None
    u_intercept: float | None
    correlation: float | None
    """Of gradient and intercept; they are never independent."""
    residual_sd: float | None
    residual_sum: Fraction
    points: tuple[Point, ...]

    def at(self, x: Fraction) -> Fraction:
        """The y of the line at x."""
        return self.intercept + self.gradient * x


def fit_line(points: Sequence[Point]) -> Line:
    """The least-squares straight line (of y on x, all readings alike).

    Two points give a line without uncertainties.  Raises `FitError` for fewer,
    or where all stand at the same x.
    """
    fit = fit_polynomial(points, (0, 1))
    intercept, gradient = fit.coefficients
    (aa, ab), (_, bb) = fit.inverse
    return Line(
        gradient,
        intercept,
        fit.standard_uncertainty(1),
        fit.standard_uncertainty(0),
        None if fit.variance is None else float(ab) / sqrt(aa * bb),
        None if fit.variance is None else sqrt(fit.variance),
        fit.residual_sum,
        tuple(points),
    )


def fit_two_lines(points: Sequence[Point]) -> tuple[Line, Line]:
    """The two lines, one after the other in x, that leave the least scatter.

    Each takes at least three points where there are six, else at least two.
    Raises `FitError` for fewer than four points.
    """
    ordered = sorted(points)
    least = 3 if len(ordered) >= 6 else 2
    if len(ordered) < 2 * least:
        raise FitError(f"two lines need at least 4 points, not {len(ordered)}")
    cuts = [
        cut
        for cut in range(least, len(ordered) - least + 1)
        if ordered[cut - 1].x < ordered[cut].x
    ]
    before = list(accumulate(map(_sums_of, ordered), _added, initial=_NO_SUMS))
    scatter: dict[int, Fraction] = {}
    for cut in cuts:
        left = _residual_sum(before[cut])
        right = _residual_sum(_without(before[-1], before[cut]))
        if left is not None and right is not None:
            scatter[cut] = left + right
    if not scatter:
        raise FitError("the points do not part into two lines")
    best = min(scatter, key=scatter.__getitem__)
    return fit_line(ordered[:best]), fit_line(ordered[best:])


_Sums: TypeAlias = tuple[Fraction, ...]
"""Of points: their number, and the sums of x, y, x², xy and y²."""
_NO_SUMS: _Sums = (Fraction(0),) * 6


def _sums_of(point: Point) -> _Sums:
    x, y = point.x, point.y
    return _ONE, x, y, x * x, x * y, y * y


def _added(one: _Sums, other: _Sums) -> _Sums:
    return tuple(a + b for a, b in zip(one, other, strict=True))


def _without(all_of_them: _Sums, some: _Sums) -> _Sums:
    return tuple(a - b for a, b in zip(all_of_them, some, strict=True))


def _residual_sum(sums: _Sums) -> Fraction | None:
    """Of the squares about the best line; None where all stand at one x."""
    number, x, y, xx, xy, yy = sums
    spread = number * xx - x * x
    if not spread:
        return None
    together = number * xy - x * y
    return (number * yy - y * y - together * together / spread) / number


def crossing(first: Line, second: Line) -> Point | None:
    """Where two lines cross; None where they are parallel."""
    if first.gradient == second.gradient:
        return None
    x = (second.intercept - first.intercept) / (first.gradient - second.gradient)
    return Point(x, first.at(x))
