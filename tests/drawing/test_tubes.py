"""The tubes, leads and salt bridges of every arrangement, and the bungs in its mouths.

What has to touch, to dip and to close is common practice, no source.
"""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest

from manualgen.drawing.parts import Way
from manualgen.drawing.setup import Drawing
from manualgen.drawing.shape import Shape, Stroke, Style
from manualgen.drawing.tubing import Run
from tests.drawing.measured import (
    DRAWINGS,
    LYING_LEVEL,
    NEAR_MM,
    TITLES,
    every,
    extent,
    glass,
    level,
    liquids,
    pieces_of,
    shapes,
    tubes,
    walls_at,
)
from tests.drawing.seen import Piece, Point, crosses, far_from, is_inside
from tests.drawing.setups import parts


def bungs(drawing: Drawing) -> list[Stroke]:
    return [
        stroke
        for group in drawing.layout.groups
        for stroke in group.fittings
        if stroke.style is Style.SHADE and len(stroke.points) == 4
    ]


def ends_of(run: Run) -> tuple[tuple[int, Point, tuple[Point, Point]], ...]:
    """Each end of a tube: the piece there, its middle, and the ends of both walls."""
    _, left, right = run.strokes
    return tuple(
        (index, run.points[end], (left.points[end], right.points[end]))
        for index, end in ((run.connection.source, 0), (run.connection.target, -1))
    )


def test_a_tube_is_drawn_as_two_walls_about_its_course() -> None:
    for title in TITLES:
        for run in tubes(title):
            for wall in run.strokes[1:]:
                for point in wall.points:
                    off = far_from(point, list(pairwise(run.points)))
                    assert off == pytest.approx(1.05, abs=0.08)


@every
def test_every_end_of_a_tube_is_joined_or_inside(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in tubes(title):
        for index, middle, walls in ends_of(run):
            shape = drawing.layout.shape(index)
            at_glass = all(far_from(w, glass(shape)) < NEAR_MM for w in walls)
            assert at_glass or is_within(shape, middle), (title, index)


def is_within(shape: Shape, point: Point) -> bool:
    """Whether a point has the walls of a piece on either side."""
    walls = walls_at(shape, point[1])
    return bool(walls) and walls[0] < point[0] < walls[-1]


@every
def test_a_tube_passes_through_its_bung_and_ends_above_the_liquid(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in tubes(title):
        shape = drawing.layout.shape(run.connection.source)
        middle = run.points[0]
        if far_from(middle, glass(shape)) < 1.2 or not shape.mouth:
            continue
        holding = [b for b in bungs(drawing) if _spans(b, middle[0], shape)]
        assert len(holding) == 1
        (bung,) = holding
        low = max(y for _, y in bung.points)
        walls = [wall.points[0] for wall in run.strokes[1:]]
        for x, y in walls:
            assert is_inside((x, low - 0.05), bung.points)
            assert y > low
        surface = level(shape)
        assert surface is None or middle[1] < surface


def _spans(bung: Stroke, x: float, vessel: Shape) -> bool:
    """Whether a bung is in the mouth of a vessel, where a tube goes through."""
    rim = extent(glass(vessel)).top
    ys = [y for _, y in bung.points]
    xs = [x for x, _ in bung.points]
    return min(ys) < rim + 0.1 < max(ys) and min(xs) < x < max(xs)


@every
def test_a_bung_closes_the_mouth_it_is_in(title: str) -> None:
    drawing = DRAWINGS[title]
    for index in drawing.layout.closed:
        shape = drawing.layout.shape(index)
        assert shape.mouth
        x, rim = shape.mouth.at
        fits = [b for b in bungs(drawing) if is_inside((x, rim), b.points)]
        assert len(fits) == 1
        top, low = (e(y for _, y in fits[0].points) for e in (min, max))
        width = {
            y: max(x for x, py in fits[0].points if py == y) - x for y in (top, low)
        }
        necks = [w - x for w in walls_at(shape, low) if 0 < w - x < 20]
        rims = [w - x for w in walls_at(shape, rim + 2.3) if 0 < w - x < 20]
        assert width[low] <= min(necks) + 0.01
        assert width[top] > min(rims)


@every
def test_a_tube_into_a_liquid_dips_below_its_surface(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in tubes(title):
        shape = drawing.layout.shape(run.connection.target)
        end = run.points[-1]
        if (
            far_from(end, glass(shape)) < 1.2
            and parts(title)[run.connection.target].name in LYING_LEVEL
        ):
            continue
        surface = level(shape)
        floor = extent(glass(shape)).bottom
        if "rim" in shape.others:
            rim = floor
            assert end[1] < rim - 1
        else:
            assert end[1] < floor - 1
        if surface is not None:
            assert end[1] > surface + 1


@every
def test_every_lead_ends_on_metal(title: str) -> None:
    drawing = DRAWINGS[title]
    ink = [p for shape in shapes(drawing).values() for p in glass(shape)]
    for run in drawing.runs:
        if run.connection.way is Way.LEAD:
            assert far_from(run.points[0], ink) < NEAR_MM
            assert far_from(run.points[-1], ink) < NEAR_MM


@every
def test_a_salt_bridge_dips_into_both_liquids(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in drawing.runs:
        if run.connection.way is not Way.BRIDGE:
            continue
        ends = run.connection.source, run.points[0], run.connection.target
        for index, end in ((ends[0], run.points[0]), (ends[2], run.points[-1])):
            shape = drawing.layout.shape(index)
            assert any(is_inside(end, body) for body in liquids(shape))


@every
def test_what_goes_through_one_bung_keeps_apart(title: str) -> None:
    drawing = DRAWINGS[title]
    through: dict[int, list[list[Piece]]] = {}
    for index, vessel in drawing.layout.through.items():
        through.setdefault(vessel, []).append(glass(drawing.layout.shape(index)))
    for run in tubes(title):
        for vessel in (run.connection.source, run.connection.target):
            if vessel in drawing.layout.closed:
                through.setdefault(vessel, []).append(pieces_of(run.strokes))
    for several in through.values():
        for one, other in combinations(several, 2):
            assert not any(crosses(p, q) for p in one for q in other)


def test_a_gas_syringe_lies_level_at_the_height_of_its_tube() -> None:
    for title in ("gas syringe", "gas syringe held", "syringe through a bung"):
        for run in tubes(title):
            assert run.points[-1][1] == pytest.approx(run.points[-2][1])
