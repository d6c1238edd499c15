"""YAML as text: every scalar a string that knows its place.

PyYAML's usual loaders read the formula ``NO`` as a falsehood and the dilution
``1:10`` as 70. This composer works on the events of libyaml's parser and makes
three kinds of node, none of which means anything yet. It is not recursive and
stops at a depth that no manual reaches. Anchors, aliases and tags are refused:
a manual has no use for them, and aliases can make a gigabyte of ten lines.

In one thing it is kinder than YAML. In ``{check: x, why: Done by eye, as usual}``
the words after the comma would be a key of their own without a value; here
they stay part of the value.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TypeAlias

import yaml
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from manualgen.model.place import Place
from manualgen.reading.faults import Faults
from manualgen.reading.stretch import Stretch
from manualgen.reading.text import without_controls

DEEPEST = 20

LONGEST_CONTINUED = 1000
"""Characters of a value with commas in it that stands between braces."""

_BLANK = re.compile(r"\[_[^\],]{0,200}_\]")

LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@dataclass(frozen=True, slots=True)
class Scalar:
    """A value as it was typed, without its quotes."""

    stretch: Stretch
    start: int = field(default=0, compare=False)
    """Its offset in the document."""

    @property
    def text(self) -> str:
        """The value."""
        return self.stretch.text

    @property
    def place(self) -> Place:
        """Where it stands."""
        return self.stretch.place()


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list."""

    items: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys with their values, in order, keys that stand twice included."""

    pairs: tuple[tuple[Scalar, Node], ...]
    place: Place


Node: TypeAlias = Scalar | Sequence | Mapping


@dataclass(slots=True)
class _Open:
    """A list or mapping that is being read."""

    start: MappingStartEvent | SequenceStartEvent
    nodes: list[Node] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Composed:
    """A document, or as much of it as stands before a fault."""

    root: Node | None
    complete: bool


class _RefusedError(Exception):
    """Something that YAML has and the format does not."""

    def __init__(self, event: Event, message: str) -> None:
        super().__init__(message)
        self.event = event
        self.message = message


def compose(stretch: Stretch, faults: Faults) -> Composed:
    """The document in a text; its faults are noted."""
    composer = _Composer(stretch, faults)
    for blank in _BLANK.finditer(stretch.text):
        message = "a blank has no place in settings, which every edition shows"
        faults.syntax(stretch.place(*blank.span()), message)
    try:
        for event in yaml.parse(stretch.text, Loader=LOADER):
            composer.take(event)
    except _RefusedError as refused:
        start, _ = _bounds(refused.event)
        place = stretch.place(start, start + 1)
        faults.syntax(place, refused.message)
    except yaml.YAMLError as error:
        place = _note(error, stretch, faults)
    else:
        return Composed(composer.root, complete=True)
    return Composed(composer.closed(place.line), complete=False)


class _Composer:
    """Puts events together to nodes."""

    def __init__(self, stretch: Stretch, faults: Faults) -> None:
        self.root: Node | None = None
        self._stretch = stretch
        self._faults = faults
        self._open: list[_Open] = []

    def take(self, event: Event) -> None:
        """The next event."""
        match event:
            case ScalarEvent():
                _refuse_extras(event)
                self._add(self._scalar(event))
            case MappingStartEvent() | SequenceStartEvent():
                _refuse_extras(event)
                if len(self._open) >= DEEPEST:
                    raise _RefusedError(event, "lists are nested too deeply here")
                self._open.append(_Open(event))
            case MappingEndEvent() | SequenceEndEvent():
                self._close(_bounds(event)[1])
            case AliasEvent():
                message = "an alias (*) has no use here; quote the value"
                raise _RefusedError(event, message)
            case DocumentStartEvent() if self.root is not None:
                message = "--- begins a second document, which would not be read"
                raise _RefusedError(event, message)
            case _:
                pass

    def closed(self, line: int) -> Node | None:
        """What was read before a fault on ``line``, with every list closed.

        A value on the line itself and a list in brackets are half read, and left.
        """
        nodes = self._open[-1].nodes if self._open else []
        if nodes and nodes[-1].place.line == line:
            nodes.pop()
        while self._open:
            if self._open[-1].start.flow_style:
                self._open.pop()
            else:
                self._close(_bounds(self._open[-1].start)[1])
        return self.root

    def _add(self, node: Node) -> None:
        if self._open:
            self._open[-1].nodes.append(node)
        elif self.root is None:
            self.root = node

    def _close(self, end: int) -> None:
        group = self._open.pop()
        place = self._stretch.place(_bounds(group.start)[0], end)
        if isinstance(group.start, SequenceStartEvent):
            self._add(Sequence(tuple(group.nodes), place))
        else:
            self._add(Mapping(self._pairs(group.nodes), place))

    def _pairs(self, nodes: list[Node]) -> tuple[tuple[Scalar, Node], ...]:
        pairs: list[tuple[Scalar, Node]] = []
        for key, value in zip(nodes[::2], nodes[1::2], strict=False):
            if not isinstance(key, Scalar):
                self._faults.syntax(key.place, "a key is a word, not a list")
            elif pairs and (longer := self._continued(pairs[-1][1], key, value)):
                pairs[-1] = pairs[-1][0], longer
            else:
                pairs.append((key, value))
        return tuple(pairs)

    def _continued(self, before: Node, key: Scalar, value: Node) -> Scalar | None:
        """The value before, with words that its own comma cut off."""
        if not isinstance(before, Scalar) or not isinstance(value, Scalar):
            return None
        if value.text or not before.text or before.stretch.whole or key.stretch.whole:
            return None
        end = key.start + len(key.text)
        if end - before.start > LONGEST_CONTINUED:
            return None
        between = self._stretch.text[before.start + len(before.text) : key.start]
        if between.strip() != "," or value.start != end:
            return None
        return Scalar(self._stretch.cut(before.start, end), before.start)

    def _scalar(self, event: ScalarEvent) -> Scalar:
        start, end = outer = _bounds(event)
        if event.style in ("'", '"'):
            start, end = start + 1, end - 1
        if self._stretch.text[start:end] == event.value:
            return Scalar(self._stretch.cut(start, end), start)
        whole = self._stretch.place(*outer)
        value = without_controls(event.value, whole, self._faults)
        return Scalar(Stretch(self._stretch.file, value, ((0, 1, 1),), whole), start)


def _bounds(event: Event) -> tuple[int, int]:
    """The offsets between which an event's text stands."""
    start, end = event.start_mark, event.end_mark
    return (start.index if start else 0), (end.index if end else 0)


