"""Readings tables: empty cells for the student, sample readings in the key."""

from __future__ import annotations

from manualgen.editions.compositor import Compositor
from manualgen.editions.sheet import (
    ColumnHead,
    Gap,
    GapWidth,
    MeanRow,
    ReadingsPanel,
)
from manualgen.model.fences import Column, ColumnKind, Readings
from manualgen.model.place import Place
from manualgen.model.text import Words
from manualgen.working.worked import WorkedExperiment


def set_readings(
    compositor: Compositor, work: WorkedExperiment, block: Readings
) -> ReadingsPanel:
    """A table with a gap in every cell that the class fills in."""
    columns = tuple(_cells(compositor, c, len(block.rows)) for c in block.columns)
    return ReadingsPanel(
        compositor.number_at(block.place),
        compositor.anchor_at(block.place) or None,
        tuple(ColumnHead(c.heading, c.symbol, c.unit) for c in block.columns),
        block.rows,
        tuple(zip(*columns, strict=True)),
        _mean(compositor, block),
    )


def _cells(compositor: Compositor, column: Column, rows: int) -> tuple[str | Gap, ...]:
    texts = [cell.text for cell in column.cells][:rows]
    texts += [""] * (rows - len(texts))
    if column.kind is ColumnKind.GIVEN:
        return tuple(texts)
    return tuple(_gap(compositor, text, column.place) for text in texts)


def _gap(compositor: Compositor, text: str, place: Place) -> Gap:
    return compositor.gap((Words(text, place),) if text else (), GapWidth.FULL)


def _mean(compositor: Compositor, block: Readings) -> MeanRow | None:
    mean = block.mean
    if mean is None:
        return None
    column = next((c for c in block.columns if c.symbol == mean.of), None)
    return MeanRow(
        column.heading if column else mean.of,
        mean.rows,
        mean.concordant,
        column.unit if column else None,
        _gap(compositor, "", mean.place),
    )
