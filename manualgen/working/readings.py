"""Tables of readings worked out: their columns, and the mean of one of them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from manualgen.model.fences import Readings
from manualgen.model.finding import Noted
from manualgen.quantities import Quantity, Unit
from manualgen.quantities.uncertainty import Input
from manualgen.quantities.value import Value
from manualgen.working.columns import WorkedColumn, work_columns
from manualgen.working.ledger import Ledger
from manualgen.working.means import WorkedMean, mean_of, work_mean
from manualgen.working.stated import stated


@dataclass(frozen=True, slots=True)
class WorkedReadings:
    """A table of readings, as the teacher sees it."""

    block: Readings
    columns: tuple[WorkedColumn, ...]
    mean: WorkedMean | None
    noted: tuple[Noted, ...] = ()

    def column(self, symbol: str) -> WorkedColumn | None:
        """The column of a symbol."""
        return next((c for c in self.columns if c.column.symbol == symbol), None)


def work_readings(block: Readings, ledger: Ledger) -> WorkedReadings:
    """A table worked out, and its columns and mean entered in the ledger."""
    faults: list[Noted] = []
    columns = work_columns(block, ledger, faults)
    mean = work_mean(block, columns, ledger)
    _enter(block, columns, mean, ledger)
    return WorkedReadings(block, columns, mean, tuple(faults))


def _enter(
    block: Readings,
    columns: tuple[WorkedColumn, ...],
    mean: WorkedMean | None,
    ledger: Ledger,
) -> None:
    """Make ``TABLE.mean``, ``TABLE.sd`` and the columns' means known."""
    name = block.name
    if name is None:
        return
    for column in columns:
        _enter_column(name, column, mean, ledger)
    if block.mean is None:
        return
    ledger.averaged[name] = block.mean.of
    ledger.without_value |= {f"{name}.mean", f"{name}.sd"}
    if mean:
        ledger.enter(f"{name}.mean", mean.value, mean.unit, mean.stated)
        _enter_deviation(f"{name}.sd", mean, ledger)


def _enter_column(
    table: str, column: WorkedColumn, mean: WorkedMean | None, ledger: Ledger
) -> None:
    """The mean of a column: of the rows that the table averages, or of all."""
    name, unit = f"{table}.{column.column.symbol}", column.column.unit
    values = [value for value in column.values if value]
    if mean and mean.mean.of == column.column.symbol:
        value = mean.value
    elif values:
        value = mean_of(values, name)
    else:
        ledger.without_value.add(f"mean({name})")
        return
    ledger.means[name] = value
    if unit:
        ledger.units[f"mean({name})"] = unit
        ledger.stated[f"mean({name})"] = _stated_mean(column, value, unit, ledger)


def _stated_mean(
    column: WorkedColumn, value: Value, unit: Unit, ledger: Ledger
) -> Quantity:
    """The mean rounded; of a single reading, the reading as it was typed."""
    typed = [number for number in column.shown if number is not None]
    if len(typed) == 1:
        return Quantity(typed[0], unit)
    return stated(value, unit, ledger.settings)


def _enter_deviation(name: str, mean: WorkedMean, ledger: Ledger) -> None:
    if mean.deviation is None:
        return
    number = Fraction(mean.deviation) * mean.unit.factor
    value = Value(
        number, mean.value.dimension, mean.value.precision, {Input(name): 1.0}
    )
    shown = stated(value, mean.unit, ledger.settings)
    ledger.enter(name, value, mean.unit, shown)
