"""The technician's edition: the sheets of the year, bottle labels and the stock list.

A sheet of one day is printed here too.  For the year each experiment's sheet and
its labels are printed by themselves, under hidden names, and joined, so that a
change to one experiment prints its own pages alone.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import Future
from dataclasses import replace
from pathlib import Path

from manualgen.build.delivery import deliver, printed_on
from manualgen.editions.technician import TechnicianSheet
from manualgen.pages.assets import assets
from manualgen.pages.context import PageContext, context_for
from manualgen.pages.site import Edition as Offer
from manualgen.pages.site import Offered
from manualgen.pages.technician import (
    FRONT_MARK,
    LABELS_MARK,
    ORDER_MARK,
    LabelGroup,
    document_of,
    render_front,
    render_labels,
    render_labels_front,
    render_sheet,
    render_year,
)
from manualgen.preparation.bottle_labels import (
    class_labels,
    label_sheet,
    stock_labels,
)
from manualgen.preparation.needs import Order, Sitting
from manualgen.preparation.plan import Plan, plan
from manualgen.preparation.sheet import plans_of_year, sheet_of, spare_of, writer_for
from manualgen.preparation.stock import stock_list
from manualgen.preparation.words import Writer
from manualgen.press.errors import PressError
from manualgen.press.jobs import Job, Print
from manualgen.press.press import Press
from manualgen.working.worked import Worked

TECHNICIAN = "technician"
"""The edition's folder."""
PREPARATION, STOCK_LIST = "preparation.html", "stocklist.csv"
PREPARATION_PDF, LABELS_PDF = "preparation.pdf", "labels.pdf"
_FRONT, _LABELS_FRONT, _STOCK = ".preparation", ".labels", ".labels-stock"
_STOCK_MARK = "S-"


def write_technician(new: Path, worked: Worked, *, pdf: bool) -> Offer:
    """Write the edition's pages and lists; the answer is what the start page offers."""
    folder, writer = new / TECHNICIAN, writer_for(worked)
    plans = plans_of_year(worked)
    sheets = [sheet_of(each, writer) for each in plans]
    groups = writer.groups(worked.manual.settings.groups)
    context = technician_context(worked)
    _write_assets(folder)
    _write(folder / STOCK_LIST, stock_list(worked, plans, writer))
    year = replace(context, pdf=PREPARATION_PDF if pdf else None)
    _write(folder / PREPARATION, render_year(sheets, groups, year))
    documents = [Offered(PREPARATION, "preparation_page")]
    if pdf:
        _write(folder / f"{_FRONT}.html", render_front(sheets, groups, context))
        for sheet in sheets:
            page = folder / f"{document_of(sheet.id)}.html"
            _write(page, render_sheet(sheet, context))
        _write_labels(folder, tuple(label_groups(worked, plans, writer)), context)
        documents.append(Offered(PREPARATION_PDF, "preparation_pdf"))
        documents.append(Offered(LABELS_PDF, "labels_pdf"))
    return Offer(TECHNICIAN, (*documents, Offered(STOCK_LIST, "stocklist")))


def _write_labels(
    folder: Path, groups: Sequence[LabelGroup], context: PageContext
) -> None:
    _write(folder / f"{_LABELS_FRONT}.html", render_labels_front(groups, context))
    for group in groups:
        _write(folder / f"{group.name}.html", render_labels(group, context))


def order_technician(press: Press, new: Path) -> tuple[Future[Print], ...]:
    """Order the prints of the edition's documents."""
    return tuple(
        press.submit(
            Job(f"{page.stem[1:]} (technician edition)", page, page.with_suffix(".pdf"))
        )
        for page in sorted((new / TECHNICIAN).glob(".*.html"))
    )


