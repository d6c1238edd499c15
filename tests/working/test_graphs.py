"""Graphs worked out: points, lines, and the values that calculations take from them."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

import numpy as np
import pytest
from scipy.stats import linregress

from manualgen.working.graphs import WorkedGraph
from manualgen.working.numbers import Numbers
from manualgen.working.worked import Worked
from tests.working.sheets import experiment, fence, numbers_of, shown, standard

WorkOut = Callable[..., Worked]

TIMES = [0, 2, 4, 6, 8, 10]
TEMPERATURES = [21.5, 23.1, 24.4, 26.0, 27.3, 28.9]
WARMING = fence(
    "readings #warming",
    "columns:",
    f"  - {{symbol: t, heading: Time, unit: min, given: {TIMES}}}",
    f"  - {{symbol: T, heading: Temperature, unit: °C, sample: {TEMPERATURES}}}",
)


def graph(line: str, *use: str, points: str = "warming.t, warming.T") -> str:
    plotted = fence(
        "graph #line",
        "x: t / min, 0 to 12 step 2",
        "y: T / °C, 20 to 30 step 2",
        f"points: {points}",
        f"line: {line}",
    )
    calculation = fence("calculation", *use) if use else ""
    return experiment(
        WARMING, plotted, calculation, apparatus=("thermometer, reading to 0.1 °C",)
    )


def worked_graph(numbers: Numbers) -> WorkedGraph:
    assert numbers.noted == ()
    return numbers.graphs[0]


def test_points_stand_in_the_units_of_the_axes(work_out: WorkOut) -> None:
    points = worked_graph(numbers_of(graph("none"), work_out)).points
    assert [float(p.at.x) for p in points] == TIMES
    assert [float(p.at.y) for p in points] == TEMPERATURES


def test_error_bars_are_drawn_where_they_are_known(work_out: WorkOut) -> None:
    point = worked_graph(numbers_of(graph("none"), work_out)).points[0]
    assert point.x_error is None
    assert point.y_error == pytest.approx(0.1 / sqrt(3))


def test_a_fit_gives_gradient_and_intercept_with_uncertainties(
    work_out: WorkOut,
) -> None:
    # scipy.stats.linregress, a general library
    numbers = numbers_of(
        graph("fit", "g = line.gradient", "T0 = line.intercept"), work_out
    )
    (line,) = worked_graph(numbers).lines
    expected = linregress(TIMES, TEMPERATURES)
    assert float(line.gradient) == pytest.approx(expected.slope)
    assert line.u_gradient == pytest.approx(expected.stderr)
    assert line.u_intercept == pytest.approx(expected.intercept_stderr)
    u = standard(numbers.scope.values["g"]) * 60
    assert u == pytest.approx(expected.stderr)
    assert shown(numbers, "line.gradient") == ("0.731", "0.010")
    assert shown(numbers, "T0") == ("21.54", "0.06")


def test_a_gradient_carries_its_unit_into_a_calculation(work_out: WorkOut) -> None:
    text = graph("fit", "P = line.gradient * (4.18 J/g/K) * (50.0 g) -> J/s")
    slope = linregress(TIMES, TEMPERATURES).slope
    value = numbers_of(text, work_out).scope.values["P"]
    assert float(value.number) == pytest.approx(slope * 4.18 * 50.0 / 60)


def test_gradient_and_intercept_are_correlated(work_out: WorkOut) -> None:
    # the line's height at the mean time is known best: u = s/√n (GUM H.3 by its own rule)
    text = graph("fit", "T_m = line.intercept + line.gradient * (5 min) -> °C")
    numbers = numbers_of(text, work_out)
    (line,) = worked_graph(numbers).lines
    assert line.residual_sd is not None
    found = standard(numbers.scope.values["T_m"])
    assert found == pytest.approx(line.residual_sd / sqrt(len(TIMES)))


def test_a_fit_may_take_some_rows(work_out: WorkOut) -> None:
    (line,) = worked_graph(numbers_of(graph("fit rows 1 to 4"), work_out)).lines
    expected = linregress(TIMES[:4], TEMPERATURES[:4])
    assert float(line.gradient) == pytest.approx(expected.slope)


def test_readings_may_be_plotted_in_another_unit(work_out: WorkOut) -> None:
    text = graph("fit").replace(
        "x: t / min, 0 to 12 step 2", "x: t / s, 0 to 720 step 120"
    )
    (line,) = worked_graph(numbers_of(text, work_out)).lines
    slope = linregress(np.array(TIMES) * 60, TEMPERATURES).slope
    assert float(line.gradient) == pytest.approx(slope)


def test_columns_may_be_transformed_as_they_are_plotted(work_out: WorkOut) -> None:
    plotted = fence(
        "graph #decay",
        "x: t / min, 0 to 12 step 2",
        "y: ln(T) / 1, 0 to 4 step 1",
        "points: warming.t, ln((warming.T - (20.0 °C)) / (1 K))",
        "line: fit",
    )
    (line,) = worked_graph(numbers_of(experiment(WARMING, plotted), work_out)).lines
    expected = linregress(TIMES, np.log(np.array(TEMPERATURES) - 20.0))
    assert float(line.gradient) == pytest.approx(expected.slope)


TITRATION = fence(
    "readings #heat",
    "columns:",
    "  - {symbol: V, heading: Acid, unit: cm3, given: [0.0, 5.0, 10.0, 15.0, 25.0, 30.0, 35.0, 40.0]}",
    "  - {symbol: T, heading: Temperature, unit: °C, sample: [20.0, 22.0, 24.0, 26.0, 27.5, 27.0, 26.5, 26.0]}",
)


def crossing(line: str) -> str:
    plotted = fence(
        "graph #ends",
        "x: V / cm3, 0 to 40 step 5",
        "y: T / °C, 18 to 30 step 2",
        "points: heat.V, heat.T",
        f"line: {line}",
    )
    use = fence("calculation", "V_e = ends.crossing_x", "T_e = ends.crossing_y")
    return experiment(TITRATION, plotted, use)


@pytest.mark.parametrize("line", ["two fits", "two fits rows 1 to 4 and 5 to 8"])
def test_two_fits_cross_at_the_end_point(line: str, work_out: WorkOut) -> None:
    # by hand: 20 + 0.4 V and 30 - 0.1 V meet at 20 cm3 and 28 °C
    numbers = numbers_of(crossing(line), work_out)
    assert len(worked_graph(numbers).lines) == 2
    assert shown(numbers, "V_e")[0] == "20.0"
    assert shown(numbers, "T_e")[0] == "28.0"


def test_a_tangent_gives_a_rate(work_out: WorkOut) -> None:
    numbers = numbers_of(
        graph("tangent at 0 min", "r = line.tangent -> K/min"), work_out
    )
    found = worked_graph(numbers)
    assert found.tangent is not None
    assert len(found.curve) > 20
    assert float(numbers.scope.values["r"].number) * 60 == pytest.approx(0.74, abs=0.05)
    assert shown(numbers, "r")[1] is None


def test_a_curve_is_drawn_from_the_first_point_to_the_last(work_out: WorkOut) -> None:
    curve = worked_graph(numbers_of(graph("curve"), work_out)).curve
    assert (curve[0].x, curve[-1].x) == (0, 10)


def test_a_graph_without_points_still_names_its_values(work_out: WorkOut) -> None:
    plotted = fence(
        "graph #line",
        "x: t / min, 0 to 12 step 2",
        "y: T / °C, 20 to 30 step 2",
        "line: fit",
    )
    use = fence("calculation", "g = line.gradient")
    numbers = numbers_of(experiment(plotted, use), work_out)
    assert numbers.noted == ()
    assert "g" not in numbers.stated


@pytest.mark.parametrize(
    ("line", "points", "said"),
    [
        ("fit rows 1 to 9", "warming.t, warming.T", "no row 9"),
        ("tangent at 30 min", "warming.t, warming.T", "from 0 to 10"),
        ("fit", "warming.t, warming.Q", "no column Q"),
        ("fit", "warming.t, warming.t", "unit of a temperature"),
        ("fit", "warning.t, warming.T", "warning.t"),
        ("tangent at 3 cm3", "warming.t, warming.T", "at 2 min"),
    ],
)
def test_what_cannot_be_drawn_is_said(
    line: str, points: str, said: str, work_out: WorkOut
) -> None:
    noted = numbers_of(graph(line, points=points), work_out).noted
    assert len(noted) == 1
    assert said in noted[0].fault.message


def test_a_graph_of_nothing_that_was_read_has_no_points(work_out: WorkOut) -> None:
    numbers = numbers_of(graph("fit", points="2 * 3, 4 * 5"), work_out)
    assert worked_graph(numbers).points == ()


def test_parallel_lines_are_said_to_be_parallel(work_out: WorkOut) -> None:
    table = fence(
        "readings #steps",
        "columns:",
        "  - {symbol: x, heading: X, unit: cm3, given: [1, 2, 3, 4]}",
        "  - {symbol: y, heading: Y, unit: cm3, sample: [1, 2, 13, 14]}",
    )
    plotted = fence(
        "graph #ends",
        "x: x / cm3, 0 to 5 step 1",
        "y: y / cm3, 0 to 20 step 5",
        "points: steps.x, steps.y",
        "line: two fits rows 1 to 2 and 3 to 4",
    )
    noted = numbers_of(experiment(table, plotted), work_out).noted
    assert ["parallel" in n.fault.message for n in noted] == [True]


def test_two_points_give_a_gradient_without_uncertainty(work_out: WorkOut) -> None:
    numbers = numbers_of(graph("fit rows 1 to 2", "g = line.gradient"), work_out)
    assert shown(numbers, "g") == ("0.8", None)


def test_a_graph_without_a_name_tells_its_teacher_all_the_same(
    work_out: WorkOut,
) -> None:
    text = graph("fit").replace("graph #line", "graph")
    numbers = numbers_of(text, work_out)
    told = worked_graph(numbers).told
    assert {name: str(q.value) for name, q in told.items()} == {
        "gradient": "0.731",
        "intercept": "21.54",
    }
    assert not any("gradient" in name for name in numbers.names)