def _refuse_extras(
    event: ScalarEvent | MappingStartEvent | SequenceStartEvent,
) -> None:
    if event.anchor is not None:
        raise _RefusedError(event, "an anchor (&) has no use here; quote the value")
    if event.tag is not None and event.tag != "!":
        raise _RefusedError(event, "a tag (!) has no use here; quote the value")


_SAID_BY_YAML = {
    "mapping values are not allowed": "a colon and a blank stand inside a value; "
    "put the whole value in quotes",
    "found unexpected end of stream": "a quotation mark or bracket is not closed",
    "could not find expected ':'": "a key has no colon and blank after it",
    "did not find expected key": "a key is expected here, as far in as the keys "
    "above, or a quotation mark ends too soon",
    "did not find expected '-' indicator": "a list item is expected here, with its "
    "- as far in as those above",
    "did not find expected ',' or": "a bracket is not closed, or a comma is missing",
    "found character that cannot start": "a value cannot begin with this sign; put it "
    "in quotes",
    "undefined alias": "a value cannot begin with *; put it in quotes",
    "found undefined tag handle": "a value cannot begin with !; put it in quotes",
    "expected a single document": "--- stands inside the settings",
}


def _note(error: yaml.YAMLError, stretch: Stretch, faults: Faults) -> Place:
    problem = str(getattr(error, "problem", None) or error)
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    start = mark.index if mark else getattr(error, "position", 0)
    said = (
        ours for theirs, ours in _SAID_BY_YAML.items() if problem.startswith(theirs)
    )
    message = next(said, f"this cannot be read as YAML: {problem}")
    if stretch.text[start : start + 1] == "\t":
        message = "a tab stands where blanks belong"
    place = stretch.place(start, start)
    faults.syntax(place, message)
    return place
