"""The faults that reading meets in a file, in the order in which it meets them."""

from __future__ import annotations

from collections.abc import Iterable

from manualgen.model.finding import Edit, Fault, Noted
from manualgen.model.nearest import nearest
from manualgen.model.place import Place

MOST = 500
"""Faults kept of one file: no author mends more before trying again."""


class Faults:
    """A notebook for one file; each reader writes down what it could not read."""

    def __init__(self) -> None:
        self._noted: list[Noted] = []

    def note(
        self,
        check: str,
        place: Place,
        message: str,
        mend: str | None = None,
        edit: Edit | None = None,
    ) -> None:
        """Write down a fault under the name of the check that it belongs to."""
        if len(self._noted) < MOST:
            self._noted.append(Noted(check, Fault(place, message, mend, edit)))

    def syntax(self, place: Place, message: str, mend: str | None = None) -> None:
        """Write down something that could not be read."""
        self.note("source-syntax", place, message, mend)

    def unknown(
        self, place: Place, what: str, word: str, known: Iterable[str]
    ) -> str | None:
        """Write down a word that means nothing here; the nearest that does."""
        if len(self._noted) >= MOST:
            return None
        words = tuple(known)
        near = nearest(word, words)
        message = f"{word!r} is no {what}"
        if near is None:
            message += f"; known are {', '.join(words)}"
        self.syntax(place, message, near)
        return near

    def all(self) -> tuple[Noted, ...]:
        """What was written down."""
        return tuple(self._noted)
