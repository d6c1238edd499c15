"""Calculations as worksheets: a line for each value, its working in the key."""

from __future__ import annotations

from manualgen.editions.compositor import Compositor
from manualgen.editions.fence_panels import WorkLine, Worksheet
from manualgen.editions.key import FilledWork
from manualgen.editions.line import Gap, GapWidth
from manualgen.editions.results import printed_result
from manualgen.editions.wording import wording_of
from manualgen.model.fences import Calculation, Given
from manualgen.model.text import QuantitySpan
from manualgen.working.calculations import WorkedLine
from manualgen.working.worked import WorkedExperiment


def set_worksheet(
    compositor: Compositor, work: WorkedExperiment, block: Calculation
) -> Worksheet:
    """A line for each value; the author's own answers print nowhere."""
    worked = next(c for c in work.numbers.calculations if c.block is block)
    lines = tuple(_line(compositor, work, line) for line in worked.lines)
    return Worksheet(
        compositor.anchor_at(block.place) or None,
        lines,
        uncertain=any(w.stated and w.stated.standard for w in worked.lines),
        half_widths=any(_has_half_width(w) for w in worked.lines),
        half_widths_given=any(_has_half_width(w, given=True) for w in worked.lines),
    )


def _has_half_width(worked: WorkedLine, *, given: bool = False) -> bool:
    if not isinstance(worked.line, Given) or (given and worked.line.measured):
        return False
    quantity = worked.stated or worked.line.quantity
    return quantity.half_width is not None and not quantity.standard


def _line(
    compositor: Compositor, work: WorkedExperiment, worked: WorkedLine
) -> WorkLine:
    line = worked.line
    description = compositor.line(line.description)
    if not isinstance(line, Given):
        gap = _working(compositor, work, worked)
        return WorkLine(line.symbol, description, gap, worked.unit)
    quantity = worked.stated or line.quantity
    if not line.measured or compositor.showing_answers:
        return WorkLine(line.symbol, description, quantity, quantity.unit)
    span = QuantitySpan(line.quantity, "", line.value_place)
    gap = compositor.gap((span,), GapWidth.MEDIUM)
    return WorkLine(line.symbol, description, gap, line.quantity.unit)


def _working(compositor: Compositor, work: WorkedExperiment, worked: WorkedLine) -> Gap:
    value = (
        printed_result(worked.stated, wording_of(work.settings).house)
        if worked.stated
        else ""
    )
    filling = FilledWork(worked.algebra, worked.substitution, value)
    return Gap(compositor.new_key(filling), GapWidth.FULL)
