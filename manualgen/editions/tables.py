"""Readings tables: empty cells for the student, sample readings in the key."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from manualgen.editions.compositor import Compositor
from manualgen.editions.fence_panels import ColumnHead, MeanRow, ReadingsPanel
from manualgen.editions.line import Gap, GapWidth
from manualgen.editions.results import printed_result
from manualgen.editions.wording import wording_of
from manualgen.model.fences import Cell, ColumnKind, Readings
from manualgen.model.place import Place
from manualgen.model.text import Words
from manualgen.quantities import HouseStyle
from manualgen.quantities.style import printed_number
from manualgen.working.columns import WorkedColumn
from manualgen.working.readings import WorkedReadings
from manualgen.working.worked import WorkedExperiment


def set_readings(
    compositor: Compositor, work: WorkedExperiment, block: Readings
) -> ReadingsPanel:
    """A table with a gap in every cell that the class fills in."""
    worked = next(r for r in work.numbers.readings if r.block is block)
    house = wording_of(work.settings).house
    columns = tuple(_cells(compositor, worked, c, house) for c in worked.columns)
    return ReadingsPanel(
        compositor.number_at(block.place),
        compositor.anchor_at(block.place) or None,
        tuple(ColumnHead(c.heading, c.symbol, c.unit) for c in block.columns),
        block.rows,
        tuple(zip(*columns, strict=True)),
        _mean(compositor, worked, house),
    )


def _cells(
    compositor: Compositor,
    worked: WorkedReadings,
    column: WorkedColumn,
    house: HouseStyle,
) -> tuple[str | Gap, ...]:
    texts = [
        _text(column.column.cells, shown, row, house)
        for row, shown in enumerate(_filled_up(column.shown, worked))
    ]
    if column.column.kind is ColumnKind.GIVEN:
        return tuple(texts)
    return tuple(_gap(compositor, text, column.column.place) for text in texts)


def _filled_up(
    shown: Sequence[Decimal | None], worked: WorkedReadings
) -> list[Decimal | None]:
    rows = len(worked.block.rows)
    return [*shown[:rows], *[None] * (rows - len(shown))]


def _text(
    cells: tuple[Cell, ...], shown: Decimal | None, row: int, house: HouseStyle
) -> str:
    """A number in the house style; what is no number, as it was typed."""
    if shown is not None:
        return printed_number(shown, house)
    return cells[row].text if row < len(cells) else ""


def _gap(compositor: Compositor, text: str, place: Place) -> Gap:
    return compositor.gap((Words(text, place),) if text else (), GapWidth.FULL)


def _mean(
    compositor: Compositor, worked: WorkedReadings, house: HouseStyle
) -> MeanRow | None:
    mean = worked.block.mean
    if mean is None:
        return None
    column = next((c for c in worked.block.columns if c.symbol == mean.of), None)
    value = printed_result(worked.mean.stated, house) if worked.mean else ""
    return MeanRow(
        column.heading if column else mean.of,
        mean.rows,
        mean.concordant,
        column.unit if column else None,
        _gap(compositor, value, mean.place),
    )
