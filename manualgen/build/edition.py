"""One edition of the manual as a folder of pages."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from manualgen.editions.catalogue import catalogue
from manualgen.editions.key import NO_KEY, Key
from manualgen.editions.lay_out import lay_out
from manualgen.editions.sheet import Sheet
from manualgen.editions.within import within
from manualgen.model.manual import Settings
from manualgen.model.text import Picture
from manualgen.pages.assets import assets
from manualgen.pages.context import Neighbour, PageContext
from manualgen.pages.experiment import render_experiment
from manualgen.pages.labels import labels
from manualgen.working.worked import Worked


class EditionName(StrEnum):
    """Whom an edition is for."""

    STUDENT = "student"
    TEACHER = "teacher"


@dataclass(frozen=True, slots=True)
class Chapter:
    """An experiment laid out for one edition."""

    sheet: Sheet
    key: Key


def chapters(worked: Worked, name: EditionName) -> tuple[Chapter, ...]:
    """Every experiment that the manual lists, laid out for one edition."""
    numbers = catalogue(worked.manual)
    found: list[Chapter] = []
    for work in worked.experiments:
        if work.number is not None:
            sheet, key = lay_out(work, numbers)
            found.append(Chapter(sheet, key if name is EditionName.TEACHER else NO_KEY))
    return tuple(found)


def write_pages(
    folder: Path,
    worked: Worked,
    name: EditionName,
    laid_out: tuple[Chapter, ...],
    picture: Callable[[str], bytes],
) -> None:
    """Write an edition's pages and everything that they load.

    ``picture`` gives the bytes of a picture by its path in the content folder.
    """
    (folder / "pdf").mkdir(parents=True)
    for path, content in _assets(laid_out, picture):
        target = folder / "assets" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    for index, chapter in enumerate(laid_out):
        context = page_context(worked.manual.settings, name, laid_out, index)
        html = render_experiment(chapter.sheet, chapter.key, context)
        page = folder / f"{chapter.sheet.id}.html"
        page.write_text(html, encoding="utf-8")


def _assets(
    laid_out: tuple[Chapter, ...], picture: Callable[[str], bytes]
) -> Iterator[tuple[str, bytes]]:
    yield from assets()
    shown = {p.file for chapter in laid_out for p in within(chapter, Picture)}
    for file in sorted(shown):
        yield file, picture(file)


def page_context(
    settings: Settings, name: EditionName, laid_out: tuple[Chapter, ...], index: int
) -> PageContext:
    """The surroundings of the experiment at ``index``."""
    around = [Neighbour(c.sheet.id, c.sheet.number, c.sheet.title) for c in laid_out]
    return PageContext(
        manual=settings.title,
        edition=labels(settings.language)[f"{name.value}_edition"],
        institution=settings.institution,
        year=settings.edition,
        language=settings.language,
        paper=settings.paper,
        duplex=settings.duplex,
        house=settings.house,
        before=around[index - 1] if index else None,
        after=around[index + 1] if index + 1 < len(around) else None,
        pdf=f"pdf/{laid_out[index].sheet.id}.pdf",
    )
