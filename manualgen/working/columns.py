"""Columns of readings: what was read, and what is computed from it row by row."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import sqrt

from manualgen.model.fences import Column, Readings
from manualgen.model.finding import Noted
from manualgen.quantities import Quantity, Unit
from manualgen.quantities.evaluate import result
from manualgen.quantities.expression import ExpressionError, symbols
from manualgen.quantities.refusals import UndefinedError, UnknownNameError
from manualgen.quantities.uncertainty import Input
from manualgen.quantities.value import Value, datum
from manualgen.working.instruments import (
    CM3,
    glass_of_titre,
    is_read_off_burette,
    reading_limits,
)
from manualgen.working.ledger import Ledger
from manualgen.working.noting import noted


@dataclass(frozen=True, slots=True)
class WorkedColumn:
    """A column with its values, row by row; None where there is none."""

    column: Column
    values: tuple[Value | None, ...]
    shown: tuple[Decimal | None, ...]
    """The numbers as they are printed in the column's unit."""


def work_columns(
    block: Readings, ledger: Ledger, faults: list[Noted]
) -> tuple[WorkedColumn, ...]:
    """The columns of a table in their order, and in ``faults`` what is wrong."""
    columns: dict[str, WorkedColumn] = {}
    for column in _in_order(block):
        if column.formula is None:
            columns[column.symbol] = _read(column, block, ledger)
        else:
            columns[column.symbol] = _computed(column, block, columns, ledger, faults)
    return tuple(columns[c.symbol] for c in block.columns)


def _in_order(block: Readings) -> Iterator[Column]:
    """The columns, each after those of which it is computed."""
    waiting = list({column.symbol: column for column in block.columns}.values())
    while waiting:
        names = {column.symbol for column in waiting}
        ready = [c for c in waiting if not _needs(c) & (names - {c.symbol})]
        chosen = ready or waiting
        yield from chosen
        waiting = [c for c in waiting if c not in chosen]


def _needs(column: Column) -> set[str]:
    return {s.name for s in symbols(column.formula)} if column.formula else set()


def _read(column: Column, block: Readings, ledger: Ledger) -> WorkedColumn:
    """A column of readings, each within the limits of its instrument."""
    cells = column.cells[: len(block.rows)]
    blank = (None,) * (len(block.rows) - len(cells))
    shown = (*(cell.value for cell in cells), *blank)
    if column.unit is None:
        return WorkedColumn(column, (None,) * len(shown), shown)
    limits = reading_limits(column, block, ledger.bench)
    values = tuple(
        None
        if number is None
        else _reading(_row_name(block, column, i), number, column.unit, limits)
        for i, number in enumerate(shown)
    )
    return WorkedColumn(column, values, shown)


def _row_name(block: Readings, column: Column, row: int) -> str:
    return f"{block.name or block.place.line}.{column.symbol} row {row + 1}"


def _reading(name: str, number: Decimal, unit: Unit, limits: Fraction | None) -> Value:
    value = datum(name, Quantity(number, unit))
    if limits is None or not value.sensitivities:
        return value
    width = float(limits * unit.factor)
    return replace(value, sensitivities={Input(name, width / sqrt(3), width): 1.0})


def _computed(
    column: Column,
    block: Readings,
    others: dict[str, WorkedColumn],
    ledger: Ledger,
    faults: list[Noted],
) -> WorkedColumn:
    """A column computed from the others, with the first fault that it has."""
    errors: list[ExpressionError] = []
    values: list[Value | None] = []
    for row in range(len(block.rows)):
        value = _cell(column, row, others, ledger, errors)
        values.append(_with_glass(value, column, block, ledger))
    named = [e for e in errors if not _is_of_one_row(e)]
    if named or (errors and not any(values)):
        place = column.formula_place or column.place
        faults.append(noted((named or errors)[0], place, ledger))
    rounding = ledger.settings.rounding
    shown = tuple(
        value.rounded_in(column.unit, rounding) if value and column.unit else None
        for value in values
    )
    return WorkedColumn(column, tuple(values), shown)


def _is_of_one_row(error: ExpressionError) -> bool:
    """Whether it is the numbers that are at fault, as in 1/t at t = 0."""
    is_arithmetic = isinstance(error, UndefinedError)
    return is_arithmetic and not isinstance(error, UnknownNameError)


def _cell(
    column: Column,
    row: int,
    others: dict[str, WorkedColumn],
    ledger: Ledger,
    errors: list[ExpressionError],
) -> Value | None:
    formula, unit = column.formula, column.unit
    here = {name: other.values[row] for name, other in others.items()}
    if formula is None or unit is None or ledger.lacks_value(formula):
        return None
    used = [here[s.name] for s in symbols(formula) if s.name in here]
    if None in used:
        return None
    known = {name: value for name, value in here.items() if value}
    try:
        return result(formula, unit, ledger.scope(known))
    except ExpressionError as error:
        errors.append(error)
        return None


def _with_glass(
    value: Value | None, column: Column, block: Readings, ledger: Ledger
) -> Value | None:
    """A volume run out of a burette has the burette's tolerance too, once."""
    if value is None or value.dimension != CM3.dimension:
        return value
    glass = glass_of_titre(ledger.bench)
    needed = [c for c in block.columns if c.symbol in _needs(column)]
    from_burette = any(is_read_off_burette(c, block, ledger.bench) for c in needed)
    if glass is None or not from_burette:
        return value
    return replace(value, sensitivities={**value.sensitivities, glass: 1.0})
