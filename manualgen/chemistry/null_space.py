"""Exact linear algebra of reactions: integers in, integers out.

The columns of a matrix are species, its rows what a reaction conserves. Tests
hold `null_space` against SymPy's ``DomainMatrix``; a dozen lines of elimination
on Python's own integers give the same answer without half a second's import.
"""

from __future__ import annotations

from math import gcd
from typing import TYPE_CHECKING, Final, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Vector: TypeAlias = tuple[int, ...]

MOST_RAYS: Final = 300
"""Candidates at which the search for extreme rays gives up; schools need a dozen."""

MOST_PAIRS: Final = 2000
"""Pairs of candidates that are joined in one step, each to be held against the rest."""


def null_space(rows: Sequence[Sequence[int]], width: int) -> tuple[Vector, ...]:
    """A basis of the vectors that every row sends to zero, each in lowest terms.

    One vector a free column, in the columns' order; that column's entry is
    positive.
    """
    reduced, pivots = _eliminate(rows, width)
    free = [column for column in range(width) if column not in pivots]
    return tuple(_solution(reduced, pivots, column, width) for column in free)


def _eliminate(
    rows: Sequence[Sequence[int]], width: int
) -> tuple[list[list[int]], list[int]]:
    """Rows in which each pivot column has one entry, and those columns."""
    left = [list(row) for row in rows]
    pivots: list[int] = []
    for column in range(width):
        done = len(pivots)
        row = next((i for i in range(done, len(left)) if left[i][column]), None)
        if row is None:
            continue
        left[done], left[row] = left[row], left[done]
        pivot = left[done]
        for i, other in enumerate(left):
            if i != done and (factor := other[column]):
                left[i] = _in_lowest_terms(
                    [
                        pivot[column] * a - factor * b
                        for a, b in zip(other, pivot, strict=True)
                    ]
                )
        pivots.append(column)
    return left[: len(pivots)], pivots


def _solution(
    reduced: list[list[int]], pivots: list[int], free: int, width: int
) -> Vector:
    """The vector that belongs to one free column, the other free ones being zero."""
    scale = 1
    for row, pivot in zip(reduced, pivots, strict=True):
        scale = scale * abs(row[pivot]) // gcd(scale, row[pivot])
    vector = [0] * width
    vector[free] = scale
    for row, pivot in zip(reduced, pivots, strict=True):
        vector[pivot] = -row[free] * scale // row[pivot]
    return tuple(_in_lowest_terms(vector))


def extreme_rays(rows: Iterable[Sequence[int]], width: int) -> tuple[Vector, ...]:
    """The reactions of which all others are sums: no entry negative, none superfluous.

    Every non-negative vector of the null space is a sum of these. They come
    shortest first. None at all come back where there would be more than
    `MOST_RAYS`.
    """
    rays: list[Vector] = [
        tuple(int(i == column) for i in range(width)) for column in range(width)
    ]
    for row in rows:
        rays = _with_row(rays, row)
        if len(rays) > MOST_RAYS:
            return ()
    return tuple(sorted(rays, key=lambda ray: (len(_support(ray)), sum(ray))))


def independent(vectors: Iterable[Vector]) -> tuple[Vector, ...]:
    """Those that are no sum of multiples of the ones before them."""
    kept: list[Vector] = []
    for vector in vectors:
        _, pivots = _eliminate([*kept, vector], len(vector))
        if len(pivots) > len(kept):
            kept.append(vector)
    return tuple(kept)


def _with_row(rays: list[Vector], row: Sequence[int]) -> list[Vector]:
    """The extreme rays of what is left when ``row`` must come to zero too."""
    values = [sum(a * b for a, b in zip(row, ray, strict=True)) for ray in rays]
    kept = [ray for ray, value in zip(rays, values, strict=True) if not value]
    above = [(r, v) for r, v in zip(rays, values, strict=True) if v > 0]
    below = [(r, v) for r, v in zip(rays, values, strict=True) if v < 0]
    if len(above) * len(below) > MOST_PAIRS:
        return [()] * (MOST_RAYS + 1)
    for ray, value in above:
        for other, deficit in below:
            joined = [value * b - deficit * a for a, b in zip(ray, other, strict=True)]
            kept.append(tuple(_in_lowest_terms(joined)))
    return _minimal(kept)


def _minimal(rays: list[Vector]) -> list[Vector]:
    """Those whose species are not among another's besides."""
    distinct = {_support(ray): ray for ray in rays}
    return [
        ray
        for support, ray in distinct.items()
        if not any(other < support for other in distinct)
    ]


def _support(ray: Vector) -> frozenset[int]:
    return frozenset(i for i, entry in enumerate(ray) if entry)


def _in_lowest_terms(numbers: list[int]) -> list[int]:
    divisor = gcd(*numbers)
    return [number // divisor for number in numbers] if divisor > 1 else numbers
