"""Every number that the manual works out, worked out again without manualgen.

Readings and stated values come from the Markdown as text; molar masses are
molmass's, units pint's, lines numpy's. molmass does not use the abridged atomic
weights, so that a result may differ by two parts in ten thousand and by half of
the last figure that is printed.
"""

from __future__ import annotations

import re
from decimal import Decimal

import pytest

from manualgen.quantities import Quantity
from tests.content.again import RECALCULATED
from tests.content.source_text import paths, practical, printed, si, source

WITHOUT_RESULTS = {"metal-ions", "halide-tests", "halogen-displacement"}
"""Tests in test tubes and on tiles: nothing is measured."""
CLOSE = 2e-4
"""Between two tables of atomic weights."""


def test_every_experiment_is_worked_out_again_or_measures_nothing() -> None:
    assert set(RECALCULATED) | WITHOUT_RESULTS == set(paths())
    for experiment in WITHOUT_RESULTS:
        assert not source(experiment).results


@pytest.mark.parametrize("experiment", RECALCULATED)
def test_every_result_of_the_experiment_is_worked_out_again(experiment: str) -> None:
    assert set(RECALCULATED[experiment]().results()) >= source(experiment).results


@pytest.mark.parametrize("experiment", RECALCULATED)
def test_what_is_printed_is_what_comes_out(experiment: str) -> None:
    for name, (value, _) in RECALCULATED[experiment]().results().items():
        for shown, again in zip(_shown(experiment, name), value, strict=True):
            unit = shown.unit.text
            last = abs(si(1, _difference(unit))) * 10.0 ** _exponent(shown.value)
            slack = abs(again) * CLOSE if unit != "°C" else 0.0
            text = f"{name}: {shown.value} {unit} printed, {again} in SI worked out"
            printed_value = si(float(shown.value), unit)
            assert abs(printed_value - again) <= 0.501 * last + slack, text


@pytest.mark.parametrize("experiment", RECALCULATED)
def test_what_stands_after_the_sign_is_the_standard_uncertainty(
    experiment: str,
) -> None:
    for name, (_, doubt) in RECALCULATED[experiment]().results().items():
        for shown in _shown(experiment, name):
            if shown.half_width is None or not shown.standard:
                continue
            unit = _difference(shown.unit.text)
            told = si(float(shown.half_width), unit)
            last = si(10.0 ** _exponent(shown.half_width), unit)
            text = f"{name}: ± {shown.half_width} printed, {doubt} in SI worked out"
            assert abs(told - doubt) <= 0.51 * last, text


def _shown(experiment: str, name: str) -> list[Quantity]:
    """What is printed: a value, or the cells of a column."""
    numbers = practical(experiment).numbers
    if name in numbers.stated:
        return [printed(experiment, name)]
    table, symbol = name.split(".")
    worked = next(r for r in numbers.readings if r.block.name == table)
    column = worked.column(symbol)
    assert column is not None
    assert column.column.unit is not None
    return [
        Quantity(number, column.column.unit)
        for number in column.shown
        if number is not None
    ]


def _difference(unit: str) -> str:
    return re.sub(r"^°C$", "K", unit)


def _exponent(number: Decimal) -> int:
    """The place of the last figure."""
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)
    return exponent
