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
from manualgen.reading.yaml_lines import Slip, quoted
from manualgen.reading.yaml_slips import slip_of
from manualgen.reading.yaml_values import slip_in_value, stray_in_value

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

    def __init__(self, slip: Slip) -> None:
        super().__init__(slip.message)
        self.slip = slip


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
        place = _note(refused.slip, stretch, faults)
    except yaml.YAMLError as error:
        place = _note(slip_of(stretch.text, error), stretch, faults)
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
                _refuse_extras(event, self._stretch.text)
                self._add(self._scalar(event))
            case MappingStartEvent() | SequenceStartEvent():
                _refuse_extras(event, self._stretch.text)
                if len(self._open) >= DEEPEST:
                    raise _refused(event, "lists are nested too deeply here")
                self._open.append(_Open(event))
            case MappingEndEvent() | SequenceEndEvent():
                self._close(_bounds(event)[1])
            case AliasEvent():
                message = "an alias (*) has no use here; quote the value"
                raise _refused(event, message, self._stretch.text)
            case DocumentStartEvent() if self.root is not None:
                message = "--- begins a second document, which would not be read"
                raise _refused(event, message)
            case _:
                pass

    def closed(self, line: int) -> Node | None:
        """What was read before a fault on ``line``, with every list closed.

        A value on the line itself and a list in brackets are half read, and left.
        """
        nodes = self._open[-1].nodes if self._open else []
        while nodes and nodes[-1].place.end_line >= line:
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
        elif event.style not in ("|", ">"):
            self._refuse_slip(start, end)
        if self._stretch.text[start:end] == event.value:
            return Scalar(self._stretch.cut(start, end), start)
        whole = self._stretch.place(*outer)
        value = without_controls(event.value, whole, self._faults)
        return Scalar(Stretch(self._stretch.file, value, ((0, 1, 1),), whole), start)

    def _refuse_slip(self, start: int, end: int) -> None:
        """Refuse a value that holds what was to be an item of its own."""
        group = self._open[-1].start if self._open else None
        in_brackets = bool(group and group.flow_style)
        slip = slip_in_value(
            self._stretch.text,
            start,
            end,
            in_list=isinstance(group, SequenceStartEvent),
            in_brackets=in_brackets,
        )
        if slip:
            raise _RefusedError(slip)
        if not in_brackets and (
            stray := stray_in_value(self._stretch.text, start, end)
        ):
            _note(stray, self._stretch, self._faults)


def _bounds(event: Event) -> tuple[int, int]:
    """The offsets between which an event's text stands."""
    start, end = event.start_mark, event.end_mark
    return (start.index if start else 0), (end.index if end else 0)


def _refused(event: Event, message: str, text: str = "") -> _RefusedError:
    start, _ = _bounds(event)
    value = text[start:].partition("\n")[0].rstrip()
    return _RefusedError(
        Slip(start, start + 1, message, quoted(value) if value else None)
    )


def _refuse_extras(
    event: ScalarEvent | MappingStartEvent | SequenceStartEvent, text: str
) -> None:
    if event.anchor is not None:
        message = "an anchor (&) has no use here; quote the value"
        raise _refused(event, message, text)
    if event.tag is not None and event.tag != "!":
        raise _refused(event, "a tag (!) has no use here; quote the value", text)


def _note(slip: Slip, stretch: Stretch, faults: Faults) -> Place:
    place = stretch.place(slip.start, slip.end)
    faults.syntax(place, slip.message, slip.mend)
    return place
