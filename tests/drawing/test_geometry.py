"""Points, curves and areas, checked against school geometry."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.drawing.geometry import (
    arc,
    area,
    below,
    box_of,
    distance,
    level_of,
    rounded,
    segments_cross,
    turn,
)

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


def test_the_area_of_a_square_is_its_side_squared() -> None:
    assert area(SQUARE) == 100


def test_an_arc_keeps_its_radius() -> None:
    assert all(distance(p, (1, 2)) == pytest.approx(5) for p in arc((1, 2), 5, 0, 250))


def test_a_full_circle_has_nearly_the_area_of_one() -> None:
    assert area(arc((0, 0), 10, 0, 360)) == pytest.approx(pi * 100, rel=0.01)


@given(st.floats(0.05, 0.95))
def test_half_of_the_area_lies_below_half_of_the_level(part: float) -> None:
    level = level_of(SQUARE, part)
    assert area(below(SQUARE, level)) == pytest.approx(part * 100, rel=0.01)


def test_a_quarter_turn_goes_clockwise_on_the_page() -> None:
    assert turn(90)((1.0, 0.0)) == pytest.approx((0.0, 1.0))


def test_a_rounded_corner_stays_inside_the_corner() -> None:
    line = rounded(((0, 0, 0), (10, 0, 3), (10, 10, 0)))
    box = box_of(line)
    assert (box.left, box.top, box.right, box.bottom) == (0, 0, 10, 10)
    assert (10, 0) not in line
    assert line[0] == (0, 0)
    assert line[-1] == (10, 10)


def test_lines_cross_only_inside_both() -> None:
    assert segments_cross((0, 0), (10, 10), (0, 10), (10, 0))
    assert not segments_cross((0, 0), (4, 4), (0, 10), (10, 0))
