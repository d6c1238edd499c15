"""A ``setup`` fence: a drawing of apparatus, one piece a line.

    burette, 50 cm3 [sodium hydroxide, 0.100 mol/dm3] held by clamp stand
    above conical flask [25.0 cm3 vinegar; phenolphthalein solution]
    on white tile

A line may name a second piece behind a relation. Words before the first piece
relate it to the piece on the line before; ``from PIECE:`` goes back to another,
and ``with PIECE`` at a line's beginning puts a second piece into a vessel.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from manualgen.model.fences import Relation, Setup, SetupContent, SetupPiece
from manualgen.model.lab import StrengthWord
from manualgen.model.nearest import nearest
from manualgen.quantities import Quantity, QuantityError, parse_quantity
from manualgen.quantities.kinds import is_strength
from manualgen.reading.faults import Faults
from manualgen.reading.fences.head import Fence
from manualgen.reading.fences.relations import (
    RELATIONS,
    misspelt_relation,
    relations_in,
)
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.values import read_quantity

_FROM = re.compile(r"from\s+([^:]+):\s*")
_CONTENTS = re.compile(r"\[([^\[\]]*)\]")
_COUNT = re.compile(r"\d{1,2} (?=[a-zA-Z])")
_QUANTITY = re.compile(r"\d\S*(?: (?:±|to) \S+)? \S+(?: [wv]/[wv])?(?=\s)")
_NUMBER = re.compile(r"\d\S*(?=\s)")
_WORDS = ("stoppered", "class A", "class B")
_STRENGTH_WORDS = tuple(StrengthWord)


_CONTINUED = (Relation.HELD, Relation.HEATED)
"""What holds or heats a piece; the next one is related to the piece, not to it."""


@dataclass(frozen=True, slots=True)
class _Clause:
    """A piece as it is written, and its relation to another."""

    relation: Relation | None
    by: str | None
    text: Stretch


def read_setup(fence: Fence, around: Surroundings) -> Setup | None:
    """The pieces that could be read; the others are noted."""
    faults = around.faults
    fence.note_words(faults)
    drawing = _Drawing(faults)
    for line in fence.lines(faults):
        drawing.take(line)
    if not drawing.pieces:
        faults.syntax(fence.place, "there is no piece of apparatus in this drawing")
        return None
    return Setup(fence.name, tuple(drawing.pieces), fence.text.text, fence.place)


class _Drawing:
    """Takes the lines of a drawing in order."""

    def __init__(self, faults: Faults) -> None:
        self.pieces: list[SetupPiece] = []
        self._faults = faults
        self._base: int | None = None

    def take(self, line: Stretch) -> None:
        """The next line."""
        if found := _FROM.match(line.text):
            self._go_back(line.cut(*found.span(1)).strip())
            line = line.cut(found.end(), len(line.text))
        for clause in _clauses(line, self._faults):
            related = self._related(clause, line)
            if related.text.text:
                self._add(related)
            else:
                self._faults.syntax(line.place(), "a piece of apparatus is missing")

    def _add(self, clause: _Clause) -> None:
        piece = _piece(clause, self._base, self._faults)
        self.pieces.append(piece)
        if clause.relation not in _CONTINUED or self._base is None:
            self._base = len(self.pieces) - 1

    def _related(self, clause: _Clause, line: Stretch) -> _Clause:
        """A clause whose relation is noted where it is missing, or misspelt."""
        if clause.relation and not self.pieces:
            message = "the first piece has none before it to be related to"
            self._faults.syntax(line.place(), message)
        if clause.relation or not self.pieces:
            return clause
        if misspelt := misspelt_relation(clause.text.text):
            end, relation = misspelt
            words = clause.text.cut(0, end)
            message = f"{words.text!r} does not say how a piece of a drawing stands"
            self._faults.syntax(words.place(), message, relation.value)
            text = clause.text.cut(end, len(clause.text.text)).strip()
            return _Clause(relation, None, text)
        message = "a piece says how it stands to the one before it"
        self._faults.syntax(line.place(), message, f"begin with one of {RELATIONS}")
        return clause

    def _go_back(self, name: Stretch) -> None:
        """Relate what follows to an earlier piece."""
        names = [piece.name.casefold() for piece in self.pieces]
        wanted = name.text.casefold()
        if wanted in names:
            self._base = len(names) - 1 - names[::-1].index(wanted)
            return
        near = nearest(name.text, [piece.name for piece in self.pieces])
        message = f"no piece above is called {name.text!r}"
        self._faults.syntax(name.place(), message, near)


def _clauses(line: Stretch, faults: Faults) -> Iterator[_Clause]:
    """The pieces of a line with the words that relate them."""
    start, relation, tube = 0, None, None
    for found in relations_in(_without_contents(line.text)):
        if found.start > 0 or start > 0:
            yield _Clause(relation, tube, _without_comma(line.cut(start, found.start)))
        if found.mend:
            words = line.cut(found.start, found.end).strip()
            message = f"{words.text!r} does not say how a piece of a drawing stands"
            faults.syntax(words.place(), message, found.mend)
        start, relation, tube = found.end, found.relation, found.tube
    yield _Clause(relation, tube, line.cut(start, len(line.text)).strip())


def _without_comma(piece: Stretch) -> Stretch:
    """A piece's words; a comma may part them from the relation that follows."""
    piece = piece.strip()
    return piece.cut(0, len(piece.text) - piece.text.endswith(",")).strip()


