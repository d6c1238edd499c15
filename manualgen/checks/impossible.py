"""Sample readings that give what cannot be.

A volume run in, a mass poured out or a time passed is not below nothing, and no
spot runs ahead of its solvent. What may change either way, such as a
temperature or a *change in mass*, is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from manualgen.model.fences import Cell, Column, ColumnKind
from manualgen.model.finding import Fault
from manualgen.quantities.expression import Binary, Operator, Symbol
from manualgen.quantities.kinds import kind_of
from manualgen.quantities.mend import typed, typed_unit
from manualgen.working.columns import WorkedColumn
from manualgen.working.instruments import Bench, is_read_off_burette
from manualgen.working.readings import WorkedReadings
from manualgen.working.worked import WorkedExperiment

_NEVER_NEGATIVE: Final = ("volume", "mass", "time")
_EITHER_WAY = re.compile(
    r"chang|differ|gain|loss|lost|shift|error|drift", re.IGNORECASE
)
_RETENTION = re.compile(r"R_?f\b|retardation|retention", re.IGNORECASE)


def impossible_readings(work: WorkedExperiment) -> Iterator[Fault]:
    """Each column whose readings give a negative volume, mass or time, or too far a spot."""
    for table in work.numbers.readings:
        for column in table.columns:
            yield from below_nothing(table, column)
            yield from _ahead_of_the_front(table, column)
            yield from _beyond_the_scale(table, column, work)


def below_nothing(table: WorkedReadings, column: WorkedColumn) -> Iterator[Fault]:
    """Where one reading is taken from another that is less than it."""
    own = column.column
    pair = _operands(own, Operator.MINUS)
    if pair is None or own.unit is None or kind_of(own.unit) not in _NEVER_NEGATIVE:
        return
    if _EITHER_WAY.search(own.heading):
        return
    values = [value.number for value in column.values if value]
    wrong = [n for n, v in enumerate(column.values) if v and v.number < 0]
    taken, whole = (table.column(name) for name in pair[::-1])
    if not wrong or taken is None or whole is None:
        return
    if len(wrong) == len(values) and own.formula_place:
        message = f"every {own.symbol} comes to less than nothing"
        yield Fault(own.formula_place, message, f"{pair[1]} - {pair[0]}")
        return
    n = wrong[0]
    cell, other = _cell(whole, n), _cell(taken, n)
    if cell and other:
        unit = typed_unit(own.unit)
        message = (
            f"{cell.text} {unit} is less than the {other.text} {unit} of {pair[1]}, "
            f"and {own.symbol} comes to less than nothing"
        )
        yield Fault(
            cell.place,
            message,
            f"a reading above {other.text} here, or below {cell.text} there",
        )


def _ahead_of_the_front(table: WorkedReadings, column: WorkedColumn) -> Iterator[Fault]:
    own = column.column
    if not (_RETENTION.match(own.symbol) or _RETENTION.search(own.heading)):
        return
    spot = _left(own)
    for n, value in enumerate(column.values):
        if value and value.dimension.is_one and value.number > 1:
            measured = table.column(spot) if spot else None
            cell = _cell(measured, n) or _cell(column, n)
            message = (
                f"with this {own.symbol} is above 1: no spot is ahead of its solvent"
            )
            yield Fault(
                cell.place if cell else own.place,
                message,
                "a distance that is less than that of the solvent front",
            )


def _beyond_the_scale(
    table: WorkedReadings, column: WorkedColumn, work: WorkedExperiment
) -> Iterator[Fault]:
    """A burette of 50 cm3 that reads 58.60 cm3."""
    bench = Bench(work.experiment.apparatus, work.settings.burette)
    own = column.column
    if own.unit is None or not is_read_off_burette(own, table.block, bench):
        return
    capacities = [a.capacity for a in bench.named("burette")]
    if None in capacities:
        return
    largest = max((c for c in capacities if c), key=lambda c: c.si_value, default=None)
    for cell in own.cells if largest else ():
        read = cell.value
        if largest and read and Fraction(read) * own.unit.factor > largest.si_value:
            unit = typed_unit(own.unit)
            message = (
                f"{cell.text} {unit} is beyond the {typed(largest)} of the burette"
            )
            yield Fault(cell.place, message)


def _operands(column: Column, operator: Operator) -> tuple[str, str] | None:
    match column.formula:
        case Binary(operator=op, left=Symbol(name=left), right=Symbol(name=right)):
            return (left, right) if op is operator else None
        case _:
            return None


def _left(column: Column) -> str | None:
    match column.formula:
        case Binary(operator=Operator.OVER, left=Symbol(name=name)):
            return name
        case _:
            return None


def _cell(column: WorkedColumn | None, row: int) -> Cell | None:
    if column is None or column.column.kind is ColumnKind.FORMULA:
        return None
    cells = column.column.cells
    return cells[row] if row < len(cells) else None
