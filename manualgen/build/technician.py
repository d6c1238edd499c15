"""The technician's edition: the sheets of the year, bottle labels and the stock list.

A sheet of one day is printed here too.  Labels are for printing alone, so their
page is written under a hidden name and taken away when it is printed.
"""

from __future__ import annotations

import datetime
import tempfile
from collections.abc import Sequence
from concurrent.futures import Future
from dataclasses import replace
from pathlib import Path

from manualgen.editions.technician import TechnicianSheet
from manualgen.knowledge.labels import labels
from manualgen.pages.assets import assets
from manualgen.pages.context import PageContext
from manualgen.pages.site import Edition as Offer
from manualgen.pages.site import Offered
from manualgen.pages.technician import (
    ORDER_MARK,
    YEAR_PREFIX,
    LabelGroup,
    render_day,
    render_labels,
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
_LABELS, _UNBOUND = ".labels.html", ".preparation.pdf"


def write_technician(new: Path, worked: Worked, *, pdf: bool) -> Offer:
    """Write the edition's pages and lists; the answer is what the start page offers."""
    folder, writer = new / TECHNICIAN, writer_for(worked)
    plans = plans_of_year(worked)
    context = replace(technician_context(worked), pdf=PREPARATION_PDF if pdf else None)
    _write_assets(folder)
    sheets = [sheet_of(plan, writer) for plan in plans]
    groups = writer.groups(worked.manual.settings.groups)
    year = render_year(sheets, groups, context)
    (folder / PREPARATION).write_text(year, encoding="utf-8")
    stock = stock_list(worked, plans, writer)
    (folder / STOCK_LIST).write_text(stock, encoding="utf-8")
    documents = [Offered(PREPARATION, "preparation_page")]
    if pdf:
        page = render_labels(_label_groups(worked, plans, writer), context)
        (folder / _LABELS).write_text(page, encoding="utf-8")
        documents.append(Offered(PREPARATION_PDF, "preparation_pdf"))
        documents.append(Offered(LABELS_PDF, "labels_pdf"))
    return Offer(TECHNICIAN, (*documents, Offered(STOCK_LIST, "stocklist")))


def order_technician(press: Press, new: Path) -> tuple[Future[Print], ...]:
    """Order the prints of the edition's documents."""
    folder = new / TECHNICIAN
    year, small = folder / PREPARATION, folder / _LABELS
    return (
        press.submit(Job("preparation", year, folder / _UNBOUND)),
        press.submit(Job("bottle labels", small, folder / LABELS_PDF)),
    )


def bind_technician(new: Path, worked: Worked, orders: Sequence[Future[Print]]) -> None:
    """Give the year's pages their numbers, and take away what only printing needs.

    Raises `PressError` where a document could not be printed at its true size.
    """
    from manualgen.press.book import Labels, Part, join_book

    for order in orders:
        _refuse_shrunk(order.result())
    folder, settings = new / TECHNICIAN, worked.manual.settings
    unbound, title = folder / _UNBOUND, technician_context(worked).say["preparation"]
    numbered = (
        Labels(f"{entry.number}{ORDER_MARK}", entry.experiment)
        for entry in worked.manual.entries()
    )
    part = Part(unbound, title, (Labels(YEAR_PREFIX), *numbered))
    name = f"{title} – {settings.title}"
    book = join_book([part], name, settings.language, printed_on(worked))
    (folder / PREPARATION_PDF).write_bytes(book)
    unbound.unlink()
    (folder / _LABELS).unlink()


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
    html = render_day(sheet, technician_context(worked))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _write_assets(folder)
        page = folder / PREPARATION
        page.write_text(html, encoding="utf-8")
        made = page.with_suffix(".pdf")
        with Press(folder, printed_on(worked), browsers=1) as press:
            _refuse_shrunk(press.submit(Job(sheet.title, page, made)).result())
        _deliver(made, output)


def printed_on(worked: Worked) -> datetime.datetime:
    """The date that a PDF bears."""
    return datetime.datetime.combine(worked.today, datetime.time(), datetime.UTC)


def technician_context(worked: Worked) -> PageContext:
    """The surroundings of the technician's pages."""
    settings = worked.manual.settings
    say = labels(settings.language, settings.labels)
    return PageContext(
        manual=settings.title,
        edition=say["technician_edition"],
        institution=settings.institution,
        year=settings.edition,
        language=settings.language,
        own_labels=settings.labels,
        paper=settings.paper,
        duplex=settings.duplex,
        house=replace(settings.house, to=say["to"]),
    )


def _label_groups(
    worked: Worked, plans: Sequence[Plan], writer: Writer
) -> list[LabelGroup]:
    """The stock bottles' labels, then each class's; the first page tells of them."""
    paper = worked.manual.settings.paper.value
    large, small = (label_sheet(paper, small=s) for s in (False, True))
    stock = stock_labels(plans, writer)
    groups = [LabelGroup(writer.say("stock_bottles"), large, stock, 2)] if stock else []
    for each in plans:
        work = each.order.sittings[0].work
        called = f"{work.number} {work.experiment.title}"
        title = writer.say("class_bottles", title=called)
        if made := class_labels(each, writer):
            last = groups[-1] if groups else None
            first = last.first_page + len(last.sheets) if last else 2
            groups.append(LabelGroup(title, small, made, first, small=True))
    return groups


def _refuse_shrunk(done: Print) -> None:
    if done.scale != 1:
        wide = ", ".join(f"{w.tag} {w.id}" for w in done.wide)
        raise PressError(f"{done.job.name} is wider than its paper ({wide})")


def _write_assets(folder: Path) -> None:
    for path, content in assets():
        target = folder / "assets" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content())


def _deliver(made: Path, output: Path) -> None:
    try:
        output.write_bytes(made.read_bytes())
    except OSError as error:
        raise PressError(f"cannot write {output}: {error.strerror}") from error
