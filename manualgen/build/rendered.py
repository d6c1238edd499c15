"""A manual's editions as pages in memory, to be compared with another's.

A manual of an older revision may be broken: what the manual lists and nobody
wrote is left out, and no page knows its neighbours, which are not printed.
What is made of one manual is kept for the next, which differs in little.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, partial

from manualgen.build.edition import Edition, EditionName, lay_out_edition
from manualgen.build.kept import AskedAll, AskedMapping, Kept, MadeFrom
from manualgen.build.rendered_technician import Technicians
from manualgen.build.site import PICTURE_LIMIT
from manualgen.editions.catalogue import Numbered
from manualgen.editions.key import Key
from manualgen.editions.lay_out import lay_out
from manualgen.editions.sheet import Sheet
from manualgen.editions.within import within
from manualgen.model.text import Picture
from manualgen.pages.book import BookEntry
from manualgen.pages.context import PageContext
from manualgen.pages.experiment import render_experiment
from manualgen.pages.matter import render_answer_key, render_back, render_front
from manualgen.review.prints import Printed, PrintedPage
from manualgen.sources import Source, SourceError
from manualgen.working.worked import Worked, WorkedExperiment

FRONT, BACK, ANSWERS = "front matter", "index and appendix", "answer key"


def pictures_of(source: Source) -> Callable[[str], bytes]:
    """Read pictures from a content folder; raises `SourceError` for a lost one."""
    return lambda file: source.read(file, PICTURE_LIMIT)


def rendered(worked: Worked, source: Source) -> tuple[Printed, ...]:
    """The students', teacher's and technician's editions of ``source``'s manual."""
    return Renderer().rendered(worked, source)


@dataclass(slots=True)
class Renderer:
    """Renders one revision after the other, and nothing twice."""

    _sheets: Kept[tuple[Sheet, Key]] = field(default_factory=Kept)
    _pages: Kept[PrintedPage] = field(default_factory=Kept)
    _shown: Kept[tuple[str, ...]] = field(default_factory=Kept)
    _technicians: Technicians = field(default_factory=Technicians)

    def rendered(self, worked: Worked, source: Source) -> tuple[Printed, ...]:
        """The students', teacher's and technician's editions of ``source``'s manual."""
        whole = _that_exists(worked)
        picture = cache(partial(_digest, pictures_of(source)))
        pages = (
            self._printed(
                lay_out_edition(whole, name, pdf=False, laid_out=self._laid_out),
                picture,
            )
            for name in EditionName
        )
        return (*pages, self._technicians.printed(whole))

    def _laid_out(
        self, work: WorkedExperiment, numbers: Mapping[str, Numbered]
    ) -> tuple[Sheet, Key]:
        asked = AskedMapping(numbers)
        return self._sheets.made(
            work.experiment.id,
            AskedAll((MadeFrom((work,)), asked)),
            lambda: lay_out(work, asked),
        )

    def _printed(self, edition: Edition, picture: Callable[[str], str]) -> Printed:
        context, entries = edition.context(), edition.entries
        pictures = {
            e.sheet.id: {file: picture(file) for file in self._pictures(edition, e)}
            for e in entries
        }
        pages = {e.sheet.id: self._page(edition, e, context) for e in entries}
        matter = dict(self._matter(edition, context))
        return Printed(edition.name.value, pages, matter, pictures)

    def _page(
        self, edition: Edition, entry: BookEntry, context: PageContext
    ) -> PrintedPage:
        sheet, key = entry.sheet, entry.key
        render = partial(render_experiment, sheet, key, context)
        make = partial(PrintedPage, render, sheet.number)
        made_from = MadeFrom((), (sheet, key, context))
        return self._pages.made((edition.name, sheet.id), made_from, make)

    def _pictures(self, edition: Edition, entry: BookEntry) -> tuple[str, ...]:
        """The files of the pictures on a page."""
        both = entry.sheet, entry.key
        return self._shown.made(
            (edition.name, entry.sheet.id),
            MadeFrom((), both),
            lambda: tuple(shown.file for shown in within(both, Picture)),
        )

    def _matter(
        self, edition: Edition, context: PageContext
    ) -> Iterator[tuple[str, PrintedPage]]:
        """What stands before and after the experiments of an edition."""
        book = edition.book
        renders = {FRONT: render_front, BACK: render_back}
        if edition.name is EditionName.TEACHER:
            renders[ANSWERS] = render_answer_key
        sheets = tuple(t for e in edition.entries for t in (e.sheet, e.key))
        parts = tuple((part.title, len(part.entries)) for part in book.parts)
        for name, render in renders.items():
            make = partial(PrintedPage, partial(render, book, context))
            made_from = MadeFrom((), (parts, context, *sheets))
            yield name, self._pages.made((edition.name, name), made_from, make)


def _that_exists(worked: Worked) -> Worked:
    """The manual without entries for experiments that nobody wrote, or wrote twice."""
    known = {w.experiment.id for w in worked.experiments}
    parts = tuple(
        replace(part, entries=tuple(e for e in part.entries if e.experiment in known))
        for part in worked.manual.parts
    )
    return replace(worked, manual=replace(worked.manual, parts=parts))


def _digest(picture: Callable[[str], bytes], file: str) -> str:
    try:
        return hashlib.sha256(picture(file)).hexdigest()
    except SourceError as error:
        return error.message
