"""Print an edition: each experiment by itself, then the book around them.

What stands before and after the experiments tells on which page things are,
so it is printed when the experiments are.  Such matter is written under hidden
names, which no experiment can have, and taken away when it is bound.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Future
from dataclasses import dataclass, replace
from pathlib import Path

from manualgen.build.edition import Edition, EditionName, page_name
from manualgen.pages.book import BookEntry
from manualgen.pages.matter import render_answer_key, render_back, render_front
from manualgen.pages.stations import cards_address, render_stations, stations_of
from manualgen.press.book import Labels, Part, join_book
from manualgen.press.jobs import Job, Places, Print
from manualgen.press.press import Press

TEACHER_PAGES = "section.teacher"
"""The anchor at which an experiment's teacher pages begin."""
APPENDIX_PREFIX = "A-"
ANSWERS_PREFIX = "K-"
CARDS = "stations"


@dataclass(frozen=True, slots=True)
class Printing:
    """An edition whose experiments, or whose other matter, are being printed."""

    edition: Edition
    folder: Path
    orders: tuple[Future[Print], ...]

    def prints(self) -> tuple[Print, ...]:
        """Every print, waited for; raises `PressError` where one failed."""
        return tuple(order.result() for order in self.orders)


def order_experiments(press: Press, folder: Path, edition: Edition) -> Printing:
    """Order a print of every experiment's page."""
    orders = (order_experiment(press, folder, edition, e) for e in edition.entries)
    return Printing(edition, folder, tuple(orders))


def order_experiment(
    press: Press, folder: Path, edition: Edition, entry: BookEntry
) -> Future[Print]:
    """Order a print of one experiment's page."""
    return press.submit(
        Job(
            f"{entry.sheet.id} ({edition.name.value} edition)",
            folder / page_name(entry),
            pdf_of(folder, entry),
        )
    )


def pdf_of(folder: Path, entry: BookEntry) -> Path:
    """Where an experiment's PDF stands in an edition's folder."""
    return folder / "pdf" / f"{entry.sheet.id}.pdf"


def order_matter(press: Press, printed: Printing) -> Printing:
    """Order what stands around the experiments, now that their pages are known."""
    folder = printed.folder
    pages = {
        entry.sheet.id: _pages(entry, done.places)
        for entry, done in zip(printed.edition.entries, printed.prints(), strict=True)
    }
    edition = printed.edition.with_pages(pages)
    orders: list[Future[Print]] = []
    for name, render in _matter(edition.name).items():
        html = folder / f".{name}.html"
        html.write_text(render(edition.book, edition.context()), encoding="utf-8")
        title = f"{name} ({edition.name.value} edition)"
        orders.append(press.submit(Job(title, html, html.with_suffix(".pdf"))))
    orders += [order_cards(press, folder, edition, e) for e in _with_cards(edition)]
    return Printing(edition, folder, tuple(orders))


def _with_cards(edition: Edition) -> Iterator[BookEntry]:
    """The experiments with stations; large print is the book alone."""
    if not edition.large:
        yield from (e for e in edition.entries if stations_of(e.sheet))


def order_cards(
    press: Press, folder: Path, edition: Edition, entry: BookEntry
) -> Future[Print]:
    """Order a print of an experiment's station cards."""
    html = folder / f".{CARDS}.{entry.sheet.id}.html"
    page = render_stations(entry.sheet, replace(edition.context(), snug=True))
    html.write_text(page, encoding="utf-8")
    name = f"{entry.sheet.id} ({CARDS})"
    return press.submit(Job(name, html, folder / cards_address(entry.sheet)))


def _matter(name: EditionName) -> Mapping[str, Callable[..., str]]:
    around: dict[str, Callable[..., str]] = {
        "front": render_front,
        "back": render_back,
    }
    if name is EditionName.TEACHER:
        around["answer-key"] = render_answer_key
    return around


def _pages(entry: BookEntry, places: Places) -> dict[str, str]:
    """The number of the page on which each anchor stands: ``4-2``, ``4-T1``."""
    number = entry.sheet.number
    teachers = places.by_id.get(TEACHER_PAGES, places.pages)
    return {
        anchor: (
            f"{number}-{page + 1}"
            if page < teachers
            else f"{number}-T{page - teachers + 1}"
        )
        for anchor, page in places.by_id.items()
    }


def bind(printing: Printing, when: datetime.datetime) -> None:
    """Join an edition into ``manual.pdf``, and the teacher's ``answer-key.pdf``."""
    folder, edition = printing.folder, printing.edition
    settings = edition.settings
    say = edition.context().say
    parts = [
        Part(folder / ".front.pdf", say["contents"], (Labels("", roman=True),)),
        *_experiments(folder, edition),
        Part(folder / ".back.pdf", say["index"], (Labels(APPENDIX_PREFIX),)),
    ]
    book = join_book(
        parts, settings.title, settings.language, when, duplex=settings.duplex
    )
    (folder / "manual.pdf").write_bytes(book)
    if edition.name is EditionName.TEACHER:
        answers = Part(
            folder / ".answer-key.pdf", say["answer_key"], (Labels(ANSWERS_PREFIX),)
        )
        key = join_book([answers], say["answer_key"], settings.language, when)
        (folder / "answer-key.pdf").write_bytes(key)
    for name in (*_matter(edition.name), CARDS):
        for hidden in folder.glob(f".{name}.*"):
            hidden.unlink()


def _experiments(folder: Path, edition: Edition) -> list[Part]:
    return [
        Part(
            pdf_of(folder, entry),
            f"{entry.sheet.number} {entry.sheet.title}",
            tuple(_labels(entry)),
            part.title,
        )
        for part in edition.book.parts
        for entry in part.entries
    ]


def _labels(entry: BookEntry) -> list[Labels]:
    number = entry.sheet.number
    found = [Labels(f"{number}-")]
    if entry.key.pages is not None:
        found.append(Labels(f"{number}-T", TEACHER_PAGES))
    return found
