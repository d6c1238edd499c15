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
from manualgen.build.technician import (
    TECHNICIAN,
    label_groups,
    labels_of,
    technician_context,
)
from manualgen.editions.within import within
from manualgen.model.text import Picture
from manualgen.pages.experiment import render_experiment
from manualgen.pages.matter import render_answer_key, render_back, render_front
from manualgen.pages.technician import render_labels, render_sheet
from manualgen.preparation.sheet import plans_of_year, sheet_of, writer_for
from manualgen.preparation.stock import stock_list
from manualgen.review.prints import Printed
from manualgen.sources import Source, SourceError
from manualgen.working.worked import Worked

FRONT, BACK, ANSWERS = "front matter", "index and appendix", "answer key"
STOCK_LABELS, STOCK_LIST = "stock labels", "stock list"


def pictures_of(source: Source) -> Callable[[str], bytes]:
    """Read pictures from a content folder; raises `SourceError` for a lost one."""
    return lambda file: source.read(file, PICTURE_LIMIT)


def rendered(worked: Worked, source: Source) -> tuple[Printed, ...]:
    """The students', teacher's and technician's editions of ``source``'s manual."""
    whole = _that_exists(worked)
    pages = (
        _printed(lay_out_edition(whole, name, pdf=False), pictures_of(source))
        for name in EditionName
    )
    return (*pages, _technicians(whole))


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


def _technicians(worked: Worked) -> Printed:
    """Each experiment's sheet with the labels of its bottles, and what all share."""
    writer, context = writer_for(worked), technician_context(worked)
    plans = plans_of_year(worked)
    sheets = [sheet_of(each, writer) for each in plans]
    groups = label_groups(worked, plans, writer)
    labels = {group.name: render_labels(group, context) for group in groups}
    pages = {
        sheet.id: render_sheet(sheet, context) + labels.pop(labels_of(sheet.id), "")
        for sheet in sheets
    }
    matter = {
        STOCK_LABELS: "".join(labels.values()),
        STOCK_LIST: stock_list(worked, plans, writer),
    }
    return Printed(TECHNICIAN, pages, matter, {})


def _digest(picture: Callable[[str], bytes], file: str) -> str:
    try:
        return hashlib.sha256(picture(file)).hexdigest()
    except SourceError as error:
        return error.message
