"""Text and places to write in: the compositor sets lines and keeps the key.

One compositor sets one experiment.  It hands out a key for each place where a
student writes, and remembers apart from the sheet what stands there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from manualgen.editions.catalogue import Numbered
from manualgen.editions.key import Filled, FilledLine, FilledMark, TeacherNote
from manualgen.editions.line import (
    Gap,
    GapKey,
    GapWidth,
    Line,
    Link,
    Outside,
    Piece,
    Styled,
)
from manualgen.editions.sheet import Panels
from manualgen.model.place import Place
from manualgen.model.text import (
    Blank,
    Emphasis,
    EquationSpan,
    FormulaSpan,
    Inline,
    Inlines,
    LineBreak,
    Marks,
    OutsideLink,
    Picture,
    QuantitySpan,
    Reference,
    UnreadSpan,
    ValueSpan,
    Words,
)
from manualgen.model.walk import plain

GAP_CHARACTERS = ((8, GapWidth.SHORT), (18, GapWidth.MEDIUM), (36, GapWidth.LONG))
"""Up to how many characters each width holds; beyond the last it is FULL."""


@dataclass(slots=True)
class Compositor:
    """Sets the lines of one experiment."""

    numbers: Mapping[str, Numbered]
    """Every experiment's numbers, by id."""
    experiment: str
    values: Mapping[str, str]
    """Computed values, as printed, by symbol."""
    filled: dict[GapKey, Filled] = field(default_factory=dict)
    notes: list[TeacherNote] = field(default_factory=list)
    showing_answers: bool = False
    """Setting teacher's text: a blank there is its own words."""
    _keys: int = 0

    @property
    def own(self) -> Numbered:
        """The numbers of the experiment that is being set."""
        return self.numbers[self.experiment]

    def new_key(self, filling: Filled | None = None) -> GapKey:
        """A key of its own, and what stands there if that is known."""
        self._keys += 1
        if filling is not None:
            self.filled[self._keys] = filling
        return self._keys

    def gap(self, filling: Line, width: GapWidth) -> Gap:
        """A gap in the line with the words that belong in it."""
        return Gap(self.new_key(FilledLine(filling) if filling else None), width)

    def note(self, kind: str, blocks: Panels) -> GapKey:
        """A note for the teacher pages, and the mark where it belongs."""
        return self.new_key(FilledMark(self.add_note(kind, blocks)))

    def add_note(self, kind: str, blocks: Panels) -> str:
        """A note for the teacher pages; gives its label."""
        label = f"T{len(self.notes) + 1}"
        self.notes.append(TeacherNote(label, kind, blocks))
        return label

    def line(self, content: Inlines) -> Line:
        """Running text as it is printed."""
        return tuple(p for inline in content for p in self._pieces(inline))

    def answers_line(self, content: Inlines) -> Line:
        """Running text of the teacher's, in which blanks are their own words."""
        before, self.showing_answers = self.showing_answers, True
        try:
            return self.line(content)
        finally:
            self.showing_answers = before

    def _pieces(self, inline: Inline) -> tuple[Piece, ...]:
        match inline:
            case Words() | LineBreak() | FormulaSpan() | EquationSpan():
                return (inline,)
            case QuantitySpan() | Picture() | Marks():
                return (inline,)
            case UnreadSpan():
                return (Words(inline.source, inline.place),)
            case Emphasis():
                return (Styled(self.line(inline.content), inline.strong),)
            case OutsideLink():
                return (Outside(self.line(inline.content), inline.address),)
            case Blank():
                return self._blank(inline)
            case ValueSpan():
                return self._value(inline)
            case Reference():
                return self._link(inline)

    def _blank(self, blank: Blank) -> tuple[Piece, ...]:
        words = self.answers_line(blank.content)
        if self.showing_answers:
            return words
        return (self.gap(words, gap_width(plain(blank.content))),)

    def _value(self, value: ValueSpan) -> tuple[Piece, ...]:
        printed = self.values.get(value.symbol, "")
        words: Line = (Words(printed, value.place),) if printed else ()
        if self.showing_answers:
            return words
        return (self.gap(words, value_width(printed)),)

    def _link(self, reference: Reference) -> tuple[Piece, ...]:
        words = self.line(reference.content)
        target = self.numbers.get(reference.experiment or self.experiment)
        if target is None:
            return words
        if reference.name is None:
            return (Link(words, target.number, target.id, None),)
        piece = target.by_name.get(reference.name)
        if piece is None or (piece.teachers and not self.showing_answers):
            return words
        return (Link(words, piece.number, target.id, piece.anchor),)

    def number_at(self, place: Place) -> str:
        """The number of the piece at a place; empty where it has none."""
        target = self.own.by_place.get(place)
        return target.number if target else ""

    def anchor_at(self, place: Place) -> str:
        """The anchor of the piece at a place; empty where it has none."""
        target = self.own.by_place.get(place)
        return target.anchor if target else ""


def gap_width(words: str) -> GapWidth:
    """The gap that holds the words; one of four, so that it tells nothing."""
    return next((w for n, w in GAP_CHARACTERS if len(words) <= n), GapWidth.FULL)


def value_width(printed: str) -> GapWidth:
    """The gap for a value: one width for all, and a longer one beside an uncertainty."""
    is_short = gap_width(printed) in (GapWidth.SHORT, GapWidth.MEDIUM)
    return GapWidth.MEDIUM if is_short else GapWidth.LONG
