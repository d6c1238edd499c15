"""Sets an experiment closer where its last lines would have a page to themselves.

How much of a page they take is known only when they are printed.  Both
editions break into the same pages, so each comes to the same decision by itself.
"""

from __future__ import annotations

from concurrent.futures import Future
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from manualgen.build.edition import Edition
from manualgen.build.prints import Printing, pdf_of
from manualgen.pages.experiment import END, render_experiment
from manualgen.press.jobs import Job, Print
from manualgen.press.places import read_places
from manualgen.press.press import Press

NEARLY_EMPTY: Final = 0.4
"""How far down its last page an experiment ends that is worth a trial."""


@dataclass(frozen=True, slots=True)
class Trial:
    """An experiment printed again, set closer, and what it was before."""

    order: Future[Print]
    html: bytes
    pdf: bytes
    last_page: int

    def settle(self) -> None:
        """Keep the closer setting if it saves a page, else what was before.

        Raises `PressError` where it could not be printed.
        """
        done = self.order.result()
        if done.scale == 1 and _last_page(done.job.pdf) < self.last_page:
            return
        done.job.html.write_bytes(self.html)
        done.job.pdf.write_bytes(self.pdf)


def order_closer(press: Press, printed: Printing, index: int) -> Trial | None:
    """Order an experiment again, set closer, if it ends on a nearly empty page.

    Its first print is waited for.
    """
    printed.orders[index].result()
    if not _ends_early(pdf_of(printed.folder, printed.edition.entries[index])):
        return None
    return _trial(press, printed.folder, printed.edition, index)


def _trial(press: Press, folder: Path, edition: Edition, index: int) -> Trial:
    entry = edition.entries[index]
    html, pdf = folder / f"{entry.sheet.id}.html", pdf_of(folder, entry)
    before = html.read_bytes(), pdf.read_bytes(), _last_page(pdf)
    context = replace(edition.context_of(index), snug=True)
    html.write_text(
        render_experiment(entry.sheet, entry.key, context), encoding="utf-8"
    )
    name = f"{entry.sheet.id} ({edition.name.value} edition)"
    return Trial(press.submit(Job(name, html, pdf)), *before)


def _ends_early(pdf: Path) -> bool:
    places = read_places(pdf)
    return places.by_id[END] > 0 and places.depths[END] < NEARLY_EMPTY


def _last_page(pdf: Path) -> int:
    return read_places(pdf).by_id[END]
