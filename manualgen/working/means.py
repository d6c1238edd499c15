"""The mean of repeated readings: which are averaged, and how well they agree."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import sqrt

from manualgen.model.fences import Mean, Readings
from manualgen.quantities import PURE_NUMBER, Quantity, Unit
from manualgen.quantities.precision import precision_of_sum
from manualgen.quantities.uncertainty import Input, combined_uncertainty
from manualgen.quantities.value import Value
from manualgen.working.columns import WorkedColumn
from manualgen.working.ledger import Ledger
from manualgen.working.stated import stated

ROUGH = ("rough", "trial", "rangefinder", "range-finder")
"""Labels of the row that no careful mean includes."""


@dataclass(frozen=True, slots=True)
class WorkedMean:
    """The mean of some readings of a column."""

    mean: Mean
    rows: tuple[int, ...]
    """Which rows are averaged, counted from 0."""
    value: Value
    unit: Unit
    stated: Quantity
    spread: Fraction
    """The largest difference between the readings averaged, in their unit."""
    deviation: float | None
    """Their sample standard deviation, in their unit; None for one reading."""


def work_mean(
    block: Readings, columns: tuple[WorkedColumn, ...], ledger: Ledger
) -> WorkedMean | None:
    """The mean that a table asks for; None where there is nothing to average."""
    asked = block.mean
    of = asked.of if asked else None
    column = next((c for c in columns if c.column.symbol == of), None)
    if asked is None or column is None or column.column.unit is None:
        return None
    rows = (
        agreeing_rows(asked, column, block)
        if asked.concordant_rows
        else tuple(
            i
            for i, label in enumerate(block.rows)
            if label in asked.rows and column.values[i]
        )
    )
    if not rows:
        return None
    name, unit = f"{block.name or block.place.line}.{asked.of}", column.column.unit
    readings = [value for i in rows if (value := column.values[i])]
    value = mean_of(readings, name)
    numbers = [reading.in_unit(unit) for reading in readings]
    return WorkedMean(
        asked,
        rows,
        value,
        unit,
        stated(value, unit, ledger.settings),
        max(numbers) - min(numbers),
        _deviation(numbers),
    )


def agreeing_rows(
    asked: Mean, column: WorkedColumn, block: Readings
) -> tuple[int, ...]:
    """The most rows of which no two differ by more than the range, rough ones left out.

    Of several choices the one with the least spread; nothing where no two agree.
    """
    unit, most = column.column.unit or PURE_NUMBER, asked.concordant
    numbers = {
        i: value.in_unit(unit)
        for i, value in enumerate(column.values)
        if value and not is_rough(block.rows[i])
    }
    if most is None or most.dimension != unit.dimension:
        return tuple(numbers)
    limit = Fraction(most.value) * most.unit.factor / unit.factor
    ordered = sorted(numbers, key=lambda i: numbers[i])
    sizes = [numbers[i] for i in ordered]
    windows = [
        ordered[first : bisect_right(sizes, size + limit)]
        for first, size in enumerate(sizes)
    ]
    best = max(
        windows,
        key=lambda w: (len(w), numbers[w[0]] - numbers[w[-1]]),
        default=[],
    )
    return tuple(sorted(best)) if len(best) > 1 else ()


def is_rough(label: str) -> bool:
    """Whether a row is the rough titration."""
    return label.casefold() in ROUGH


def mean_of(readings: Sequence[Value], name: str) -> Value:
    """The mean of repeated readings.

    It has the uncertainties of the readings; where they scatter by more than
    those explain (s/√n, GUM 4.2.3), what is missing is added.
    """
    count = len(readings)
    number = sum((r.number for r in readings), Fraction(0)) / count
    sensitivities: dict[Input, float] = {}
    for reading in readings:
        for given, by_given in reading.sensitivities.items():
            sensitivities[given] = sensitivities.get(given, 0.0) + by_given / count
    value = Value(
        number,
        readings[0].dimension,
        precision_of_sum((r.number, r.precision) for r in readings),
        sensitivities,
        readings[0].celsius,
        readings[0].absolute,
    )
    return _with_scatter(value, readings, name)


def _with_scatter(value: Value, readings: Sequence[Value], name: str) -> Value:
    explained = combined_uncertainty(value.sensitivities)
    deviation = _deviation([r.number for r in readings])
    if explained is None or deviation is None:
        return value
    missing = deviation**2 / len(readings) - explained**2
    if missing <= 0:
        return value
    scatter = Input(f"scatter of {name}", sqrt(missing))
    return replace(value, sensitivities={**value.sensitivities, scatter: 1.0})


def _deviation(numbers: Sequence[Fraction]) -> float | None:
    """The sample standard deviation; None for a single number."""
    if len(numbers) < 2:
        return None
    centre = sum(numbers, Fraction(0)) / len(numbers)
    squares = sum(((n - centre) ** 2 for n in numbers), Fraction(0))
    return sqrt(squares / (len(numbers) - 1))
