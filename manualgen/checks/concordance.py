"""Readings that are averaged and do not agree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from manualgen.model.fences import Computed, Mean
from manualgen.model.finding import Fault
from manualgen.quantities import Quantity, Unit
from manualgen.quantities.expression import ColumnMean, parts
from manualgen.quantities.figures import place, rounded_to_place
from manualgen.quantities.mend import typed
from manualgen.working.means import WorkedMean, agreeing_rows, is_rough
from manualgen.working.readings import WorkedReadings

AGAIN = "titrate again until two agree"


def disagreement(table: WorkedReadings) -> Iterator[Fault]:
    """A mean whose readings are too far apart, or that takes the rough one in."""
    asked, mean = table.block.mean, table.mean
    column = table.column(asked.of) if asked else None
    if asked is None or column is None:
        return
    if mean is None:
        if asked.concordant_rows and any(column.values) and asked.concordant:
            within = typed(asked.concordant)
            message = f"no two values of {asked.of} agree within {within}"
            yield Fault(asked.place, message, AGAIN)
        return
    limit = _limit(asked, mean.unit)
    rough = [label for label in _labels(table, mean.rows) if is_rough(label)]
    if limit is not None and mean.spread > limit:
        yield Fault(asked.place, _too_far(table, asked, mean), _mend(table, asked))
    elif limit is None and rough and len(mean.rows) > 1:
        message = f"the mean of {asked.of} takes in the row {rough[0]}"
        yield Fault(asked.place, message, _mend(table, asked))


def _limit(asked: Mean, unit: Unit) -> Fraction | None:
    """The range in the column's unit; None where none is stated."""
    most = asked.concordant
    if most is None or most.dimension != unit.dimension:
        return None
    return Fraction(most.value) * most.unit.factor / unit.factor


def _labels(table: WorkedReadings, rows: tuple[int, ...]) -> list[str]:
    return [table.block.rows[i] for i in rows]


def _too_far(table: WorkedReadings, asked: Mean, mean: WorkedMean) -> str:
    column = table.column(asked.of)
    shown = [column.shown[i] for i in mean.rows] if column else []
    last = max(place(number) for number in shown if number is not None)
    apart = Quantity(rounded_to_place(mean.spread, last), mean.unit)
    within = typed(asked.concordant) if asked.concordant else ""
    rows = ", ".join(_labels(table, mean.rows))
    return (
        f"the values of {asked.of} in rows {rows} differ by {typed(apart)}, "
        f"more than {within}"
    )


def _mend(table: WorkedReadings, asked: Mean) -> str:
    column = table.column(asked.of)
    agreeing = agreeing_rows(asked, column, table.block) if column else ()
    if not agreeing:
        return AGAIN
    return f"rows: [{', '.join(_labels(table, agreeing))}]"


def rough_averaged(
    line: Computed, tables: Mapping[str, WorkedReadings]
) -> Iterator[Fault]:
    """``mean(titres.Vt)`` of a table that says of no rows, and has a rough one."""
    for part in parts(line.expression):
        table = tables.get(part.table) if isinstance(part, ColumnMean) else None
        if table is None or not isinstance(part, ColumnMean):
            continue
        column, mean = table.column(part.column), table.block.mean
        if column is None or (mean and mean.of == part.column):
            continue
        rows = tuple(i for i, value in enumerate(column.values) if value)
        rough = [label for label in _labels(table, rows) if is_rough(label)]
        if rough and len(rows) > 1:
            others = ", ".join(x for x in _labels(table, rows) if not is_rough(x))
            yield Fault(
                line.expression_place.within(part.start, part.end),
                f"this mean takes in the row {rough[0]}",
                f"mean: {{of: {part.column}, rows: [{others}]}} in the table, "
                f"and {part.table}.mean here",
            )
