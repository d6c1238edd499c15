"""Tables of readings: computed columns, means, who agrees, and how well."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot, sqrt

import pytest

from manualgen.working.worked import Worked
from tests.working.sheets import TITRES, experiment, fence, numbers_of, shown, standard

WorkOut = Callable[..., Worked]
CM3 = 1e-6
BURETTE = ("burette, 50 cm3, class B",)


def test_columns_are_computed_row_by_row(work_out: WorkOut) -> None:
    table = numbers_of(experiment(TITRES), work_out).readings[0]
    column = table.column("Vt")
    assert column is not None
    assert [str(n) for n in column.shown] == ["21.90", "21.45", "21.50", "21.40"]


def test_the_mean_is_that_of_the_rows_named(work_out: WorkOut) -> None:
    numbers = numbers_of(experiment(TITRES), work_out)
    assert shown(numbers, "titres.mean") == ("21.45", None)
    assert shown(numbers, "mean(titres.Vt)") == ("21.45", None)


def test_the_standard_deviation_is_the_sample_s(work_out: WorkOut) -> None:
    # GUM 4.2.2; 24.25, 24.30 and 24.20 have s = 0.05 by hand
    table = fence(
        "readings #titres",
        "columns:",
        "  - {symbol: V, heading: Titre, unit: cm3, sample: [24.25, 24.30, 24.20]}",
        "mean: {of: V}",
    )
    numbers = numbers_of(experiment(table), work_out)
    assert numbers.readings[0].mean is not None
    assert numbers.readings[0].mean.deviation == pytest.approx(0.05)
    assert shown(numbers, "titres.sd")[0] == "0.05"


def test_a_titre_has_two_readings_and_the_glass_once(work_out: WorkOut) -> None:
    # two limits of 0.05 cm3, u 0.0408 cm3 (GUM 4.3.7 twice); class B, 50 cm3, ISO 385
    table = numbers_of(experiment(TITRES, apparatus=BURETTE), work_out).readings[0]
    column = table.column("Vt")
    assert column is not None
    assert column.values[1] is not None
    expected = hypot(0.05 / sqrt(3), 0.05 / sqrt(3), 0.1 / sqrt(3))
    assert standard(column.values[1]) / CM3 == pytest.approx(expected)


def test_a_mean_makes_the_readings_better_and_not_the_glass(work_out: WorkOut) -> None:
    numbers = numbers_of(experiment(TITRES, apparatus=BURETTE), work_out)
    readings = hypot(0.05 / sqrt(3), 0.05 / sqrt(3)) / sqrt(3)
    expected = hypot(readings, 0.1 / sqrt(3))
    mean = numbers.scope.values["titres.mean"]
    assert standard(mean) / CM3 == pytest.approx(expected)
    assert shown(numbers, "titres.mean") == ("21.45", "0.06")


def test_class_a_glass_makes_a_smaller_uncertainty(work_out: WorkOut) -> None:
    text = experiment(TITRES, apparatus=("burette, 50 cm3, class A",))
    mean = numbers_of(text, work_out).scope.values["titres.mean"]
    readings = hypot(0.05 / sqrt(3), 0.05 / sqrt(3)) / sqrt(3)
    assert standard(mean) / CM3 == pytest.approx(hypot(readings, 0.05 / sqrt(3)))


def test_scatter_beyond_the_limits_of_reading_is_added(work_out: WorkOut) -> None:
    # 20.00, 21.00 and 22.00 cm3: s = 1 cm3, so the mean has u = 1/√3 cm3 (GUM 4.2.3)
    table = fence(
        "readings #titres",
        "columns:",
        "  - {symbol: V, heading: Titre, unit: cm3, sample: [20.00, 21.00, 22.00]}",
        "mean: {of: V}",
    )
    text = experiment(table, apparatus=BURETTE)
    mean = numbers_of(text, work_out).scope.values["titres.mean"]
    assert standard(mean) / CM3 == pytest.approx(1 / sqrt(3))


def test_a_display_is_read_to_half_its_last_figure(work_out: WorkOut) -> None:
    # GUM F.2.2.1: the resolution's rectangular distribution
    table = fence(
        "readings #masses",
        "columns:",
        "  - {symbol: m, heading: Mass, unit: g, sample: [2.05]}",
    )
    text = experiment(table, apparatus=("balance, reading to 0.01 g",))
    mean = numbers_of(text, work_out).scope.means["masses.m"]
    assert standard(mean) == pytest.approx(0.01e-3 / sqrt(12))


def test_readings_of_an_unknown_instrument_have_no_uncertainty(
    work_out: WorkOut,
) -> None:
    numbers = numbers_of(experiment(TITRES), work_out)
    assert shown(numbers, "titres.mean")[1] is None


def test_volumes_of_gas_are_no_burette_s(work_out: WorkOut) -> None:
    table = fence(
        "readings #gas",
        "columns:",
        "  - {symbol: V, heading: Volume of gas, unit: cm3, sample: [12, 13]}",
        "mean: {of: V}",
    )
    numbers = numbers_of(experiment(table, apparatus=BURETTE), work_out)
    assert shown(numbers, "gas.mean")[1] is None


CHOOSING = (
    "rows: [rough, 1, 2, 3, 4]",
    "columns:",
    "  - {symbol: V, heading: Titre, unit: cm3, sample: [24.40, 24.10, 24.45, 24.50, 24.90]}",
)


def test_the_tool_takes_the_rows_that_agree_and_never_the_rough_one(
    work_out: WorkOut,
) -> None:
    lines = (*CHOOSING, "mean: {of: V, rows: concordant, concordant: 0.10 cm3}")
    mean = (
        numbers_of(experiment(fence("readings #t", *lines)), work_out).readings[0].mean
    )
    assert mean is not None
    assert mean.rows == (2, 3)
    assert str(mean.stated.value) == "24.48"


def test_the_range_is_inclusive(work_out: WorkOut) -> None:
    lines = (*CHOOSING, "mean: {of: V, rows: concordant, concordant: 0.40 cm3}")
    mean = (
        numbers_of(experiment(fence("readings #t", *lines)), work_out).readings[0].mean
    )
    assert mean is not None
    assert mean.rows == (1, 2, 3)


def test_where_no_two_agree_there_is_no_mean(work_out: WorkOut) -> None:
    lines = (*CHOOSING, "mean: {of: V, rows: concordant, concordant: 0.02 cm3}")
    numbers = numbers_of(experiment(fence("readings #t", *lines)), work_out)
    assert numbers.readings[0].mean is None
    assert "t.mean" in numbers.names


def test_columns_may_be_computed_from_later_columns(work_out: WorkOut) -> None:
    table = fence(
        "readings #rates",
        "columns:",
        "  - {symbol: r, heading: Rate, unit: cm3/s, formula: dV / t}",
        "  - {symbol: dV, heading: Gas, unit: cm3, formula: V - (1.0 cm3)}",
        "  - {symbol: V, heading: Volume, unit: cm3, sample: [1.0, 21.0, 31.0]}",
        "  - {symbol: t, heading: Time, unit: s, given: [0, 20, 40]}",
    )
    numbers = numbers_of(experiment(table), work_out)
    column = numbers.readings[0].column("r")
    assert column is not None
    # 1/t has no value at t = 0; a blank, and no fault of anybody's
    assert [n and str(n) for n in column.shown] == [None, "1.0", "0.75"]
    assert numbers.noted == ()


def test_columns_that_need_each_other_are_a_fault_and_not_a_hang(
    work_out: WorkOut,
) -> None:
    table = fence(
        "readings #loop",
        "columns:",
        "  - {symbol: a, heading: A, unit: cm3, formula: b * 2}",
        "  - {symbol: b, heading: B, unit: cm3, formula: a / 2}",
        "  - {symbol: V, heading: Volume, unit: cm3, sample: [1.0]}",
    )
    noted = numbers_of(experiment(table), work_out).noted
    assert [n.check for n in noted][:1] == ["calculation-undefined"]


def test_temperatures_are_averaged_as_temperatures(work_out: WorkOut) -> None:
    table = fence(
        "readings #cold",
        "columns:",
        "  - {symbol: T, heading: Temperature, unit: °C, sample: [-0.5, 0.5, 1.5]}",
        "mean: {of: T}",
    )
    assert shown(numbers_of(experiment(table), work_out), "cold.mean")[0] == "0.5"


def test_an_empty_table_leaves_its_names_known_and_without_value(
    work_out: WorkOut,
) -> None:
    table = fence(
        "readings #titres",
        "rows: [1, 2]",
        "columns:",
        "  - {symbol: V, heading: Titre, unit: cm3}",
        "mean: {of: V}",
    )
    use = fence("calculation", "V = titres.mean", "W = V * 2 -> cm3")
    numbers = numbers_of(experiment(table, use), work_out)
    assert numbers.noted == ()
    assert "W" not in numbers.stated


def test_a_single_reading_has_a_mean_and_no_deviation(work_out: WorkOut) -> None:
    table = fence(
        "readings #one",
        "columns:",
        "  - {symbol: m, heading: Mass, unit: g, sample: [2.05]}",
        "mean: {of: m}",
    )
    numbers = numbers_of(experiment(table), work_out)
    assert shown(numbers, "one.mean")[0] == "2.05"
    assert "one.sd" not in numbers.stated


def test_without_a_range_all_but_the_rough_row_agree(work_out: WorkOut) -> None:
    lines = (*CHOOSING, "mean: {of: V, rows: concordant}")
    mean = (
        numbers_of(experiment(fence("readings #t", *lines)), work_out).readings[0].mean
    )
    assert mean is not None
    assert mean.rows == (1, 2, 3, 4)


def test_a_column_of_words_has_no_values(work_out: WorkOut) -> None:
    table = fence(
        "readings #colours",
        "columns:",
        "  - {symbol: c, heading: Colour, sample: [red, blue]}",
        "  - {symbol: x, heading: Twice, unit: cm3, formula: c * 2}",
        "mean: {of: c}",
    )
    numbers = numbers_of(experiment(table), work_out)
    assert numbers.noted == ()
    assert numbers.readings[0].mean is None


def test_of_two_balances_the_one_named_in_the_heading_is_read(
    work_out: WorkOut,
) -> None:
    table = fence(
        "readings #masses",
        "columns:",
        "  - {symbol: m, heading: Mass, unit: g, sample: [2.05]}",
    )
    pieces = ("balance, reading to 0.01 g", "analytical balance, reading to 0.0001 g")
    numbers = numbers_of(experiment(table, apparatus=pieces), work_out)
    assert shown(numbers, "mean(masses.m)") == ("2.05", None)
    assert not any(i.standard for i in numbers.scope.means["masses.m"].sensitivities)


def test_a_mean_of_many_readings_has_their_scatter_s_uncertainty(
    work_out: WorkOut,
) -> None:
    # JCGM 100:2008, 4.4.3 and table 1: s = 1.489 °C, u = 0.333 °C (recalled, recomputed)
    readings = (
        "96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, "
        "100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72"
    )
    table = fence(
        "readings #hot",
        "columns:",
        f"  - {{symbol: t, heading: Temperature, unit: °C, sample: [{readings}]}}",
        "mean: {of: t}",
    )
    pieces = ("digital thermometer, reading to 0.01 °C",)
    numbers = numbers_of(experiment(table, apparatus=pieces), work_out)
    mean = numbers.readings[0].mean
    assert mean is not None
    assert mean.deviation == pytest.approx(1.489, abs=5e-4)
    assert standard(mean.value) == pytest.approx(0.333, abs=5e-4)
    assert shown(numbers, "hot.mean") == ("100.1", "0.3")


def test_volumes_that_are_subtracted_are_read_off_the_burette(
    work_out: WorkOut,
) -> None:
    table = fence(
        "readings #run",
        "columns:",
        "  - {symbol: a, heading: Before, unit: cm3, sample: [0.10]}",
        "  - {symbol: b, heading: After, unit: cm3, sample: [21.55]}",
        "  - {symbol: V, heading: Run in, unit: cm3, formula: b - a}",
    )
    numbers = numbers_of(experiment(table, apparatus=BURETTE), work_out)
    column = numbers.readings[0].column("V")
    assert column is not None
    assert column.values[0] is not None
    expected = hypot(0.05 / sqrt(3), 0.05 / sqrt(3), 0.1 / sqrt(3))
    assert standard(column.values[0]) / CM3 == pytest.approx(expected)


def test_a_column_may_wait_for_a_value_that_is_not_there_yet(work_out: WorkOut) -> None:
    blank = fence(
        "readings #none",
        "rows: [1]",
        "columns:",
        "  - {symbol: V, heading: V, unit: g}",
        "mean: {of: V}",
    )
    use = fence("calculation", "m = none.mean")
    table = fence(
        "readings #later",
        "columns:",
        "  - {symbol: a, heading: A, unit: g, sample: [1.0]}",
        "  - {symbol: b, heading: B, unit: g, formula: a + m}",
    )
    numbers = numbers_of(experiment(blank, use, table), work_out)
    assert numbers.noted == ()
    column = numbers.readings[1].column("b")
    assert column is not None
    assert column.values == (None,)
