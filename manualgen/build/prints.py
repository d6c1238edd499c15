"""Print an edition: each experiment by itself, then the book of them all."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from concurrent.futures import Future
from dataclasses import dataclass
from pathlib import Path

from manualgen.build.edition import Chapter, EditionName
from manualgen.model.manual import Manual
from manualgen.press.book import Labels, Part, join_book
from manualgen.press.jobs import Job, Print
from manualgen.press.press import Press

TEACHER_PAGES = "section.teacher"
"""The id at which an experiment's teacher pages begin."""


@dataclass(frozen=True, slots=True)
class Printing:
    """An edition's prints, ordered and perhaps not finished."""

    edition: EditionName
    folder: Path
    chapters: tuple[Chapter, ...]
    orders: tuple[Future[Print], ...]

    def prints(self) -> tuple[Print, ...]:
        """Every print, waited for; raises `PressError` where one failed."""
        return tuple(order.result() for order in self.orders)


def order_prints(
    press: Press, edition: EditionName, folder: Path, laid_out: Sequence[Chapter]
) -> Printing:
    """Order a print of every experiment's page."""
    orders = tuple(
        press.submit(
            Job(
                f"{chapter.sheet.id} ({edition.value} edition)",
                folder / f"{chapter.sheet.id}.html",
                pdf_of(folder, chapter),
            )
        )
        for chapter in laid_out
    )
    return Printing(edition, folder, tuple(laid_out), orders)


def pdf_of(folder: Path, chapter: Chapter) -> Path:
    """Where an experiment's PDF stands in an edition's folder."""
    return folder / "pdf" / f"{chapter.sheet.id}.pdf"


def bind_book(printing: Printing, manual: Manual, when: datetime.datetime) -> None:
    """Join an edition's prints into ``manual.pdf``."""
    groups = {e.experiment: part.title for part in manual.parts for e in part.entries}
    parts = [
        Part(
            pdf_of(printing.folder, chapter),
            f"{chapter.sheet.number} {chapter.sheet.title}",
            tuple(_labels(chapter)),
            groups.get(chapter.sheet.id, ""),
        )
        for chapter in printing.chapters
    ]
    settings = manual.settings
    book = join_book(parts, settings.title, settings.language, when)
    (printing.folder / "manual.pdf").write_bytes(book)


def _labels(chapter: Chapter) -> list[Labels]:
    number = chapter.sheet.number
    labels = [Labels(f"{number}-")]
    if chapter.key.pages is not None:
        labels.append(Labels(f"{number}-T", TEACHER_PAGES))
    return labels
