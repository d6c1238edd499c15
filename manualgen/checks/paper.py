"""The paper family: what the printed page has no room for.

The press measures what it prints and stops a build whose pages are too wide;
here the same is foretold from the faces' own widths, so that `check` and
`build` agree.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from manualgen.checks.registry import Report, check
from manualgen.drawing.face import EM_MM, width_mm
from manualgen.model.fences import Axis
from manualgen.model.finding import Fault, Severity
from manualgen.model.text import FormulaSpan, QuantitySpan
from manualgen.model.walk import inlines_of
from manualgen.working.worked import WorkedExperiment

COLUMN_MM = 149.0
"""How wide the narrowest paper's column is."""

_MOST_STEPS = 40
"""On an axis that a mend proposes; a range far off has another cause."""


@check("page-overflow", Severity.ERROR)
def page_overflow(work: WorkedExperiment) -> Report:
    """Nothing is wider than the page, which would make the whole print shrink."""
    spans: list[FormulaSpan | QuantitySpan] = []
    spans += inlines_of(work.experiment, FormulaSpan)
    spans += inlines_of(work.experiment, QuantitySpan)
    for span in spans:
        if len(span.source) * EM_MM <= COLUMN_MM:
            continue  # as nearly all: no need to measure them letter by letter
        wide = width_mm(span.source)
        if wide > COLUMN_MM:
            yield Fault(
                span.place,
                f"this is about {wide:.0f} mm wide and cannot be broken, and "
                f"the page has {COLUMN_MM:.0f} mm",
            )


@check("graph-outside", Severity.WARNING)
def graph_outside(work: WorkedExperiment) -> Report:
    """Every point of a graph lies within its axes, so that the paper has room for it."""
    for graph in work.numbers.graphs:
        x, y = graph.block.x, graph.block.y
        for axis, values in (
            (x, [Fraction(point.at.x) for point in graph.points]),
            (y, [Fraction(point.at.y) for point in graph.points]),
        ):
            fault = _outside(axis, values)
            if fault:
                yield fault


def _outside(axis: Axis, values: Sequence[Fraction]) -> Fault | None:
    """The points that an axis has no room for; a hair's breadth is none."""
    low, high = sorted((Fraction(axis.start), Fraction(axis.stop)))
    hair = (high - low) / 1000
    out = [v for v in values if not low - hair <= v <= high + hair]
    if not out:
        return None
    unit, worst = axis.unit.text, max(out, key=lambda v: max(low - v, v - high))
    where = f"{axis.symbol} runs from {axis.start} to {axis.stop} {unit}"
    these = (
        f"{len(out)} of {len(values)} points lie" if len(out) > 1 else "a point lies"
    )
    message = (
        f"{where}, and {these} outside it, the farthest at {float(worst):.4g} {unit}"
    )
    return Fault(axis.place, message, _wider(axis, [*values, low, high]))


def _wider(axis: Axis, values: Sequence[Fraction]) -> str | None:
    step = abs(Fraction(axis.step))
    first, last = math.floor(min(values) / step), math.ceil(max(values) / step)
    if axis.start > axis.stop or last - first > _MOST_STEPS:
        return None
    low, high = (axis.step * n for n in (first, last))
    return f"{axis.symbol} / {axis.unit.text}, {low} to {high} step {axis.step}"
