"""The paper family: what the printed page has no room for.

The press measures what it prints and stops a build whose pages are too wide;
here the same is foretold from the faces' own widths, so that `check` and
`build` agree.
"""

from __future__ import annotations

from manualgen.checks.registry import Report, check
from manualgen.drawing.face import EM_MM, width_mm
from manualgen.model.finding import Fault, Severity
from manualgen.model.text import FormulaSpan, QuantitySpan
from manualgen.model.walk import inlines_of
from manualgen.working.worked import WorkedExperiment

COLUMN_MM = 149.0
"""How wide the narrowest paper's column is."""


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
