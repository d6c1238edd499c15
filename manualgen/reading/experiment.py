"""One file to one experiment."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping
from dataclasses import replace

from manualgen.model.experiment import Experiment
from manualgen.model.names import named
from manualgen.model.place import Place
from manualgen.reading.blocks import BlockReader
from manualgen.reading.faults import Faults
from manualgen.reading.front_matter import read_front_matter
from manualgen.reading.links import NAME
from manualgen.reading.rules.parser import parse_blocks
from manualgen.reading.sections import note_missing_method, read_sections
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.tables import note_wide_tables
from manualgen.reading.text import SourceText, read_practical, shown_name
from manualgen.reading.tree import Body, tree
from manualgen.sources import Source

RESERVED = ("index",)
"""Names of pages that the site has already."""

_DEVICE = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)
"""What Windows takes for a device, whatever follows the dot."""

LONGEST_ID = 80
"""Characters; the files that are named after it have longer endings."""


def experiment_id(path: str) -> str:
    """The id of the experiment in a file: its stem."""
    return posixpath.basename(path).removesuffix(".md")


def read_experiment(
    source: Source, path: str, files: Mapping[str, str]
) -> tuple[Experiment, tuple[SourceText, ...]]:
    """The experiment in a file with what reading it noted, and the texts read.

    It comes back whatever is wrong with it, with what could be read. ``files``
    are the files of all experiments by id.
    """
    faults = Faults()
    text = read_practical(source, path, faults)
    file, identity = shown_name(source, path), experiment_id(path)
    if text is None:
        place = Place(file)
        unread = Experiment(
            identity, file, identity, place, noted=faults.all(), complete=False
        )
        return unread, ()
    _note_bad_id(identity, text, faults)
    around = Surroundings(source, text, files, faults)
    experiment = _read(identity, around)
    return experiment, (text, *around.read_too.values())


def _read(identity: str, around: Surroundings) -> Experiment:
    text, faults = around.text, around.faults
    front, first = read_front_matter(text, faults)
    body = Body(text.file, text.lines, first)
    reader = BlockReader(body, around)
    tokens = parse_blocks("\n".join(text.lines[first:]), around.env)
    note_wide_tables(body, around)
    nodes, whole = tree(tokens, body, faults)
    sections = tuple(read_sections(nodes, reader))
    if whole and (front.complete or sections):
        note_missing_method(sections, front.title_place, reader)
    experiment = Experiment(
        identity,
        text.file,
        front.title or identity,
        front.title_place,
        front.time,
        front.group,
        front.chemicals,
        front.apparatus,
        front.techniques,
        front.reviewed,
        front.accepts,
        sections,
        complete=front.complete and whole,
    )
    _note_twice_named(experiment, faults)
    return replace(experiment, noted=faults.all())


def _note_bad_id(identity: str, text: SourceText, faults: Faults) -> None:
    place = Place(text.file)
    if not NAME.fullmatch(identity):
        message = f"the file's name {identity!r} becomes the experiment's id"
        faults.syntax(place, message, "use letters, digits and hyphens alone")
    elif identity.casefold() in RESERVED:
        message = f"the site has a page {identity} of its own"
        faults.syntax(place, message, "give the file another name")
    elif _DEVICE.fullmatch(identity):
        message = f"Windows can have no file {identity}"
        faults.syntax(place, message, "give the file another name")
    elif len(identity) > LONGEST_ID:
        message = f"the file's name has more than {LONGEST_ID} letters"
        faults.syntax(place, message, "give the file a shorter name")


def _note_twice_named(experiment: Experiment, faults: Faults) -> None:
    known: dict[str, Place] = {}
    for name, place in named(experiment):
        first = known.setdefault(name, place)
        if first is not place:
            message = f"#{name} is the name of something on line {first.line} already"
            faults.note("duplicate-id", place, message, "give it another name")
