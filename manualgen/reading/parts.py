"""The parts of a manual and the numbers of its experiments.

Experiments are counted through all parts. ``{id: vinegar, number: 4a}`` keeps a
number, and the count goes on from the figure in it.
"""

from __future__ import annotations

import re

from manualgen.model.manual import Entry, ManualPart
from manualgen.reading.faults import Faults
from manualgen.reading.fields import Fields
from manualgen.reading.stretch import Stretch
from manualgen.reading.yaml_tree import Mapping, Node, Scalar

_NUMBER = re.compile(r"([1-9]\d{0,3})[a-z]?")


def read_parts(nodes: tuple[Node, ...], faults: Faults) -> tuple[ManualPart, ...]:
    """The parts with their experiments, each experiment and number once."""
    order = _Order(faults)
    parts = []
    for node in nodes:
        if isinstance(node, Mapping):
            fields = Fields(node, ("title", "experiments"), faults, "of a part")
            entries = tuple(
                entry
                for item in fields.items("experiments")
                if (entry := order.take(item))
            )
            title = fields.string("title") or ""
            parts.append(ManualPart(title, entries, fields.place))
        else:
            message = "a part has title: and experiments:"
            faults.syntax(node.place, message)
    return tuple(parts)


class _Order:
    """Counts experiments."""

    def __init__(self, faults: Faults) -> None:
        self._faults = faults
        self._count = 0
        self._ids: set[str] = set()
        self._numbers: set[str] = set()

    def take(self, node: Node) -> Entry | None:
        """The next experiment."""
        match node:
            case Scalar(stretch=identity):
                self._count += 1
                return self._entry(identity, str(self._count))
            case Mapping():
                return self._with_number(node)
            case _:
                message = "an experiment is its id, or {id: vinegar, number: 4a}"
                self._faults.syntax(node.place, message)
                return None

    def _with_number(self, node: Mapping) -> Entry | None:
        fields = Fields(node, ("id", "number"), self._faults, "of an experiment")
        identity, number = fields.text("id"), fields.text("number")
        if fields.lacks("id"):
            self._faults.syntax(node.place, "an experiment has an id:")
        if identity is None:
            return None
        found = _NUMBER.fullmatch(number.text) if number else None
        if number and not found:
            message = f"{number.text!r} is no number such as 4 or 4a"
            self._faults.syntax(number.place(), message)
        self._count = int(found[1]) if found else self._count + 1
        return self._entry(identity, found[0] if found else str(self._count))

    def _entry(self, identity: Stretch, number: str) -> Entry:
        place = identity.place()
        if identity.text in self._ids:
            message = f"{identity.text} stands in the manual already"
            self._faults.note("duplicate-id", place, message)
        elif number in self._numbers:
            message = f"a second experiment has the number {number}"
            self._faults.note("duplicate-id", place, message)
        self._ids.add(identity.text)
        self._numbers.add(number)
        return Entry(identity.text, number, place)
