"""The vocabulary of apparatus and consumables.

A `Piece` is what a list names; a word such as *flask* means any of several
pieces, and *the flask* the one of them that is listed. The department's own
pieces add to the built-in ones and go before them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, SupportsIndex, TypeAlias

from manualgen.knowledge.phrases import Phrasebook
from manualgen.knowledge.plurals import plural_of
from manualgen.knowledge.tables import Row, read_table
from manualgen.quantities import Quantity, parse_quantity

Pieces: TypeAlias = "tuple[Piece, ...]"

_BEFORE = re.compile(
    r"(?:(?:an?|the|your|small|large|tall|short|wide|narrow|clean|dry|empty|second|"
    r"another|glass|plastic|clear|white|black|metal|wooden|rubber|long|thin|spare|"
    r"labelled|graduated|digital|electronic|set of|pair of|pieces? of|box of|strips? of|"
    r"sheets? of|lengths? of|supply of|access to(?: an?)?) )+",
    re.IGNORECASE,
)
_AFTER = re.compile(
    r"(?:,| \(| with | for | to | fitted | containing | of | and | or | in ).*"
)


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of apparatus or a consumable."""

    name: str
    also: tuple[str, ...] = ()
    plurals: tuple[str, ...] = ()
    """Irregular ones; the regular ones are made."""
    listed_as: tuple[str, ...] = ()
    """Names that mean it on a list only."""
    short: tuple[str, ...] = ()
    """Words that mean it where such a piece is listed."""
    capacities: tuple[Quantity, ...] = ()
    graduations: tuple[tuple[Quantity, Quantity], ...] = ()
    """Smallest division by capacity."""
    resolution: Quantity | None = None
    holds: str = ""
    """``liquid``, ``gas`` or nothing."""
    closed: bool = False
    consumable: bool = False
    implied_by: tuple[str, ...] = ()
    """Stems of words that use the piece without naming it."""
    personal: bool = False
    """Whether it belongs on no list."""
    sundry: bool = False
    """Whether it lies to hand on every bench, so that no list is wrong to name it."""
    comes_with: tuple[str, ...] = ()
    """Pieces that bring it along: a clamp stand its clamp."""

    def __reduce_ex__(self, protocol: SupportsIndex) -> str | tuple[object, ...]:
        """A built-in piece goes from process to process by its name alone."""
        if is_builtin(self):
            return _builtin_piece, (self.name,)
        return object.__reduce_ex__(self, protocol)

    def graduation(self, capacity: Quantity | None) -> Quantity | None:
        """The smallest division of a piece of a capacity, or its resolution."""
        for size, division in self.graduations:
            if capacity is not None and size.si_value == capacity.si_value:
                return division
        return self.resolution


class Vocabulary:
    """Pieces by every name that they have."""

    def __init__(self, own: Iterable[Piece] = ()) -> None:
        self.pieces: Pieces = (*own, *_builtin_pieces())
        self._names: Phrasebook[Pieces] = Phrasebook(_named(self.pieces))
        self._listed: Phrasebook[Pieces] = Phrasebook(_listed(self.pieces))

    @property
    def phrases(self) -> Phrasebook[Pieces]:
        """Names in running text; a short word stands for all that it may mean."""
        return self._names

    def find(self, words: str) -> Piece | None:
        """The piece that an entry of a list names, or None.

        Plurals, adjectives before it and what is added after it are understood.
        """
        return _found(self, words.strip())

    def meant_by(self, words: str) -> Pieces:
        """All that a name may mean: *thermometer* may be a digital one."""
        found = self.find(words)
        return self._names.exactly(words) or ((found,) if found else ())

    def called(self, name: str) -> Piece | None:
        """The piece of exactly this name."""
        found = self._listed.exactly(name) or self._names.exactly(name)
        return found[0] if found else None


@lru_cache(maxsize=4096)
def _found(vocabulary: Vocabulary, words: str) -> Piece | None:
    attempts = (vocabulary.called(attempt) for attempt in _attempts(words))
    return next((piece for piece in attempts if piece), None)


