"""The pieces of every arrangement, measured on its lines.

Pieces are told apart by the arrangement, but where each of them is, is measured
on what is drawn of it.  0.1 mm is a quarter of a line's weight.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest

from manualgen.drawing.parts import Way
from manualgen.drawing.setup import Drawing, compose
from manualgen.drawing.shape import Shape, Stroke, Style
from manualgen.drawing.tubing import Run
from tests.drawing.seen import Box, Piece, Point, crosses, far_from
from tests.drawing.setups import parts, texts

TITLES = tuple(texts())
DRAWINGS = {title: compose(parts(title), 3.1) for title in TITLES}
NEAR_MM = 0.1
LYING_LEVEL = (
    "gas syringe",
    "drying tube",
    "hard-glass tube",
    "rubber tubing",
    "filter pump",
)
"""What lies at the height of the tube that leads to it."""

every = pytest.mark.parametrize("title", TITLES)


def pieces_of(strokes: tuple[Stroke, ...]) -> list[Piece]:
    found: list[Piece] = []
    for stroke in strokes:
        if stroke.style not in (Style.HOLLOW, Style.LIQUID):
            ends = stroke.points[:1] if stroke.closed else ()
            found.extend(pairwise((*stroke.points, *ends)))
    return found


def inked(shape: Shape) -> list[Piece]:
    """The lines of a piece and of what is in it."""
    return pieces_of((*shape.strokes, *shape.over))


def glass(shape: Shape) -> list[Piece]:
    """The lines of a piece alone."""
    own = (Style.LINE, Style.BODY, Style.SHADE, Style.SOLID)
    return pieces_of(tuple(s for s in shape.strokes if s.style in own))


def extent(pieces: list[Piece]) -> Box:
    xs = [x for piece in pieces for x, _ in piece]
    ys = [y for piece in pieces for _, y in piece]
    return Box(min(xs), min(ys), max(xs), max(ys))


def walls_at(shape: Shape, y: float) -> list[float]:
    """Where the lines of a piece are at a height."""
    return sorted(
        ax + (bx - ax) * (y - ay) / (by - ay)
        for (ax, ay), (bx, by) in glass(shape)
        if (ay < y) != (by < y)
    )


def shapes(drawing: Drawing) -> dict[int, Shape]:
    return {i: s for group in drawing.layout.groups for i, s in group.shapes.items()}


def liquids(shape: Shape) -> Iterator[tuple[Point, ...]]:
    return (s.points for s in shape.strokes if s.style is Style.LIQUID)


def level(shape: Shape) -> float | None:
    """The height of the surface of what a vessel holds."""
    return min((y for body in liquids(shape) for _, y in body), default=None)


def tubes(title: str) -> list[Run]:
    return [r for r in DRAWINGS[title].runs if r.connection.way is Way.TUBE]


def is_touching(some: list[Piece], others: list[Piece]) -> bool:
    """Whether lines cross, or come nearer than can be seen."""
    ends = [p for piece in some for p in piece]
    their_ends = [p for piece in others for p in piece]
    return (
        any(far_from(p, others) < NEAR_MM for p in ends)
        or any(far_from(p, some) < NEAR_MM for p in their_ends)
        or any(crosses(a, b) for a in some for b in others)
    )
