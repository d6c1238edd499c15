"""Straight lines by least squares, held against certified values."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import sqrt
from pathlib import Path
from statistics import fmean
from typing import Any

import pytest
import yaml
from hypothesis import assume, given
from hypothesis import strategies as st

from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.fits import (
    FitError,
    Line,
    Point,
    crossing,
    fit_line,
    fit_polynomial,
    fit_two_lines,
)
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.uncertainty import Input, combined_uncertainty, correlated
from manualgen.quantities.value import Value

DATA = Path(__file__).with_name("linear_fits.yaml")


@cache
def sets() -> dict[str, dict[str, Any]]:
    rows = yaml.load(DATA.read_text("utf-8"), yaml.BaseLoader)["fits"]
    return {row["id"]: row for row in rows}


def points_of(row: dict[str, Any]) -> list[Point]:
    pairs = zip(row["x"], row["y"], strict=True)
    return [Point(Fraction(x), Fraction(y)) for x, y in pairs]


def points(*pairs: tuple[str, str]) -> list[Point]:
    return [Point(Fraction(x), Fraction(y)) for x, y in pairs]


def root(number: Fraction | None) -> float:
    assert number is not None
    return sqrt(number)


@pytest.mark.parametrize("name", ["FIT-NORRIS", "FIT-CAL1", "FIT-CAL2", "FIT-CAL3"])
def test_straight_lines_agree_with_the_certified_figures(name: str) -> None:
    row = sets()[name]
    line = fit_line(points_of(row))
    found = {
        "slope": float(line.gradient),
        "intercept": float(line.intercept),
        "s_slope": line.u_gradient,
        "s_intercept": line.u_intercept,
        "residual_sd": line.residual_sd,
    }
    for key, expected in row["recomputed_20_digits"].items():
        if key in found:
            assert found[key] == pytest.approx(float(expected), rel=1e-13)
    for key in found:
        assert found[key] == pytest.approx(float(row[key]), rel=float(row["tolerance"]))


def test_norris_is_reproduced_to_nine_digits_and_more() -> None:
    # NIST StRD, certified values
    line = fit_line(points_of(sets()["FIT-NORRIS"]))
    assert float(line.gradient) == pytest.approx(1.00211681802045, rel=1e-14)
    assert float(line.intercept) == pytest.approx(-0.262323073774029, rel=1e-14)
    assert line.u_gradient == pytest.approx(0.429796848199937e-03, rel=1e-14)
    assert line.u_intercept == pytest.approx(0.232818234301152, rel=1e-14)


@pytest.mark.parametrize("name", ["FIT-NOINT1", "FIT-NOINT2"])
def test_lines_through_the_origin_agree_with_the_certified_figures(name: str) -> None:
    row = sets()[name]
    fit = fit_polynomial(points_of(row), (1,))
    assert float(fit.coefficients[0]) == pytest.approx(float(row["slope"]), rel=1e-13)
    assert fit.standard_uncertainty(0) == pytest.approx(
        float(row["s_slope"]), rel=1e-13
    )
    assert root(fit.variance) == pytest.approx(float(row["residual_sd"]), rel=1e-13)


def test_a_parabola_agrees_with_the_certified_figures() -> None:
    row = sets()["FIT-PONTIUS"]
    fit = fit_polynomial(points_of(row), (0, 1, 2))
    for power, coefficient in enumerate(fit.coefficients):
        assert float(coefficient) == pytest.approx(float(row[f"B{power}"]), rel=1e-13)
    assert root(fit.variance) == pytest.approx(float(row["residual_sd"]), rel=1e-12)


def line_values(line: Line, *others: Input) -> dict[str, Value]:
    assert line.u_gradient is not None
    assert line.u_intercept is not None
    assert line.correlation is not None
    inputs = correlated(
        {"b": line.u_gradient, "a": line.u_intercept}, [("a", "b", line.correlation)]
    )
    return {
        "a": Value(line.intercept, sensitivities={inputs["a"]: 1.0}),
        "b": Value(line.gradient, sensitivities={inputs["b"]: 1.0}),
    }


def test_the_correlation_of_gradient_and_intercept_is_that_of_the_guide() -> None:
    # JCGM 100, H.3.4: r = -0.930; QUAM A5 as worked in GTC: -0.87038
    expected = {"FIT-CAL3": -0.930, "FIT-CAL2": -0.87038}
    for name, correlation in expected.items():
        line = fit_line(points_of(sets()[name]))
        assert line.correlation == pytest.approx(correlation, abs=5e-4)


def test_a_prediction_off_a_line_counts_the_correlation() -> None:
    # JCGM 100, H.3.5: the correction at 30 °C is -0.1494 °C, u 0.0041 °C
    values = line_values(fit_line(points_of(sets()["FIT-CAL3"])))
    found = evaluate(parse_expression("a + b * (30 - 20)"), Scope(values))
    assert float(found.number) == pytest.approx(-0.1494, abs=5e-5)
    u = combined_uncertainty(found.sensitivities)
    assert u == pytest.approx(0.0041, abs=5e-5)


@pytest.mark.parametrize(
    ("name", "key", "concentration", "u", "within"),
    [
        ("FIT-CAL1", "replicate_signals", 0.241, 0.0024, 5e-5),
        ("FIT-CAL2", "replicate_absorbances", 0.26, 0.018, 5e-4),
    ],
)
def test_an_unknown_read_off_a_calibration_line_has_the_books_uncertainty(
    name: str, key: str, concentration: float, u: float, within: float
) -> None:
    # D. Harvey, Modern Analytical Chemistry (2000), chapter 5; QUAM:2012.P1, A5
    row = sets()[name]
    line = fit_line(points_of(row))
    replicates = [float(text) for text in row["unknown"][key]]
    assert line.residual_sd is not None
    signal = Input("signal", line.residual_sd / sqrt(len(replicates)))
    values = line_values(line)
    values["s"] = Value(Fraction(fmean(replicates)), sensitivities={signal: 1.0})
    found = evaluate(parse_expression("(s - a) / b"), Scope(values))
    assert float(found.number) == pytest.approx(concentration, abs=5e-4)
    assert combined_uncertainty(found.sensitivities) == pytest.approx(u, abs=within)


def test_two_points_make_a_line_without_uncertainty() -> None:
    line = fit_line(points(("0", "1"), ("2", "5")))
    assert line.gradient == 2
    assert line.intercept == 1
    assert line.u_gradient is None
    assert line.correlation is None


@pytest.mark.parametrize(
    "pairs", [[], [("1", "2")], [("1", "2"), ("1", "3"), ("1", "4")]]
)
def test_points_that_determine_no_line_are_refused(
    pairs: list[tuple[str, str]],
) -> None:
    with pytest.raises(FitError):
        fit_line(points(*pairs))


@given(
    st.lists(
        st.tuples(st.integers(-9, 9), st.integers(-99, 99)), min_size=3, max_size=9
    ),
    st.integers(1, 9),
    st.integers(-9, 9),
)
def test_a_line_scales_and_shifts_with_its_readings(
    pairs: list[tuple[int, int]], factor: int, shift: int
) -> None:
    assume(len({x for x, _ in pairs}) > 1)
    plain = fit_line([Point(Fraction(x), Fraction(y)) for x, y in pairs])
    moved = fit_line(
        [Point(Fraction(x), Fraction(factor * y + shift)) for x, y in pairs]
    )
    assert moved.gradient == factor * plain.gradient
    assert moved.intercept == factor * plain.intercept + shift
    assert moved.u_gradient == pytest.approx(factor * (plain.u_gradient or 0.0))


# A thermometric titration, made up: 2.0 K for every 5 cm3 up to 20 cm3, then down.
WARMING = [("0", "20.0"), ("5", "22.0"), ("10", "24.0"), ("15", "26.0")]
COOLING = [("25", "27.5"), ("30", "27.0"), ("35", "26.5"), ("40", "26.0")]


def test_two_lines_part_where_the_readings_turn_and_cross_beyond_them() -> None:
    rising, falling = fit_two_lines(points(*COOLING, *WARMING))
    assert (rising.gradient, falling.gradient) == (Fraction(2, 5), Fraction(-1, 10))
    assert (len(rising.points), len(falling.points)) == (4, 4)
    assert crossing(rising, falling) == Point(Fraction(20), Fraction(28))


def test_two_lines_are_those_of_least_scatter() -> None:
    scattered = points(
        ("0", "20.1"),
        ("5", "21.9"),
        ("10", "24.1"),
        ("15", "25.9"),
        ("20", "28.1"),
        ("25", "27.4"),
        ("30", "27.1"),
        ("35", "26.4"),
    )
    best = fit_two_lines(scattered)
    scatter = best[0].residual_sum + best[1].residual_sum
    for cut in range(3, 6):
        first, second = fit_line(scattered[:cut]), fit_line(scattered[cut:])
        assert scatter <= first.residual_sum + second.residual_sum


def test_parallel_lines_do_not_cross() -> None:
    low = fit_line(points(("0", "0"), ("1", "1")))
    high = fit_line(points(("0", "1"), ("1", "2")))
    assert crossing(low, high) is None


def test_three_points_make_no_two_lines() -> None:
    with pytest.raises(FitError):
        fit_two_lines(points(("0", "1"), ("1", "2"), ("2", "2")))


def test_readings_at_two_places_only_make_no_two_lines() -> None:
    with pytest.raises(FitError):
        fit_two_lines(points(("0", "1"), ("0", "2"), ("1", "2"), ("1", "3")))
