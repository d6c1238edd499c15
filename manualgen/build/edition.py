"""One edition of the manual as a folder of pages."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from pathlib import Path

from manualgen.editions.catalogue import catalogue
from manualgen.editions.key import NO_KEY
from manualgen.editions.lay_out import lay_out
from manualgen.editions.within import within
from manualgen.knowledge.labels import labels
from manualgen.model.manual import Settings
from manualgen.model.text import Picture
from manualgen.pages.assets import assets
from manualgen.pages.book import Book, BookEntry, BookPart
from manualgen.pages.context import Neighbour, PageContext
from manualgen.pages.experiment import render_experiment
from manualgen.pages.search import search_index
from manualgen.pages.site import render_contents
from manualgen.working.worked import Worked

SEARCH_INDEX = "search-index.js"


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
    large_too: bool = False
    """Whether a large-print edition stands beside it."""

    @property
    def entries(self) -> tuple[BookEntry, ...]:
        """Every experiment, in order."""
        return self.book.entries()

    def context(self) -> PageContext:
        """The surroundings of a page that is no experiment's."""
        settings = self.settings
        say = labels(settings.language, settings.labels)
        return PageContext(
            manual=settings.title,
            edition=say[f"{self.name.value}_edition"],
            institution=settings.institution,
            year=settings.edition,
            language=settings.language,
            own_labels=settings.labels,
            paper=settings.paper,
            duplex=settings.duplex,
            large=self.large,
            house=replace(settings.house, to=say["to"]),
            pdf="manual.pdf" if self.pdf else None,
        )

    def context_of(self, index: int) -> PageContext:
        """The surroundings of the experiment at ``index``."""
        around = [
            Neighbour(e.sheet.id, e.sheet.number, e.sheet.title) for e in self.entries
        ]
        return replace(
            self.context(),
            before=around[index - 1] if index else None,
            after=around[index + 1] if index + 1 < len(around) else None,
            pdf=f"pdf/{around[index].id}.pdf" if self.pdf else None,
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


def lay_out_edition(worked: Worked, name: EditionName, *, pdf: bool) -> Edition:
    """Every experiment that the manual lists, laid out for one edition."""
    numbers = catalogue(worked.manual)
    works = {w.experiment.id: w for w in worked.experiments}

    def entry(experiment: str) -> BookEntry:
        sheet, key = lay_out(works[experiment], numbers)
        return BookEntry(sheet, key if name is EditionName.TEACHER else NO_KEY)

    parts = tuple(
        BookPart(part.title, tuple(entry(e.experiment) for e in part.entries))
        for part in worked.manual.parts
    )
    book = Book(parts, record=name is EditionName.STUDENT)
    return Edition(name, worked.manual.settings, book, pdf)


def write_pages(
    folder: Path, edition: Edition, picture: Callable[[str], bytes]
) -> None:
    """Write an edition's pages and everything that they load.

    ``picture`` gives the bytes of a picture by its path in the content folder.
    """
    (folder / "pdf").mkdir(parents=True)
    for path, content in pages_of(edition, picture):
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)


def pages_of(
    edition: Edition, picture: Callable[[str], bytes]
) -> Iterator[tuple[str, bytes]]:
    """Each file of an edition: its path in the edition's folder, and what it holds."""
    for path, content in _assets(edition, picture):
        yield f"assets/{path}", content
    yield "index.html", render_contents(edition.book, edition.context()).encode()
    for index, entry in enumerate(edition.entries):
        html = render_experiment(entry.sheet, entry.key, edition.context_of(index))
        yield f"{entry.sheet.id}.html", html.encode()


def _assets(
    edition: Edition, picture: Callable[[str], bytes]
) -> Iterator[tuple[str, bytes]]:
    yield from assets()
    sheets = [entry.sheet for entry in edition.entries]
    index = search_index(sheets, edition.context())
    yield SEARCH_INDEX, index.encode()
    shown = {p.file for e in edition.entries for p in within((e.sheet, e.key), Picture)}
    for file in sorted(shown):
        yield file, picture(file)
