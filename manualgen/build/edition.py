"""One edition of the manual as a folder of pages."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import TypeAlias

from manualgen.editions.catalogue import Numbered, catalogue
from manualgen.editions.key import NO_KEY, Key
from manualgen.editions.lay_out import lay_out
from manualgen.editions.sheet import Sheet
from manualgen.editions.within import within
from manualgen.model.manual import Settings
from manualgen.model.text import Picture
from manualgen.pages.assets import assets
from manualgen.pages.book import Book, BookEntry, BookPart
from manualgen.pages.context import Neighbour, PageContext, context_for
from manualgen.pages.experiment import render_experiment
from manualgen.pages.search import search_index
from manualgen.pages.site import render_contents
from manualgen.pages.stations import cards_address, stations_of
from manualgen.working.worked import Worked, WorkedExperiment

SEARCH_INDEX = "assets/search-index.js"


class EditionName(StrEnum):
    """Whom an edition is for."""

    STUDENT = "student"
    TEACHER = "teacher"


@dataclass(frozen=True, slots=True)
class Edition:
    """Everything that one edition's pages are made from."""

    name: EditionName
    settings: Settings
    book: Book
    pdf: bool = True
    """Whether the pages point at PDFs beside them."""
    large: bool = False
    """Whether it is set in large print."""
    snug: bool = False
    """Whether its experiments are set closer than is usual."""
    large_too: bool = False
    """Whether a large-print edition stands beside it."""

    @property
    def entries(self) -> tuple[BookEntry, ...]:
        """Every experiment, in order."""
        return self.book.entries()

    def context(self) -> PageContext:
        """The surroundings of a page that is no experiment's."""
        return replace(
            context_for(self.settings, self.name.value),
            large=self.large,
            snug=self.snug,
            pdf="manual.pdf" if self.pdf else None,
        )

    def context_of(self, index: int) -> PageContext:
        """The surroundings of the experiment at ``index``."""
        entries = self.entries
        sheet = entries[index].sheet
        return replace(
            self.context(),
            before=_neighbour(entries[index - 1 : index]),
            after=_neighbour(entries[index + 1 : index + 2]),
            pdf=f"pdf/{sheet.id}.pdf" if self.pdf else None,
            cards=cards_address(sheet) if self.pdf and stations_of(sheet) else None,
        )

    def with_pages(self, pages: Mapping[str, Mapping[str, str]]) -> Edition:
        """The edition knowing on which page each anchor came to stand, by experiment."""
        parts = tuple(
            replace(
                part,
                entries=tuple(
                    replace(e, pages=pages[e.sheet.id]) for e in part.entries
                ),
            )
            for part in self.book.parts
        )
        return replace(self, book=replace(self.book, parts=parts))


def _neighbour(found: Sequence[BookEntry]) -> Neighbour | None:
    """The one entry that was found, if any was, as its neighbour points to it."""
    return next(
        (Neighbour(e.sheet.id, e.sheet.number, e.sheet.title) for e in found), None
    )


Files: TypeAlias = dict[str, Callable[[], bytes]]
"""What makes each file, by its path in the edition's folder."""


LayOut: TypeAlias = Callable[
    [WorkedExperiment, Mapping[str, Numbered]], tuple[Sheet, Key]
]
"""`lay_out`, or something that remembers what it gave."""


def lay_out_edition(
    worked: Worked, name: EditionName, *, pdf: bool, laid_out: LayOut = lay_out
) -> Edition:
    """Every experiment that the manual lists and has, laid out for one edition."""
    numbers = catalogue(worked.manual)
    works = {w.experiment.id: w for w in worked.experiments}

    def entry(experiment: str) -> BookEntry:
        sheet, key = laid_out(works[experiment], numbers)
        return BookEntry(sheet, key if name is EditionName.TEACHER else NO_KEY)

    parts = tuple(
        BookPart(
            part.title,
            tuple(entry(e.experiment) for e in part.entries if e.experiment in works),
        )
        for part in worked.manual.parts
    )
    book = Book(parts, record=name is EditionName.STUDENT)
    return Edition(name, worked.manual.settings, book, pdf)


def write_files(folder: Path, files: Files) -> None:
    """Write files of an edition into its folder, which is new."""
    (folder / "pdf").mkdir(parents=True)
    for path, make in files.items():
        write_file(folder / path, make())


def write_file(target: Path, content: bytes) -> None:
    """Write a file, its folder too if there is none."""
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(content)


def files_of(edition: Edition, picture: Callable[[str], bytes]) -> Files:
    """What makes each file of an edition.

    ``picture`` gives the bytes of a picture by its path in the content folder.
    """
    files = files_around(edition, picture)
    files[SEARCH_INDEX] = partial(_search_index, edition)
    for index, entry in enumerate(edition.entries):
        files[page_name(entry)] = partial(experiment_page, edition, index)
    return files


def files_around(edition: Edition, picture: Callable[[str], bytes]) -> Files:
    """The same of what is no experiment's page, nor made from all of them."""
    files: Files = {f"assets/{path}": read for path, read in assets()}
    for path in _pictures(edition):
        files[f"assets/{path}"] = partial(picture, path)
    files["index.html"] = partial(_contents, edition)
    return files


def page_name(entry: BookEntry) -> str:
    """The path of an experiment's page."""
    return f"{entry.sheet.id}.html"


def experiment_page(edition: Edition, index: int) -> bytes:
    """The page of the experiment at ``index``."""
    entry, context = edition.entries[index], edition.context_of(index)
    return render_experiment(entry.sheet, entry.key, context).encode()


def _contents(edition: Edition) -> bytes:
    return render_contents(edition.book, edition.context()).encode()


def _search_index(edition: Edition) -> bytes:
    sheets = [entry.sheet for entry in edition.entries]
    return search_index(sheets, edition.context()).encode()


def _pictures(edition: Edition) -> list[str]:
    shown = {p.file for e in edition.entries for p in within((e.sheet, e.key), Picture)}
    return sorted(shown - {""})
