"""How every arrangement stands: held, heated, on the bench, and nothing in the way.

Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

import pytest

from manualgen.drawing.parts import Arrangement
from manualgen.drawing.setup import Drawing
from manualgen.drawing.shape import Shape, Stroke, Style
from tests.drawing.measured import (
    DRAWINGS,
    LYING_LEVEL,
    NEAR_MM,
    every,
    extent,
    glass,
    inked,
    is_touching,
    pieces_of,
    shapes,
)
from tests.drawing.seen import Point, far_from
from tests.drawing.setups import parts

IN_THE_HAND = ("pipette", "dropping pipette")


def clamped(drawing: Drawing) -> Iterator[tuple[Shape, Shape]]:
    for held, stand in drawing.layout.held:
        yield drawing.layout.shape(held), drawing.layout.shape(stand)


@every
def test_a_clamp_touches_what_it_holds(title: str) -> None:
    for held, stand in clamped(DRAWINGS[title]):
        jaws = [s for s in stand.strokes if s.style is Style.SHADE]
        corners = [p for jaw in jaws for p in sides_of(jaw)]
        assert min(far_from(p, glass(held)) for p in corners) < NEAR_MM


def sides_of(stroke: Stroke) -> Iterator[Point]:
    """The corners of a closed stroke and points between them."""
    for (ax, ay), (bx, by) in pairwise((*stroke.points, stroke.points[0])):
        for part in (0, 0.25, 0.5, 0.75):
            yield ax + (bx - ax) * part, ay + (by - ay) * part


@every
def test_the_foot_of_a_stand_is_clear_of_everything_on_the_bench(title: str) -> None:
    drawing = DRAWINGS[title]
    for _, stand in clamped(drawing):
        foot = extent(pieces_of((stand.strokes[1],)))
        for shape in shapes(drawing).values():
            if shape is not stand:
                crossing = [p for p in inked(shape) if extent([p]).meets(foot)]
                assert crossing == []


@every
def test_a_flame_burns_right_under_what_it_heats(title: str) -> None:
    drawing = DRAWINGS[title]
    for index, part in enumerate(parts(title)):
        if part.name not in ("burner", "spirit burner"):
            continue
        burner = drawing.layout.shape(index)
        flame = extent(
            pieces_of(tuple(s for s in burner.strokes if s.style is Style.THIN))
        )
        tip = ((flame.left + flame.right) / 2, flame.top)
        over = [
            y
            for i, shape in drawing.layout.group(index).shapes.items()
            if i != index
            for (ax, y), (bx, _) in glass(shape)
            if min(ax, bx) <= tip[0] <= max(ax, bx) and y <= tip[1] + 0.05
        ]
        assert over
        assert 0 <= tip[1] - max(over) + 0.05 < 9


@every
def test_pieces_side_by_side_keep_apart(title: str) -> None:
    groups = [g for g in DRAWINGS[title].layout.groups if g.shapes]
    for one, other in combinations(groups, 2):
        for a in one.shapes.values():
            for b in other.shapes.values():
                assert not extent(inked(a)).meets(extent(inked(b)))


@every
def test_nothing_is_below_the_bench_and_something_stands_on_it(title: str) -> None:
    lowest = max(extent(inked(s)).bottom for s in shapes(DRAWINGS[title]).values())
    assert lowest == pytest.approx(0, abs=0.01)


@every
def test_no_piece_hangs_in_the_air(title: str) -> None:
    drawing = DRAWINGS[title]
    for index, shape in shapes(drawing).items():
        assert is_supported(drawing.layout, index, shape), parts(title)[index].name


def is_supported(layout: Arrangement, index: int, shape: Shape) -> bool:
    """Whether a piece stands, is held, hangs at its tube, dips in, or rests on another."""
    part, group = layout.parts[index], layout.group(index)
    own = inked(shape)
    others = [p for i, s in group.shapes.items() if i != index for p in glass(s)]
    others += pieces_of(tuple(group.fittings))
    return (
        extent(own).bottom > -0.01
        or any(held == index for held, _ in layout.held)
        or "sign" in shape.others
        or part.name in (*LYING_LEVEL, *IN_THE_HAND)
        or index in {i for several in layout.inserts.values() for i in several}
        or is_touching(own, others)
    )


def test_a_clamp_that_is_moved_off_is_found_loose() -> None:
    (held, stand) = next(clamped(DRAWINGS["titration"]))
    off = stand.moved(lambda p: (p[0] - 0.5, p[1]))
    jaws = [s for s in off.strokes if s.style is Style.SHADE]
    corners = [p for jaw in jaws for p in sides_of(jaw)]
    assert min(far_from(p, glass(held)) for p in corners) > NEAR_MM
