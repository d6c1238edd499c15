"""The whole content folder to one manual.

`read_manual` is pure over its source. The author's mistakes come back in the
manual as noted faults, each in the file that it was met in; one file's faults
never hide another's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias, TypeVar

from manualgen.model.experiment import Accept, Experiment
from manualgen.model.finding import Noted
from manualgen.model.manual import (
    Manual,
    ManualPart,
    OwnLabel,
    Settings,
    StoredApparatus,
    StoredChemical,
)
from manualgen.model.place import Place
from manualgen.reading.accepts import read_accepts
from manualgen.reading.experiment import experiment_id, read_experiment
from manualgen.reading.faults import Faults
from manualgen.reading.fields import Fields
from manualgen.reading.own_labels import read_labels
from manualgen.reading.parts import read_parts
from manualgen.reading.settings import KEYS, read_settings
from manualgen.reading.store import read_stored_apparatus, read_stored_chemicals
from manualgen.reading.stretch import joined_lines
from manualgen.reading.text import SourceText, read_text, shown_name
from manualgen.reading.yaml_tree import Mapping as Keys
from manualgen.reading.yaml_tree import Node, compose
from manualgen.sources import Source

S = TypeVar("S")

MAIN = "manual.yaml"
_COLLECT = re.compile(r"(disposal:[ \t]+collect:)[ \t]")
"""``disposal: collect: WORDS`` has one colon more than YAML allows."""


Lines: TypeAlias = Mapping[str, tuple[str, ...]]
"""The source text by file."""

ReadExperiment: TypeAlias = tuple[Experiment, tuple[SourceText, ...]]
"""An experiment and the texts that it was read from."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A manual whose experiments are still to be read."""

    manual: Manual
    lines: Lines
    """Of the department's own files."""
    paths: tuple[str, ...]
    """The experiments' files, in the manual's order."""
    by_id: Mapping[str, str]
    """The file of every experiment in the folder."""

    def filled(self, read: Iterable[ReadExperiment]) -> tuple[Manual, Lines]:
        """The manual with its experiments, read in the order of `paths`."""
        lines = dict(self.lines)
        experiments: list[Experiment] = []
        for experiment, texts in read:
            experiments.append(experiment)
            lines.update((text.file, text.lines) for text in texts)
        return replace(self.manual, experiments=tuple(experiments)), lines


def read_manual(source: Source, manual_name: str | None = None) -> tuple[Manual, Lines]:
    """The manual in a content folder, and the lines of every file that was read.

    ``manual_name`` picks a smaller manual, ``manual-NAME.yaml``, which holds the
    experiments that it lists and no others.
    """
    frame = read_frame(source, manual_name)
    read = (read_experiment(source, path, frame.by_id) for path in frame.paths)
    return frame.filled(read)


def read_frame(source: Source, manual_name: str | None = None) -> Frame:
    """All of a manual but its experiments: the department's files, and the order.

    The experiments can then be read one by one, in any order and place.
    """
    desk = _Desk(source)
    file = f"manual-{manual_name}.yaml" if manual_name else MAIN
    settings, parts, accepts = desk.settings(file)
    files = sorted(path for path in source.files() if path.endswith(".md"))
    by_id = {experiment_id(path): path for path in reversed(files)}
    desk.note_twice_named(files)
    listed = [entry.experiment for part in parts for entry in part.entries]
    wanted = set(listed) if manual_name else by_id.keys()
    own = desk.labels()
    worded = tuple((label.language, label.key, label.words) for label in own)
    manual = Manual(
        shown_name(source, file),
        replace(settings, labels=worded),
        parts,
        (),
        desk.chemicals(),
        desk.apparatus(),
        own,
        accepts,
        tuple(desk.noted),
    )
    chosen = (path for path in files if experiment_id(path) in wanted)
    return Frame(manual, desk.lines, _in_order(chosen, listed), by_id)


def _in_order(paths: Iterable[str], listed: list[str]) -> tuple[str, ...]:
    """The listed ones in the manual's order, then the others by file."""
    places = {identity: place for place, identity in enumerate(listed)}
    last = len(places)
    return tuple(sorted(paths, key=lambda p: (places.get(experiment_id(p), last), p)))


class _Desk:
    """Reads files one by one and keeps their lines and faults."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.lines: dict[str, tuple[str, ...]] = {}
        self.noted: list[Noted] = []

    def settings(
        self, file: str
    ) -> tuple[Settings, tuple[ManualPart, ...], tuple[Accept, ...]]:
        """The settings, parts and acceptances of a manual's file."""
        default, accepts = Settings(), tuple[Accept, ...]()
        if file != MAIN and self.source.exists(MAIN):
            default, _, accepts = self.settings(MAIN)
        faults = Faults()
        fields = self._fields(file, faults)
        if fields is None:
            self.noted += faults.all()
            return default, (), accepts
        settings = read_settings(fields, default, faults)
        if fields.lacks("title"):
            faults.note("missing-section", self._head(file), "the manual has no title")
        parts = read_parts(fields.items("parts"), faults)
        own = tuple(read_accepts(fields.items("accept"), faults))
        self.noted += faults.all()
        return settings, parts, (*accepts, *own)

    def _fields(self, file: str, faults: Faults) -> Fields | None:
        if not self.source.exists(file) and file not in self.source.files():
            message = f"there is no {file}, which has title: and parts:"
            faults.syntax(self._head(file), message)
            return None
        root = self._root(file, faults)
        if isinstance(root, Keys):
            return Fields(root, KEYS, faults, "of a manual")
        if not faults.all():
            message = "a manual has title: and parts: with the experiments in order"
            faults.note("missing-section", self._head(file), message)
        return None

    def _head(self, file: str) -> Place:
        return Place(shown_name(self.source, file))

    def _root(self, path: str, faults: Faults) -> Node | None:
        text = read_text(self.source, path, faults)
        if text is None:
            return None
        self.lines[text.file] = text.lines
        stretch = joined_lines(text.file, text.lines, 1)
        bent = _COLLECT.sub("\\1\N{NO-BREAK SPACE}", stretch.text)
        return compose(replace(stretch, text=bent), faults).root

    def chemicals(self) -> tuple[StoredChemical, ...]:
        """The department's own store, if it has a file of it."""
        return self._stored("chemicals.yaml", read_stored_chemicals)

    def apparatus(self) -> tuple[StoredApparatus, ...]:
        """The department's own apparatus, if it has a file of it."""
        return self._stored("apparatus.yaml", read_stored_apparatus)

    def labels(self) -> tuple[OwnLabel, ...]:
        """The department's own words for the tool's, if it has a file of them."""
        return self._stored("labels.yaml", read_labels)

    def _stored(
        self, path: str, read: Callable[[Node | None, Faults], Iterator[S]]
    ) -> tuple[S, ...]:
        if not self.source.exists(path) and path not in self.source.files():
            return ()
        faults = Faults()
        entries = tuple(read(self._root(path, faults), faults))
        self.noted += faults.all()
        return entries

    def note_twice_named(self, files: Iterable[str]) -> None:
        """Note files whose names would make pages of one name."""
        faults = Faults()
        kept: dict[str, str] = {}
        for path in files:
            first = kept.setdefault(experiment_id(path).casefold(), path)
            if first != path:
                message = f"{experiment_id(path)} is the id of {first} already"
                place = Place(shown_name(self.source, path))
                faults.note(
                    "duplicate-id", place, message, "give the file another name"
                )
        self.noted += faults.all()
