"""Calculations as worksheets: a line for each value, its working in the key."""

from __future__ import annotations

from manualgen.editions.compositor import Compositor
from manualgen.editions.sheet import Gap, GapWidth, WorkLine, Worksheet
from manualgen.model.fences import Calculation, CalculationLine, Computed, Given
from manualgen.model.text import QuantitySpan, Words
from manualgen.working.worked import WorkedExperiment


def set_worksheet(
    compositor: Compositor, work: WorkedExperiment, block: Calculation
) -> Worksheet:
    """A line for each value; the author's own answers print nowhere."""
    computed: set[str] = set()
    lines: list[WorkLine] = []
    for line in block.lines:
        if isinstance(line, Given) and line.symbol in computed:
            continue
        if isinstance(line, Computed):
            computed.add(line.symbol)
        lines.append(_line(compositor, work, line))
    return Worksheet(compositor.anchor_at(block.place) or None, tuple(lines))


def _line(
    compositor: Compositor, work: WorkedExperiment, line: CalculationLine
) -> WorkLine:
    description = compositor.line(line.description)
    match line:
        case Given(measured=False):
            return WorkLine(line.symbol, description, line.quantity, line.quantity.unit)
        case Given():
            span = QuantitySpan(line.quantity, "", line.value_place)
            gap = compositor.gap((span,), GapWidth.MEDIUM)
            return WorkLine(line.symbol, description, gap, line.quantity.unit)
        case Computed():
            return WorkLine(
                line.symbol, description, _result(compositor, line), line.unit
            )


def _result(compositor: Compositor, line: Computed) -> Gap:
    return compositor.gap((Words(line.source, line.place),), GapWidth.FULL)
