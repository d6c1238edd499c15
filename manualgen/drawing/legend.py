"""Where on a graph there is room for what its lines tell.

The paper is looked at square by square: a legend goes where none of its squares
has a point, an error bar or a line in it, as near to a corner as can be.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from operator import itemgetter
from typing import Final

from manualgen.drawing.face import lettering_mm
from manualgen.drawing.geometry import Box, Point, distance
from manualgen.drawing.labels import broken

SQUARE_MM: Final = 2.0
EDGE_MM: Final = 2.0
"""Between a legend and the edge of the paper."""
WIDTHS: Final = (0.6, 0.42, 0.3)
"""The longest lines of a legend, as parts of the paper's width, the best first."""
LEAST_MM: Final = 40.0


@dataclass(frozen=True, slots=True)
class Legend:
    """Lines of words, where they stand, and whether nothing else is there."""

    lines: tuple[str, ...]
    box: Box
    is_free: bool
    is_left: bool
    """Whether its lines begin, and do not end, at one upright."""


def place_legend(
    labels: Sequence[str], size_mm: float, paper: Box, inked: Iterable[Point]
) -> Legend:
    """The legend where the least is drawn on the paper."""
    taken = _taken(paper, inked)
    found: list[tuple[int, Legend]] = []
    for part in WIDTHS:
        widest = max(LEAST_MM, part * paper.width)
        lines = tuple(x for label in labels for x in broken(label, size_mm, widest))
        hidden, _, box = min(
            (
                (_hidden(taken, paper, box), _off_corner(box, paper), box)
                for box in _places(lines, size_mm, paper)
            ),
            key=itemgetter(0, 1),
        )
        is_left = box.left - paper.left < paper.right - box.right
        found.append((hidden, Legend(lines, box, not hidden, is_left)))
        if not hidden:
            break
    return min(found, key=lambda pair: pair[0])[1]


def _places(lines: tuple[str, ...], size_mm: float, paper: Box) -> Iterator[Box]:
    width = max(lettering_mm(line, size_mm) for line in lines) + 3
    height = size_mm * (0.6 + 1.4 * len(lines))
    for left in _steps(paper.left, paper.right - width):
        for top in _steps(paper.top, paper.bottom - height):
            yield Box(left, top, left + width, top + height)


def _steps(start: float, stop: float) -> Iterator[float]:
    """Places from one edge to the other, both of them included."""
    first, last = start + EDGE_MM, max(start + EDGE_MM, stop - EDGE_MM)
    steps = int((last - first) / SQUARE_MM)
    yield from (first + i * SQUARE_MM for i in range(steps + 1))
    yield last


def _off_corner(box: Box, paper: Box) -> float:
    """How far a box is from the nearest corner; a place at an edge counts half."""
    across = min(box.left - paper.left, paper.right - box.right)
    down = min(box.top - paper.top, paper.bottom - box.bottom)
    return max(across, down) + 2 * min(across, down)


def _taken(paper: Box, inked: Iterable[Point]) -> list[list[int]]:
    """For each corner of a square, how many squares above and left of it are inked."""
    columns = int(paper.width / SQUARE_MM) + 2
    rows = int(paper.height / SQUARE_MM) + 2
    squares = {_square(paper, point) for point in inked}
    table = [[0] * (columns + 1)]
    for row in range(rows):
        inked_here = ((column, row) in squares for column in range(columns))
        sums = accumulate(inked_here, initial=0)
        table.append([a + b for a, b in zip(table[-1], sums, strict=True)])
    return table


def _square(paper: Box, point: Point) -> tuple[int, int]:
    return (
        int((point[0] - paper.left) // SQUARE_MM),
        int((point[1] - paper.top) // SQUARE_MM),
    )


def _hidden(taken: list[list[int]], paper: Box, box: Box) -> int:
    """How many inked squares a box lies over."""
    left, top = _square(paper, (box.left, box.top))
    right, bottom = _square(paper, (box.right, box.bottom))
    left, top = max(0, left), max(0, top)
    right = min(len(taken[0]) - 1, right + 1)
    bottom = min(len(taken) - 1, bottom + 1)
    return (
        taken[bottom][right]
        - taken[top][right]
        - taken[bottom][left]
        + taken[top][left]
    )


def along(points: Sequence[Point]) -> Iterator[Point]:
    """Points on a line, no farther apart than half a square."""
    for a, b in pairwise(points):
        steps = max(1, int(distance(a, b) / SQUARE_MM * 2) + 1)
        for step in range(steps + 1):
            part = step / steps
            yield a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part
