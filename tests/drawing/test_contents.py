"""What the vessels of every arrangement hold, and what dips into it.

Common practice, no source.
"""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest

from manualgen.drawing.shape import Shape, Style
from tests.drawing.measured import (
    DRAWINGS,
    NEAR_MM,
    every,
    extent,
    glass,
    inked,
    level,
    liquids,
    shapes,
    walls_at,
)
from tests.drawing.seen import Box, far_from
from tests.drawing.setups import parts

DIPS = ("thermometer", "probe", "electrode", "electrodes", "metal strip", "stirrer")


@every
def test_a_liquid_reaches_from_wall_to_wall_and_no_farther(title: str) -> None:
    for shape in shapes(DRAWINGS[title]).values():
        for body in liquids(shape):
            top, bottom = min(y for _, y in body), max(y for _, y in body)
            for part in (0.03, 0.3, 0.6):
                y = top + (bottom - top) * part
                edges = sorted(
                    ax + (bx - ax) * (y - ay) / (by - ay)
                    for (ax, ay), (bx, by) in pairwise((*body, body[0]))
                    if (ay < y) != (by < y)
                )
                holder = inked(shape)
                assert far_from((edges[0], y), holder) < NEAR_MM
                assert far_from((edges[-1], y), holder) < NEAR_MM


@every
def test_a_surface_lies_where_its_liquid_ends(title: str) -> None:
    for shape in shapes(DRAWINGS[title]).values():
        surfaces = [s.points for s in shape.strokes if s.style is Style.SURFACE]
        for a, b in surfaces:
            assert a[1] == b[1]
        if surfaces:
            assert min(a[1] for a, _ in surfaces) == pytest.approx(level(shape))


@every
def test_lumps_lie_inside_their_vessel(title: str) -> None:
    for shape in shapes(DRAWINGS[title]).values():
        for lump in (s for s in shape.strokes if s.style is Style.GRAIN):
            for x, y in lump.points:
                walls = walls_at(shape, y)
                if len(walls) > 1:
                    assert walls[0] - 0.05 < x < walls[-1] + 0.05


@every
def test_what_a_vessel_holds_is_drawn(title: str) -> None:
    for index, part in enumerate(parts(title)):
        if index in DRAWINGS[title].layout.same:
            continue
        drawn = {s.style for s in DRAWINGS[title].layout.shape(index).strokes}
        for content in part.contents:
            assert {"liquid": Style.LIQUID, "gas": Style.LINE}.get(
                content.kind.value, Style.GRAIN
            ) in drawn or content.kind.value == "gas"


@every
def test_what_is_in_one_vessel_keeps_apart(title: str) -> None:
    drawing = DRAWINGS[title]
    for vessel, inserts in drawing.layout.inserts.items():
        holder = drawing.layout.shape(vessel)
        rim = extent(glass(holder)).top
        boxes = [below(drawing.layout.shape(i), rim) for i in inserts]
        for one, other in combinations(boxes, 2):
            assert not one.meets(other)
        for box in boxes:
            walls = walls_at(holder, box.bottom)
            assert walls[0] < box.left
            assert box.right < walls[-1]


def below(shape: Shape, rim: float) -> Box:
    """What a piece takes up below a height."""
    low = [p for piece in glass(shape) for p in piece if p[1] > rim]
    return extent(list(pairwise(low)))


@every
def test_what_is_to_dip_ends_in_the_liquid_or_the_solid(title: str) -> None:
    drawing = DRAWINGS[title]
    for vessel, inserts in drawing.layout.inserts.items():
        holder = drawing.layout.shape(vessel)
        for index in inserts:
            if parts(title)[index].name not in DIPS:
                continue
            tip = extent(glass(drawing.layout.shape(index))).bottom
            top = min(
                (
                    y
                    for s in holder.strokes
                    if s.style in (Style.LIQUID, Style.GRAIN)
                    for _, y in s.points
                ),
                default=None,
            )
            floor = extent(glass(holder)).bottom
            assert top is None or top < tip < floor
