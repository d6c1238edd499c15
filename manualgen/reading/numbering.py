"""The numbers of steps and questions as their author typed them.

Markdown counts a list's items itself and passes over what was typed; where the
two differ the indents are not what the author thinks, most often three blanks
under item 10, which put a sub-list's items beside it.
"""

from __future__ import annotations

from manualgen.reading.faults import Faults
from manualgen.reading.tree import Body, Node


class Numbering:
    """Follows the numbers through lists that boxes and tables interrupt."""

    def __init__(self, body: Body, faults: Faults, what: str) -> None:
        self._body = body
        self._faults = faults
        self._what = what
        self._last = 0
        self._broken = False
        self._may_restart = True

    def allow_restart(self) -> None:
        """A lesson or station begins, and its steps may be counted from 1."""
        self._may_restart = True

    def begin(self, number: int) -> None:
        """Take the first item's number as it is."""
        self._last, self._may_restart = number, False

    def take(self, item: Node) -> None:
        """The next item; the first number that breaks the row is noted."""
        number = int(item.token.info)
        if number == self._last + 1 or (self._may_restart and number == 1):
            self._last, self._broken = number, False
        elif not self._broken:
            self._broken = True
            self._note(item, number)
        self._may_restart = False

    def _note(self, item: Node, number: int) -> None:
        mark = item.token.info + item.token.markup
        place = self._body.place_of(item, mark).within(0, len(mark))
        behind = f"{self._what} {self._last}" if self._last else "no other"
        self._faults.syntax(
            place,
            f"number {number} follows {behind}",
            f"{self._last + 1}., or indent it by {len(str(self._last)) + 2} blanks "
            f"if it belongs to number {self._last}"
            if self._last
            else "1.",
        )


def note_broken_numbers(node: Node, body: Body, faults: Faults) -> None:
    """Note where the numbers of one list do not follow each other."""
    numbering = Numbering(body, faults, "item")
    first, *others = node.children
    numbering.begin(int(first.token.info))
    for item in others:
        numbering.take(item)
