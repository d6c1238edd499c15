"""Smooth curves and tangents, held against NumPy and against known curves."""

from __future__ import annotations

from fractions import Fraction
from math import exp

import numpy as np
import pytest

from manualgen.quantities.curve import smooth_curve, tangent
from manualgen.quantities.fits import FitError, Point


def points(xs: list[float], ys: list[float]) -> list[Point]:
    return [Point(Fraction(x), Fraction(y)) for x, y in zip(xs, ys, strict=True)]


TIMES = [float(t) for t in range(11)]
DECAY = [10 * exp(-t / 4) for t in TIMES]


def test_a_parabola_is_followed_exactly() -> None:
    bent = points(TIMES, [3 - 2 * t + 0.5 * t**2 for t in TIMES])
    for x in (0.0, 2.5, 7.0, 10.0):
        touching = tangent(bent, x)
        assert touching.y == pytest.approx(3 - 2 * x + 0.5 * x**2)
        assert touching.gradient == pytest.approx(-2 + x)
        assert touching.intercept == pytest.approx(3 - 0.5 * x**2)


def test_three_points_are_joined_by_their_parabola() -> None:
    touching = tangent(points([0, 1, 2], [0, 1, 4]), 1.0)
    assert touching.y == pytest.approx(1.0)
    assert touching.gradient == pytest.approx(2.0)


def test_the_initial_rate_of_a_decay_is_near_its_true_one() -> None:
    # d/dt 10 exp(-t/4) is -2.5 at 0; a local parabola flattens it a little
    assert tangent(points(TIMES, DECAY), 0.0).gradient == pytest.approx(-2.5, rel=0.05)
    assert tangent(points(TIMES, DECAY), 4.0).gradient == pytest.approx(
        -2.5 * exp(-1), rel=0.03
    )


def test_a_tangent_is_the_weighted_least_squares_parabola_s() -> None:
    # tricube weights as Cleveland (1979) gives them; numpy.polyfit takes their roots
    ys = [y + (0.1 if i % 2 else -0.1) for i, y in enumerate(DECAY)]
    x, reach = 4.0, 1.1 * 2  # five of eleven readings are heard
    distance = np.abs(np.array(TIMES) - x) / reach
    weights = np.where(distance < 1, (1 - distance**3) ** 3, 0)
    fitted = np.polyfit(np.array(TIMES) - x, ys, 2, w=np.sqrt(weights))
    touching = tangent(points(TIMES, ys), x)
    assert touching.gradient == pytest.approx(fitted[1])
    assert touching.y == pytest.approx(fitted[2])


def test_the_curve_runs_from_the_first_reading_to_the_last() -> None:
    curve = smooth_curve(points(TIMES, DECAY), steps=20)
    assert [curve[0].x, curve[-1].x] == [0.0, 10.0]
    assert len(curve) == 21
    for piece in curve:
        assert piece.y == pytest.approx(10 * exp(-piece.x / 4), abs=0.1)


def test_scatter_is_smoothed_and_not_followed() -> None:
    up_and_down = [float(i % 2) for i in range(11)]
    curve = smooth_curve(points(TIMES, up_and_down))
    inside = [piece.y for piece in curve if 2 <= piece.x <= 8]
    assert all(0.05 < y < 0.95 for y in inside)


@pytest.mark.parametrize("xs", [[], [1.0], [1.0, 2.0], [1.0, 1.0, 2.0, 2.0]])
def test_too_few_readings_make_no_curve(xs: list[float]) -> None:
    with pytest.raises(FitError):
        smooth_curve(points(xs, xs))


def test_no_tangent_is_drawn_where_nothing_was_read() -> None:
    with pytest.raises(FitError, match="from 0 to 10"):
        tangent(points(TIMES, DECAY), 11.0)
