"""An experiment taken apart into what a reviewer would call one thing each.

A `Piece` is one thing that keeps its identity while what is said of it changes:
a step, a question, a table's row.  What is said of it are its `Fact`s, each
with what the teacher reads and what of that students read.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from manualgen.model.blocks import Block, Blocks, ListBlock, Paragraph
from manualgen.model.place import Place
from manualgen.model.text import Inlines, Words
from manualgen.review.writing import shown, words_of, written


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that is said of a piece."""

    kind: str
    """``step``, ``answer``, ``marks``, ``space`` …; unlike within a piece."""
    text: str
    """All of it, as the teacher reads it."""
    shown: str
    """What students read of it; empty for nothing."""
    place: Place
    minor: bool = False
    """Whether it is not worth a line where the whole piece is new or gone."""


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One thing that can change."""

    kind: str
    what: str
    """Which one, as a reviewer would call it."""
    facts: tuple[Fact, ...]
    place: Place
    parent: Piece | None = None
    """What it stands in: a step for its box, a section for a step."""
    anchor: str = ""
    name: str = ""
    """By which those belong together that have no words in common."""
    keyed: bool = False
    """Whether it is the same thing by its name, whatever it says."""
    part: bool = False
    """Whether it is told of with its parent where that is new or gone."""

    @property
    def text(self) -> str:
        """The words by which it is known again."""
        if self.keyed or not self.facts:
            return self.name or self.what
        return self.facts[0].text

    @property
    def where(self) -> str:
        """What it stands in, as a reviewer would call it."""
        return self.parent.what if self.parent else "the experiment"

    @property
    def is_shown(self) -> bool:
        """Whether students can read anything of it."""
        return any(fact.shown for fact in self.facts)


@dataclass(frozen=True, slots=True)
class Source:
    """What pieces are looked up in: the anchors of the pages, the author's lines."""

    anchors: Mapping[Place, str]
    lines: tuple[str, ...]

    def typed(self, place: Place) -> str:
        """The author's own characters at a place within one line."""
        is_there = 0 < place.line <= len(self.lines)
        line = self.lines[place.line - 1] if is_there else ""
        return line[place.column - 1 : place.end_column - 1]


@dataclass(frozen=True, slots=True)
class Context:
    """Where pieces are being found."""

    source: Source
    parent: Piece
    teachers: bool = False
    """Whether all here is the teacher's alone."""

    def fact(self, kind: str, text: str, place: Place, *, hidden: bool = False) -> Fact:
        """A fact of plain words."""
        text = words_of(text)
        return Fact(kind, text, "" if hidden or self.teachers else text, place)

    def partly(self, kind: str, text: str, shown: str, place: Place) -> Fact:
        """A fact of which students read less than the teacher."""
        return Fact(kind, text, "" if self.teachers else shown, place)

    def minor(
        self, kind: str, text: str, place: Place, *, hidden: bool = False
    ) -> Fact:
        """A fact that goes without saying where the whole piece is new or gone."""
        made = self.fact(kind, text, place, hidden=hidden)
        return Fact(kind, made.text, made.shown, place, minor=True)

    def running(
        self, kind: str, contents: Iterable[Inlines], place: Place, between: str = " "
    ) -> Fact:
        """A fact of running text."""
        listed = tuple(contents)
        text = words_of(between.join(map(written, listed)))
        students = "" if self.teachers else words_of(between.join(map(shown, listed)))
        return Fact(kind, text, students, place)

    def anchor(self, place: Place) -> str:
        """The anchor of what stands at a place, or of what that stands in."""
        return self.source.anchors.get(place) or self.parent.anchor

    def piece(
        self,
        kind: str,
        what: str,
        facts: tuple[Fact, ...],
        place: Place,
        *,
        keyed: bool = False,
    ) -> Piece:
        """A piece that stands here, by the name of what it is."""
        anchor = self.anchor(place)
        return Piece(kind, what, facts, place, self.parent, anchor, what, keyed)

    def named(self, name: str | None) -> str:
        """What to call a block: by its name, or by where it stands."""
        return f"#{name}" if name else f"in {self.parent.what}"


PARAGRAPH = "¶"
"""Stands where a piece's next paragraph begins."""


def running_text(blocks: Blocks) -> Iterator[Inlines]:
    """The paragraphs and lists of a piece, without what is a piece itself."""
    for number, block in enumerate(blocks):
        match block:
            case Paragraph():
                if number:
                    yield (Words(PARAGRAPH, block.place),)
                yield block.content
            case ListBlock():
                yield from _items(block)
            case _:
                pass


def _items(block: ListBlock) -> Iterator[Inlines]:
    for number, item in enumerate(block.items, start=block.start):
        yield (Words(f"{number}." if block.ordered else "•", block.place),)
        yield from running_text(item)


def set_off(blocks: Blocks) -> Blocks:
    """What stands in a piece as a piece of its own."""
    kept: list[Block] = []
    for block in blocks:
        if isinstance(block, ListBlock):
            kept += [b for item in block.items for b in set_off(item)]
        elif not isinstance(block, Paragraph):
            kept.append(block)
    return tuple(kept)
