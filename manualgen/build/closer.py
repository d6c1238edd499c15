"""Sets an experiment closer where its last lines would have a page to themselves.

How much of a page they take is known only when they are printed.  Every
edition of a size breaks into the same pages, so what is tried with one is
settled for all.
"""

from __future__ import annotations

from concurrent.futures import Future
from dataclasses import dataclass, replace
from typing import Final

from manualgen.build.edition import page_name
from manualgen.build.prints import order_experiment
from manualgen.build.rendering import Making, Render
from manualgen.pages.experiment import END
from manualgen.press.jobs import Print
from manualgen.press.press import Press

NEARLY_EMPTY: Final = 0.4
"""How far down its last page an experiment ends that is worth a trial."""


@dataclass(frozen=True, slots=True)
class Trial:
    """An experiment printed again, set closer, and what it was before."""

    order: Future[Print]
    before: Print
    html: bytes
    pdf: bytes

    def settle(self) -> bool:
        """Keep the closer setting if it saves a page, else what was before.

        Gives whether it was kept; raises `PressError` where it could not be printed.
        """
        done = self.order.result()
        if done.scale == 1 and _last_page(done) < _last_page(self.before):
            return True
        done.job.html.write_bytes(self.html)
        done.job.pdf.write_bytes(self.pdf)
        return False


def order_closer(
    press: Press, making: Making, index: int, printed: Print, render: Render
) -> Trial | None:
    """Order a printed experiment again, set closer, if it ends on an empty page."""
    if not _ends_early(printed):
        return None
    edition, folder = making
    before = printed.job.html.read_bytes(), printed.job.pdf.read_bytes()
    set_closer(making, index, render)
    order = order_experiment(press, folder, edition, edition.entries[index])
    return Trial(order, printed, *before)


def set_closer(making: Making, index: int, render: Render) -> None:
    """Write an experiment's page anew, set closer."""
    edition, folder = making
    made = render(replace(edition, snug=True), index)
    (folder / page_name(edition.entries[index])).write_bytes(made.page)


def _ends_early(printed: Print) -> bool:
    return _last_page(printed) > 0 and printed.places.depths[END] < NEARLY_EMPTY


def _last_page(printed: Print) -> int:
    return printed.places.by_id[END]
