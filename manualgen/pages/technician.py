"""The technician's pages: sheets of actions, and sheets of bottle labels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from manualgen.drawing.pictograms import pictogram
from manualgen.editions.technician import BottleLabel, LabelSheet, TechnicianSheet
from manualgen.knowledge.labels import Say
from manualgen.pages import typeset
from manualgen.pages.context import PageContext
from manualgen.pages.environment import environment

YEAR_PREFIX = "P-"
"""How the pages before the first experiment are called."""
ORDER_MARK = "-P"
"""What stands between an experiment's number and a page's: ``4-P1``."""


@dataclass(frozen=True, slots=True)
class LabelGroup:
    """Labels that begin on a sheet of their own."""

    title: str
    sheet: LabelSheet
    labels: tuple[BottleLabel, ...]
    first_page: int
    small: bool = False
    """Whether they are of the small form."""

    @property
    def sheets(self) -> tuple[tuple[BottleLabel, ...], ...]:
        """Every copy, sheet by sheet."""
        each = [label for label in self.labels for _ in range(label.copies)]
        number = self.sheet.number
        starts = range(0, len(each), number)
        return tuple(tuple(each[n : n + number]) for n in starts)

    @property
    def pages(self) -> str:
        """The pages on which they stand."""
        last = self.first_page + len(self.sheets) - 1
        if last == self.first_page:
            return str(last)
        return f"{self.first_page}–{last}"


def render_day(sheet: TechnicianSheet, context: PageContext) -> str:
    """The sheet for one class or one day."""
    return _render(
        "preparation", context, sheets=(sheet,), title=sheet.title, prefix="", groups=""
    )


def render_year(
    sheets: Sequence[TechnicianSheet], groups: str, context: PageContext
) -> str:
    """Every experiment's sheet, behind a list of them; ``groups`` is how many come."""
    title = context.say["preparation"]
    return _render(
        "preparation",
        context,
        sheets=sheets,
        title=title,
        prefix=YEAR_PREFIX,
        groups=groups,
    )


def render_labels(groups: Sequence[LabelGroup], context: PageContext) -> str:
    """Bottle labels, copy by copy, on sheets that fit the trade's."""
    return _render("labels", context, groups=groups)


def _render(name: str, context: PageContext, **values: object) -> str:
    template = environment().get_template(f"technician/{name}.html")
    return template.render(
        context=context,
        say=context.say,
        words=typeset.small_figures,
        pictogram=partial(_pictogram, say=context.say),
        **values,
    )


def _pictogram(code: str, say: Say) -> Markup:
    """A pictogram with its name in the manual's language."""
    return Markup(pictogram(code, name=say[f"pictogram_{code}"]))
