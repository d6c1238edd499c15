"""Print one experiment of a manual, by itself."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass, replace
from pathlib import Path

from manualgen.build.closer import order_closer
from manualgen.build.delivery import deliver, printed_on
from manualgen.build.edition import EditionName, files_of, lay_out_edition, write_files
from manualgen.build.overflow import overflow_findings
from manualgen.build.page_cache import render
from manualgen.build.prints import order_cards, order_experiments, pdf_of
from manualgen.build.site import picture_from
from manualgen.model.finding import Finding
from manualgen.pages.book import Book, BookPart
from manualgen.pages.stations import cards_address, stations_of
from manualgen.press.press import Press
from manualgen.sources import Folder
from manualgen.working.worked import Worked


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which print is wanted."""

    experiment: str
    edition: EditionName
    large: bool = False
    cards: bool = False
    """Its station cards, instead of its pages."""


def print_one(
    content: Path, worked: Worked, wanted: Wanted, output: Path
) -> tuple[Finding, ...]:
    """Write one experiment's PDF; what is found too wide is told, and nothing written.

    Raises `PressError` where the browser fails or the file cannot be written.
    """
    whole = lay_out_edition(worked, wanted.edition, pdf=True)
    entry = next(e for e in whole.entries if e.sheet.id == wanted.experiment)
    alone = replace(whole, book=Book((BookPart("", (entry,)),)), large=wanted.large)
    when = printed_on(worked)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / wanted.edition.value
        write_files(folder, files_of(alone, picture_from(Folder(content))))
        with Press(Path(name), when, browsers=1) as press:
            if wanted.cards:
                order_cards(press, folder, alone, entry).result()
                deliver(folder / cards_address(entry.sheet), output)
                return ()
            (done,) = order_experiments(press, folder, alone).prints()
            findings = overflow_findings(worked, [done])
            trial = order_closer(press, (alone, folder), 0, done, render)
            if trial:
                trial.settle()
        if not findings:
            deliver(pdf_of(folder, entry), output)
        return findings


def has_cards(worked: Worked, experiment: str) -> bool:
    """Whether an experiment has stations, so that cards can be printed."""
    edition = lay_out_edition(worked, EditionName.STUDENT, pdf=False)
    return any(
        stations_of(e.sheet) for e in edition.entries if e.sheet.id == experiment
    )
