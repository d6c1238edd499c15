"""Sets an experiment closer where its last lines would have a page to themselves.

How much of a page they take is known only when they are printed.  Every
edition of a size breaks into the same pages, so what is tried with one is
settled for all.
"""

from __future__ import annotations

from concurrent.futures import Future
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from manualgen.build.edition import page_name
from manualgen.build.prints import order_experiment, pdf_of
from manualgen.build.rendering import Making
from manualgen.pages.experiment import END, render_experiment
from manualgen.press.jobs import Print
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

    def settle(self) -> bool:
        """Keep the closer setting if it saves a page, else what was before.

        Gives whether it was kept; raises `PressError` where it could not be printed.
        """
        done = self.order.result()
        if done.scale == 1 and _last_page(done.job.pdf) < self.last_page:
            return True
        done.job.html.write_bytes(self.html)
        done.job.pdf.write_bytes(self.pdf)
        return False


def order_closer(press: Press, making: Making, index: int) -> Trial | None:
    """Order a printed experiment again, set closer, if it ends on an empty page."""
    edition, folder = making
    entry = edition.entries[index]
    html, pdf = folder / page_name(entry), pdf_of(folder, entry)
    if not _ends_early(pdf):
        return None
    before = html.read_bytes(), pdf.read_bytes(), _last_page(pdf)
    set_closer(making, index)
    return Trial(order_experiment(press, folder, edition, entry), *before)


def set_closer(making: Making, index: int) -> None:
    """Write an experiment's page anew, set closer."""
    edition, folder = making
    entry = edition.entries[index]
    context = replace(edition.context_of(index), snug=True)
    page = render_experiment(entry.sheet, entry.key, context)
    (folder / page_name(entry)).write_text(page, encoding="utf-8")


def _ends_early(pdf: Path) -> bool:
    places = read_places(pdf)
    return places.by_id[END] > 0 and places.depths[END] < NEARLY_EMPTY


def _last_page(pdf: Path) -> int:
    return read_places(pdf).by_id[END]