def find_apparatus(words: str, vocabulary: Vocabulary | None = None) -> Piece | None:
    """The piece of apparatus that a list's entry names.

    >>> find_apparatus("conical flasks").name
    'conical flask'
    """
    return (vocabulary or builtin_vocabulary()).find(words)


@lru_cache(maxsize=1)
def builtin_vocabulary() -> Vocabulary:
    """The vocabulary without a department's additions."""
    return Vocabulary()


def is_builtin(piece: Piece) -> bool:
    """Whether a piece is in the vocabulary without a department's additions."""
    return piece is _builtin_by_name().get(piece.name)


@dataclass(frozen=True, slots=True)
class Operation:
    """Something that cannot be done without one of some pieces."""

    words: tuple[str, ...]
    """Stems, as in `stems`."""
    pieces: tuple[str, ...]
    where: tuple[str, ...] = ()
    """Pieces of which one must be listed for the others to be asked for."""
    sure: bool = True
    """Whether nothing else will do, and none lies to hand on the bench."""


@lru_cache(maxsize=1)
def operations() -> tuple[Operation, ...]:
    """The operations that ask for a piece, though a step need not name it."""
    rows = read_table("apparatus").rows("operations")
    return tuple(
        Operation(
            row.texts("words"),
            row.texts("any"),
            row.texts("where"),
            row.texts("unsure") != ("true",),
        )
        for row in rows
    )


@lru_cache(maxsize=1)
def verbs() -> frozenset[str]:
    """Names of pieces that are verbs as well."""
    return frozenset(read_table("apparatus").texts("verbs"))


def _attempts(words: str) -> Iterator[str]:
    yield words
    bare = _BEFORE.sub("", words, count=1)
    yield bare
    yield _AFTER.sub("", bare, count=1)
    yield _AFTER.sub("", words, count=1)


_COUNTED: Final = ("pair of ", "set of ", "box of ")


def _named(pieces: Pieces) -> Iterator[tuple[str, Pieces]]:
    """Short words first, since a word such as *pipette* is also a piece's own name."""
    for word in dict.fromkeys(w for p in pieces for w in p.short):
        own = [p for p in pieces if word in (p.name, *p.also)]
        meant = tuple(dict.fromkeys([*own, *(p for p in pieces if word in p.short)]))
        yield word, meant
        yield plural_of(word), meant
    for piece in pieces:
        for name in (piece.name, *piece.also, *piece.plurals):
            yield name, (piece,)
            yield plural_of(name), (piece,)


def _listed(pieces: Pieces) -> Iterator[tuple[str, Pieces]]:
    for piece in pieces:
        for name in piece.listed_as:
            yield name, (piece,)
            yield plural_of(name), (piece,)


@lru_cache(maxsize=1)
def _builtin_pieces() -> Pieces:
    return tuple(_piece(row) for row in read_table("apparatus").rows("pieces"))


def _builtin_piece(name: str) -> Piece:
    return _builtin_by_name()[name]


@lru_cache(maxsize=1)
def _builtin_by_name() -> Mapping[str, Piece]:
    return {piece.name: piece for piece in _builtin_pieces()}


def _piece(row: Row) -> Piece:
    graduations = row.row("graduations")
    return Piece(
        name=row.text("name"),
        also=row.texts("also"),
        plurals=row.texts("plural"),
        listed_as=row.texts("listed"),
        short=row.texts("short"),
        capacities=tuple(parse_quantity(text) for text in row.texts("capacity")),
        graduations=tuple(
            (parse_quantity(size), parse_quantity(graduations.text(size)))
            for size in graduations.cells
        ),
        resolution=parse_quantity(row.text("resolution"))
        if "resolution" in row
        else None,
        holds=row.text("vessel"),
        closed=row.text("closed") == "true",
        consumable=row.text("consumable") == "true",
        implied_by=row.texts("implied_by"),
        personal=row.text("personal") == "true",
        sundry=row.text("sundry") == "true",
        comes_with=row.texts("comes_with"),
    )
