"""The technician's pages: sheets of actions, and sheets of bottle labels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from io import BytesIO

from markupsafe import Markup

from manualgen.drawing.pictograms import pictogram
from manualgen.editions.technician import BottleLabel, LabelSheet, TechnicianSheet
from manualgen.knowledge.labels import Say
from manualgen.pages import typeset
from manualgen.pages.context import PageContext
from manualgen.pages.environment import environment

FRONT_MARK = "P-"
"""How the pages before the first experiment are called."""
ORDER_MARK = "-P"
"""What stands between an experiment's number and a page's: ``4-P1``."""
LABELS_MARK = "-L"
"""The same on the pages of its labels."""


@dataclass(frozen=True, slots=True)
class LabelGroup:
    """Labels that begin on a sheet of their own."""

    name: str
    """Of the document in which they are printed."""
    title: str
    mark: str
    """How their pages are called, before the number."""
    sheet: LabelSheet
    labels: tuple[BottleLabel, ...]
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
        first, last = f"{self.mark}1", f"{self.mark}{len(self.sheets)}"
        return first if first == last else f"{first} – {last}"


def document_of(experiment: str) -> str:
    """The document in which an experiment's sheet is printed for the year."""
    return f".preparation-{experiment}"


def render_sheet(sheet: TechnicianSheet, context: PageContext) -> str:
    """The sheet for one class or one day, or for an experiment of the year."""
    prefix = f"{sheet.number}{ORDER_MARK}" if sheet.number else ""
    title = "  ".join(filter(None, (sheet.number, sheet.title)))
    return _preparation((sheet,), context, title=title, prefix=prefix)


def render_year(
    sheets: Sequence[TechnicianSheet], groups: str, context: PageContext
) -> str:
    """Every experiment's sheet on one page; ``groups`` says how many come."""
    return _preparation(
        sheets,
        context,
        title=context.say["preparation"],
        prefix=FRONT_MARK,
        year=True,
        listed=sheets,
        address=lambda sheet: f"#{sheet.id}",
        groups=groups,
    )


def render_front(
    sheets: Sequence[TechnicianSheet], groups: str, context: PageContext
) -> str:
    """What stands before the printed sheets of the year: a list of them."""
    return _preparation(
        (),
        context,
        title=context.say["preparation"],
        prefix=FRONT_MARK,
        year=True,
        front=True,
        listed=sheets,
        address=lambda sheet: f"{document_of(sheet.id)}.html",
        groups=groups,
    )


def render_labels(group: LabelGroup, context: PageContext) -> str:
    """Bottle labels, copy by copy, on sheets that fit the trade's."""
    return _render("labels", context, group=group, listed=())


def render_labels_front(groups: Sequence[LabelGroup], context: PageContext) -> str:
    """What stands before all labels: which there are, and on what sheets."""
    return _render("labels", context, group=None, listed=groups)


def _preparation(
    sheets: Sequence[TechnicianSheet], context: PageContext, **values: object
) -> str:
    given = {"year": False, "front": False, "listed": (), "groups": "", **values}
    return _render("preparation", context, sheets=sheets, **given)


def _render(name: str, context: PageContext, **values: object) -> str:
    template = environment().get_template(f"technician/{name}.html")
    pieces = template.generate(
        context=context,
        say=context.say,
        words=typeset.small_figures,
        pictogram=partial(_pictogram, say=context.say),
        **values,
    )
    # A year's sheets are many megabytes; as bytes they are half as many, in one piece.
    made = BytesIO()
    for piece in pieces:
        made.write(piece.encode())
    return made.getvalue().decode()


def _pictogram(code: str, say: Say) -> Markup:
    """A pictogram with its name in the manual's language."""
    return Markup(pictogram(code, name=say[f"pictogram_{code}"]))
