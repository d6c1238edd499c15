"""What stands between the dashes at the head of an experiment's file."""

from __future__ import annotations

import re
from dataclasses import dataclass

from manualgen.model.experiment import Accept, Reviewed
from manualgen.model.lab import ListedApparatus, ListedChemical
from manualgen.model.place import Place
from manualgen.quantities import Quantity
from manualgen.reading.accepts import read_accepts
from manualgen.reading.apparatus import read_apparatus
from manualgen.reading.chemicals import read_chemicals
from manualgen.reading.faults import Faults
from manualgen.reading.fields import Fields
from manualgen.reading.stretch import joined_lines
from manualgen.reading.text import SourceText
from manualgen.reading.values import read_count, read_date, read_quantity
from manualgen.reading.yaml_tree import Mapping, compose

KEYS = (
    "title",
    "time",
    "group",
    "chemicals",
    "techniques",
    "reviewed",
    "apparatus",
    "accept",
)
_FENCE = re.compile(r"---[ \t]*")
_DASHES = re.compile(r"\s*[-–—]+\s*")
_HEAD = 4
"""Lines in which the first line of dashes may have slipped down."""
_END = re.compile(r"(?:---|\.\.\.)[ \t]*")


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """The settings of an experiment, as far as they could be read."""

    title: str | None
    title_place: Place
    complete: bool
    """Whether all of it could be read."""
    time: Quantity | None = None
    group: int | None = None
    chemicals: tuple[ListedChemical, ...] = ()
    apparatus: tuple[ListedApparatus, ...] = ()
    techniques: tuple[str, ...] = ()
    reviewed: Reviewed | None = None
    accepts: tuple[Accept, ...] = ()


def read_front_matter(text: SourceText, faults: Faults) -> tuple[FrontMatter, int]:
    """The settings, and how many lines of the file they take up."""
    lines = text.lines
    place = Place(text.file, 1, 1, 1, len(lines[0]) + 1)
    if not _FENCE.fullmatch(lines[0]):
        faults.note("missing-section", place, *_why_headless(lines))
        return FrontMatter(None, place, complete=False), 0
    end, closed = _end_of(lines)
    if not closed:
        message = "the settings that begin here are never closed by a line ---"
        before = lines[end].strip() if end < len(lines) else ""
        mend = f"a line --- before {before}" if before else "a line --- at their end"
        faults.syntax(place, message, mend)
    stretch = joined_lines(text.file, lines[1:end], 2)
    composed = compose(stretch, faults)
    body = end + closed
    if composed.root is None and composed.complete:
        faults.note("missing-section", place, "the experiment has no title", "title: …")
        return FrontMatter(None, place, complete=True), body
    if not isinstance(composed.root, Mapping):
        if composed.complete:
            faults.syntax(place, "settings are keys with values, as in title: …")
        return FrontMatter(None, place, complete=False), body
    complete = composed.complete and closed
    return _read(composed.root, place, complete, faults), body


def _why_headless(lines: tuple[str, ...]) -> tuple[str, str]:
    """Why no settings were found at the head of a file, and what to write."""
    if _DASHES.fullmatch(lines[0]):
        return "settings begin and end with a line of three dashes", "---"
    if any(_FENCE.fullmatch(line) for line in lines[:_HEAD]):
        message = "the settings begin on the first line of a file"
        return message, "nothing before the first line ---"
    message = "no settings stand at the head of this file, so it has no title"
    return message, "begin with a line ---, then title: …, then a line ---"


def _end_of(lines: tuple[str, ...]) -> tuple[int, bool]:
    """The line that closes the settings; without one, the first heading."""
    for number, line in enumerate(lines[1:], start=1):
        if _END.fullmatch(line):
            return number, True
    headings = (n for n, line in enumerate(lines) if line.startswith("## "))
    return next(headings, len(lines)), False


def _read(root: Mapping, head: Place, complete: bool, faults: Faults) -> FrontMatter:
    fields = Fields(root, KEYS, faults, "of an experiment")
    title, time, group = (fields.text(key) for key in ("title", "time", "group"))
    if fields.lacks("title") and complete:
        faults.note("missing-section", head, "the experiment has no title", "title: …")
    return FrontMatter(
        title.text if title else None,
        title.place() if title else head,
        complete,
        read_quantity(time, faults, ("time",), "a time") if time else None,
        read_count(group, faults, "number of students") if group else None,
        read_chemicals(fields.items("chemicals"), faults),
        read_apparatus(fields.items("apparatus"), faults),
        tuple(text.text for text in fields.texts("techniques")),
        _reviewed(fields, faults),
        tuple(read_accepts(fields.items("accept"), faults)),
    )


def _reviewed(fields: Fields, faults: Faults) -> Reviewed | None:
    said = fields.fields("reviewed", ("by", "date", "next"))
    if said is None:
        return None
    date, due = said.text("date"), said.text("next")
    return Reviewed(
        said.string("by") or "",
        read_date(date, faults) if date else None,
        read_date(due, faults) if due else None,
        said.place,
    )
