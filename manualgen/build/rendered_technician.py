"""The technician's edition as pages in memory, to be compared with another's."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import partial

from manualgen.build.kept import AskedAll, AskedMapping, Kept, MadeFrom
from manualgen.build.technician import (
    TECHNICIAN,
    label_groups,
    labels_of,
    technician_context,
)
from manualgen.editions.technician import TechnicianSheet
from manualgen.pages.context import PageContext
from manualgen.pages.technician import LabelGroup, render_labels, render_sheet
from manualgen.preparation.plan import Plan
from manualgen.preparation.sheet import sheet_of, writer_for
from manualgen.preparation.stock import stock_list
from manualgen.preparation.words import Writer
from manualgen.review.preparing import class_plan
from manualgen.review.prints import Printed, PrintedPage
from manualgen.working.worked import Worked, WorkedExperiment

STOCK_LABELS, STOCK_LIST = "stock labels", "stock list"


@dataclass(slots=True)
class Technicians:
    """Each experiment's sheet with the labels of its bottles, and what all share."""

    _plans: Kept[Plan] = field(default_factory=Kept)
    _sheets: Kept[TechnicianSheet] = field(default_factory=Kept)
    _pages: Kept[PrintedPage] = field(default_factory=Kept)

    def printed(self, worked: Worked) -> Printed:
        """The edition of a manual whose entries all exist."""
        writer, context = writer_for(worked), technician_context(worked)
        works = {w.experiment.id: w for w in worked.experiments}
        listed = [works[e.experiment] for e in worked.manual.entries()]
        plans = tuple(self._plan(work) for work in listed)
        groups = {g.name: g for g in label_groups(worked, plans, writer)}
        pages = {}
        for made in plans:
            sheet = self._sheet(made, writer)
            labels = groups.pop(labels_of(sheet.id), None)
            pages[sheet.id] = self._page(sheet, labels, context)
        rest = tuple(groups.values())
        matter = {
            STOCK_LABELS: PrintedPage(partial(_labels, rest, context)),
            STOCK_LIST: PrintedPage(partial(stock_list, worked, plans, writer)),
        }
        return Printed(TECHNICIAN, pages, matter, {})

    def _plan(self, work: WorkedExperiment) -> Plan:
        return self._plans.made(
            work.experiment.id,
            MadeFrom((work,)),
            lambda: class_plan(work, work.settings),
        )

    def _sheet(self, made: Plan, writer: Writer) -> TechnicianSheet:
        numbers = AskedMapping(writer.numbers)
        return self._sheets.made(
            made.order.sittings[0].work.experiment.id,
            AskedAll((MadeFrom((made,), (writer.wording,)), numbers)),
            lambda: sheet_of(made, replace(writer, numbers=numbers)),
        )

    def _page(
        self, sheet: TechnicianSheet, labels: LabelGroup | None, context: PageContext
    ) -> PrintedPage:
        render = partial(_sheet_page, sheet, labels, context)
        make = partial(PrintedPage, render, sheet.number)
        made_from = MadeFrom((), (sheet, labels, context))
        return self._pages.made(sheet.id, made_from, make)


def _sheet_page(
    sheet: TechnicianSheet, labels: LabelGroup | None, context: PageContext
) -> str:
    return render_sheet(sheet, context) + _labels((labels,) if labels else (), context)


def _labels(groups: tuple[LabelGroup, ...], context: PageContext) -> str:
    return "".join(render_labels(group, context) for group in groups)