def _without_contents(text: str) -> str:
    """The text with what stands in brackets replaced, letter for letter."""
    return _CONTENTS.sub(lambda found: "_" * len(found[0]), text)


def _piece(clause: _Clause, base: int | None, faults: Faults) -> SetupPiece:
    text = clause.text
    contents: list[SetupContent] = []
    for found in _CONTENTS.finditer(text.text):
        inside = text.cut(*found.span(1))
        contents += (_content(part, faults) for part in inside.split(";") if part.text)
    bare = _CONTENTS.sub(lambda found: " " * len(found[0]), text.text)
    name, *words = replace(text, text=bare).split(", ")
    capacity, stoppered = None, False
    for word in (word for word in words if word.text):
        if word.text == "stoppered":
            stoppered = True
        elif word.text[0].isdigit():
            capacity = read_quantity(word, faults)
        elif word.text not in ("class A", "class B"):
            faults.unknown(word.place(), "word of a drawing", word.text, _WORDS)
    if "[" in bare or "]" in bare:
        faults.syntax(text.place(), "a bracket of the contents is not closed")
    called = _COUNT.sub("", " ".join(name.text.split()))
    relation = clause.relation if base is not None else None
    return SetupPiece(
        called,
        capacity,
        stoppered,
        tuple(contents),
        relation,
        clause.by if relation else None,
        base if relation else None,
        text.place(),
    )


def _content(text: Stretch, faults: Faults) -> SetupContent:
    """``25.0 cm3 vinegar``, ``sodium hydroxide, 0.100 mol/dm3`` or a mere name."""
    name, *words = text.split(", ")
    quantities: list[Quantity] = []
    leading, name = _leading_quantity(name)
    quantities += [leading] if leading else []
    called = name.text
    for word in words:
        if word.text in _STRENGTH_WORDS:
            called = f"{word.text} {called}"
        elif word.text and (quantity := read_quantity(word, faults)):
            quantities.append(quantity)
    amount = next((q for q in quantities if not is_strength(q.unit)), None)
    stated = next((q for q in quantities if is_strength(q.unit)), None)
    return SetupContent(called, amount, stated, text.place())


def _leading_quantity(text: Stretch) -> tuple[Quantity | None, Stretch]:
    """The quantity at the head of a text, and the text behind it."""
    if not text.text[:1].isdigit():
        return None, text
    for pattern in (_QUANTITY, _NUMBER):
        found = pattern.match(text.text)
        if found and (quantity := _quantity(found[0])):
            rest = text.cut(found.end(), len(text.text)).strip()
            of = len("of ") * rest.text.startswith("of ")
            return quantity, rest.cut(of, len(rest.text))
    return None, text


def _quantity(text: str) -> Quantity | None:
    try:
        return parse_quantity(text)
    except QuantityError:
        return None