def bind_technician(new: Path, worked: Worked, orders: Sequence[Future[Print]]) -> None:
    """Join the year's sheets and the labels, and take away what they were made from.

    Raises `PressError` where a document could not be printed at its true size.
    """
    for order in orders:
        _refuse_shrunk(order.result())
    folder, say = new / TECHNICIAN, technician_context(worked).say
    titles = {e.id: e.title for e in worked.manual.experiments}
    listed = [
        (e.experiment, e.number, f"{e.number} {titles.get(e.experiment, '')}")
        for e in worked.manual.entries()
    ]
    sheets = [(_FRONT, say["contents"], FRONT_MARK)]
    sheets += [(document_of(i), t, f"{n}{ORDER_MARK}") for i, n, t in listed]
    labels = [(_LABELS_FRONT, say["contents"], "")]
    labels += [(_STOCK, say["stock_bottles"], _STOCK_MARK)]
    labels += [(labels_of(i), t, f"{n}{LABELS_MARK}") for i, n, t in listed]
    _bind(folder, sheets, worked, PREPARATION_PDF, say["preparation"])
    _bind(folder, labels, worked, LABELS_PDF, say["bottle_labels"])
    for hidden in folder.glob(".*.*"):
        hidden.unlink()


def _bind(
    folder: Path,
    parts: Sequence[tuple[str, str, str]],
    worked: Worked,
    file: str,
    title: str,
) -> None:
    """Join what there is of these: each a document, its title, and how its pages are called."""
    from manualgen.press.book import Labels, Part, join_book

    settings = worked.manual.settings
    there = [
        Part(pdf, called, (Labels(mark),))
        for name, called, mark in parts
        if (pdf := folder / f"{name}.pdf").exists()
    ]
    whole = f"{title} – {settings.title}"
    book = join_book(there, whole, settings.language, printed_on(worked))
    (folder / file).write_bytes(book)


def labels_of(experiment: str) -> str:
    """The document in which the labels for an experiment's classes are printed."""
    return f".labels-of-{experiment}"


def print_experiment(worked: Worked, experiment: str, output: Path) -> None:
    """Write the PDF of one experiment's sheet, for the class the manual is for.

    Raises `PressError` as `print_sheet` does.
    """
    work = next(w for w in worked.experiments if w.experiment.id == experiment)
    sitting = Sitting(work, worked.manual.settings.groups)
    order = Order((sitting,), spare_of(worked))
    print_sheet(worked, sheet_of(plan(order), writer_for(worked)), output)


def print_sheet(worked: Worked, sheet: TechnicianSheet, output: Path) -> None:
    """Write the PDF of one sheet.

    Raises `PressError` where the browser fails or the file cannot be written.
    """
    html = render_sheet(sheet, technician_context(worked))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _write_assets(folder)
        page = folder / PREPARATION
        _write(page, html)
        made = page.with_suffix(".pdf")
        with Press(folder, printed_on(worked), browsers=1) as press:
            _refuse_shrunk(press.submit(Job(sheet.title, page, made)).result())
        deliver(made, output)


def technician_context(worked: Worked) -> PageContext:
    """The surroundings of the technician's pages."""
    return context_for(worked.manual.settings, TECHNICIAN)


def label_groups(
    worked: Worked, plans: Sequence[Plan], writer: Writer
) -> Iterator[LabelGroup]:
    """The stock bottles' labels, then each class's."""
    paper = worked.manual.settings.paper.value
    large, small = (label_sheet(paper, small=s) for s in (False, True))
    if stock := stock_labels(plans, writer):
        title = writer.say("stock_bottles")
        yield LabelGroup(_STOCK, title, _STOCK_MARK, large, stock)
    for each in plans:
        work = each.order.sittings[0].work
        name = labels_of(work.experiment.id)
        called = f"{work.number} {work.experiment.title}"
        title = writer.say("class_bottles", title=called)
        if made := class_labels(each, writer):
            mark = f"{work.number}{LABELS_MARK}"
            yield LabelGroup(name, title, mark, small, made, small=True)


def _refuse_shrunk(done: Print) -> None:
    if done.scale != 1:
        wide = ", ".join(f"{w.tag} {w.id}" for w in done.wide)
        raise PressError(f"{done.job.name} is wider than its paper ({wide})")


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def _write_assets(folder: Path) -> None:
    for path, content in assets():
        target = folder / "assets" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content())
