"""Running text made flat: one string, in which spans still know their place.

A sentence is read as it is printed, across emphasis, links and line ends; what
is found at some characters of it is reported at its place in the source.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import TypeAlias

from manualgen.model.place import Place
from manualgen.model.text import (
    Blank,
    Emphasis,
    EquationSpan,
    FormulaSpan,
    Inline,
    Inlines,
    LineBreak,
    OutsideLink,
    QuantitySpan,
    Reference,
    UnreadSpan,
    Words,
)

Leaf: TypeAlias = (
    Words | LineBreak | FormulaSpan | EquationSpan | QuantitySpan | UnreadSpan
)

_SENTENCE_END = re.compile(r"(?<=[.!?;])\s+(?=[\w`(])|\n{2,}")


@dataclass(frozen=True, slots=True)
class Fragment:
    """A leaf of the text and where it stands in the flat string."""

    start: int
    end: int
    leaf: Leaf


_start = attrgetter("start")


@dataclass(frozen=True, slots=True)
class Prose:
    """A run of text as one string."""

    text: str
    fragments: tuple[Fragment, ...]
    sentences: tuple[tuple[int, int], ...]
    """Start and end of each sentence; a stop inside a span ends none."""

    def place(self, start: int, end: int) -> Place:
        """The place in the source of some characters of the string."""
        first = self._at(start)
        last = self._at(max(start, end - 1))
        begin = _within(first, start)
        finish = _within(last, max(start, end - 1))
        return Place(
            begin.file,
            begin.line,
            begin.column,
            finish.line,
            max(finish.end_column, finish.column),
        )

    def quantities(self) -> Iterator[tuple[int, int, QuantitySpan]]:
        """The quantities, with their start and end in the string."""
        for fragment in self.fragments:
            if isinstance(fragment.leaf, QuantitySpan):
                yield fragment.start, fragment.end, fragment.leaf

    def formulas(self) -> Iterator[tuple[int, int, FormulaSpan]]:
        """The formulas, with their start and end in the string."""
        for fragment in self.fragments:
            if isinstance(fragment.leaf, FormulaSpan):
                yield fragment.start, fragment.end, fragment.leaf

    def _at(self, offset: int) -> Fragment:
        after = bisect_right(self.fragments, offset, key=_start)
        return self.fragments[max(0, after - 1)]


def prose_of(content: Inlines, *, with_blanks: bool = False) -> Prose:
    """Inlines made flat; what a student is to write in is a dash, or is read too."""
    fragments: list[Fragment] = []
    text = ""
    for inline in content:
        for leaf in _leaves(inline, with_blanks=with_blanks):
            written = _written(leaf)
            fragments.append(Fragment(len(text), len(text) + len(written), leaf))
            text += written
    return Prose(text, tuple(fragments), tuple(_sentences(text, fragments)))


def _sentences(text: str, fragments: Sequence[Fragment]) -> Iterator[tuple[int, int]]:
    begin = 0
    for gap in _SENTENCE_END.finditer(text):
        at = gap.start()
        if any(f.start < at < f.end and _is_span(f.leaf) for f in fragments):
            continue
        yield begin, at
        begin = gap.end()
    if begin < len(text):
        yield begin, len(text)


def _leaves(inline: Inline, *, with_blanks: bool) -> Iterator[Leaf]:
    match inline:
        case Blank() if not with_blanks:
            yield Words("–", inline.place)
        case Emphasis() | Reference() | OutsideLink() | Blank():
            for inner in inline.content:
                yield from _leaves(inner, with_blanks=with_blanks)
        case Words() | LineBreak() | FormulaSpan() | EquationSpan():
            yield inline
        case QuantitySpan() | UnreadSpan():
            yield inline
        case _:
            pass


def _written(leaf: Leaf) -> str:
    match leaf:
        case Words():
            return leaf.text
        case LineBreak():
            return "\n"
        case _:
            return leaf.source


def _is_span(leaf: Leaf) -> bool:
    return not isinstance(leaf, Words | LineBreak)


def _within(fragment: Fragment, offset: int) -> Place:
    """One character of words; a span is one whole."""
    if isinstance(fragment.leaf, Words):
        return fragment.leaf.place.within(
            offset - fragment.start, offset - fragment.start + 1
        )
    return fragment.leaf.place
