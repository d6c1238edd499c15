"""A manual's editions as pages in memory, to be compared with another's.

A manual of an older revision may be broken: what the manual lists and nobody
wrote is left out, and no page knows its neighbours, which are not printed.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import replace

from manualgen.build.edition import Edition, EditionName, lay_out_edition
from manualgen.build.site import PICTURE_LIMIT
from manualgen.editions.within import within
from manualgen.model.text import Picture
from manualgen.pages.experiment import render_experiment
from manualgen.pages.matter import render_answer_key, render_back, render_front
from manualgen.review.prints import Printed
from manualgen.sources import Source, SourceError
from manualgen.working.worked import Worked

FRONT, BACK, ANSWERS = "front matter", "index and appendix", "answer key"


def pictures_of(source: Source) -> Callable[[str], bytes]:
    """Read pictures from a content folder; raises `SourceError` for a lost one."""
    return lambda file: source.read(file, PICTURE_LIMIT)


def rendered(worked: Worked, source: Source) -> tuple[Printed, ...]:
    """The students' edition and the teacher's, of a manual that ``source`` holds."""
    whole = _that_exists(worked)
    return tuple(
        _printed(lay_out_edition(whole, name, pdf=False), pictures_of(source))
        for name in EditionName
    )


def _that_exists(worked: Worked) -> Worked:
    """The manual without entries for experiments that nobody wrote, or wrote twice."""
    known = {w.experiment.id for w in worked.experiments}
    parts = tuple(
        replace(part, entries=tuple(e for e in part.entries if e.experiment in known))
        for part in worked.manual.parts
    )
    return replace(worked, manual=replace(worked.manual, parts=parts))


def _printed(edition: Edition, picture: Callable[[str], bytes]) -> Printed:
    context = edition.context()
    book = edition.book
    matter = {FRONT: render_front(book, context), BACK: render_back(book, context)}
    if edition.name is EditionName.TEACHER:
        matter[ANSWERS] = render_answer_key(book, context)
    return Printed(
        edition.name.value,
        {
            e.sheet.id: render_experiment(e.sheet, e.key, context)
            for e in edition.entries
        },
        matter,
        {
            e.sheet.id: {
                shown.file: _digest(picture, shown.file)
                for shown in within((e.sheet, e.key), Picture)
            }
            for e in edition.entries
        },
    )


def _digest(picture: Callable[[str], bytes], file: str) -> str:
    try:
        return hashlib.sha256(picture(file)).hexdigest()
    except SourceError as error:
        return error.message
