"""Chemicals and apparatus named in plain sentences.

Both vocabularies are read over the text; where their phrases overlap the longer
stands, so that a *water bath* is no water and *copper foil* no foil. A word
that is a verb as well (*clamp*, *stopper*) counts after an article or the like
only; an element's name before *ions* or *compounds* is not the element.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, TypeVar

from manualgen.knowledge.apparatus import (
    Piece,
    Pieces,
    Vocabulary,
    builtin_vocabulary,
    verbs,
)
from manualgen.knowledge.chemical import Chemical
from manualgen.knowledge.index import builtin_index
from manualgen.knowledge.phrases import Phrase, Phrasebook
from manualgen.knowledge.store import NO_STORE, Store

_FORM: Final = (
    r"(?:solutions?|suspension|powder|granules?|ribbons?|turnings|foil|filings|wool|strips?|"
    r"sheet|wire|pellets?|crystals?|chips?|lumps?|vapour|gas|shavings|flakes|indicator|metal)"
)
_BEHIND = re.compile(rf"[ \u00a0\n]{_FORM}\b(?:[ \u00a0\n]{_FORM}\b)?")
_NOT_ITSELF = re.compile(
    r"[ \u00a0\n-]?(?:\([ivx0]+\))?[ \u00a0\n-]?(?:ions?|compounds?|salts?|atoms?|molecules?|"
    r"content|concentration of|cations?|anions?|hydrates?|bonds?|flames?|electrodes?|"
    r"half-cell|mirror|free|coated|plated)\b",
    re.IGNORECASE,
)
_BEFORE_A_NOUN = re.compile(
    r"(?:\b(?:an?|the|your|his|its|their|each|every|this|that|another|other|one|two|three|"
    r"four|five|six|eight|ten|\d+|of|with|by|into|from|using|use|and|or|no|new|same|second|"
    r"first|third|clean|dry|small|large|glass|rubber|plastic|empty|volumetric|hot|cold|in|"
    r"on|cm3|cm³|g|fresh|labelled|stoppered|graduated|beneath|under|over|through|via)"
    r"|[,(])[ \u00a0\n]*$",
    re.IGNORECASE,
)
_JOINED = re.compile(r"(?:\band|\bor|,)[ \u00a0\n]*$", re.IGNORECASE)
_WITH_AN_OBJECT = re.compile(
    r"[ \u00a0\n]+(?:it|them|the|an?|this|that|these|those|each|both|your|its|one|all)\b",
    re.IGNORECASE,
)
_OF_ONE = re.compile(
    r"\b(?:that|which|it|this|each|every|one|another|an?|who|what)[ \u00a0\n]*$", re.I
)
"""Words after which *stands* and *clips* are verbs: nouns there have no s."""

_AS_COLD_AS = re.compile(r"[ \u00a0\n-]?cold\b", re.IGNORECASE)
_VERBAL: Final = frozenset({"lead", "iron", "silver", "tin", "bleach", "buffer", "ice"})
"""Chemicals whose names are verbs or everyday words."""
_LOOK_BACK: Final = 24
"""Characters before a word that tell a noun from a verb."""

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class ChemicalMention:
    """A chemical named in a text, its form included: ``copper(II) sulfate solution``."""

    chemical: Chemical
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class ApparatusMention:
    """A piece named in a text; for a word such as *flask*, all that it may mean."""

    pieces: Pieces
    start: int
    end: int

    @property
    def piece(self) -> Piece:
        """The piece, or the likeliest of several."""
        return self.pieces[0]


@dataclass(frozen=True, slots=True)
class Mentions:
    """What a text names."""

    chemicals: tuple[ChemicalMention, ...]
    apparatus: tuple[ApparatusMention, ...]


def mentions(
    text: str, store: Store = NO_STORE, vocabulary: Vocabulary | None = None
) -> Mentions:
    """The chemicals and the apparatus that a text names, in order.

    >>> [m.piece.name for m in mentions("Fill the burette.").apparatus]
    ['burette']
    """
    found = tuple(_chemicals(text, store))
    pieces = tuple(_pieces(text, vocabulary or builtin_vocabulary()))
    return Mentions(
        tuple(c for c in found if not _is_inside(c, pieces)),
        tuple(p for p in pieces if not _is_inside(p, found)),
    )


def _is_inside(
    mention: ChemicalMention | ApparatusMention,
    others: Iterable[ChemicalMention | ApparatusMention],
) -> bool:
    """Whether a longer phrase of the other kind takes in this one."""
    return any(
        o.start <= mention.start
        and mention.end <= o.end
        and o.end - o.start > mention.end - mention.start
        for o in others
    )


def _chemicals(text: str, store: Store) -> Iterator[ChemicalMention]:
    for phrase in _merged(
        _own(store).find(text) if store.entries else (), _builtin().find(text)
    ):
        word = text[phrase.start : phrase.end].casefold()
        if word in _VERBAL and not _stands_as_noun(text, phrase.start, word):
            continue
        if _NOT_ITSELF.match(text, phrase.end):
            continue
        behind = _BEHIND.match(text, phrase.end)
        end = behind.end() if behind else phrase.end
        yield ChemicalMention(phrase.value, phrase.start, end)


def _stands_as_noun(text: str, start: int, word: str) -> bool:
    """``lead foil`` and ``of iron`` are the metal; ``leads to`` and ``to iron`` are not."""
    if _BEHIND.match(text, start + len(word)):
        return True
    if _WITH_AN_OBJECT.match(text, start + len(word)) and (
        _JOINED.search(text[max(0, start - _LOOK_BACK) : start])
    ):
        return False
    return bool(
        re.search(r"\b(?:of|with|some|the|add|in|on|and)[ \n]$", text[:start], re.I)
    )


def _pieces(text: str, vocabulary: Vocabulary) -> Iterator[ApparatusMention]:
    for phrase in vocabulary.phrases.find(text):
        word = text[phrase.start : phrase.end].casefold()
        is_verb = word in verbs() or word.removesuffix("s") in verbs()
        if is_verb and _is_done(text, phrase.start, phrase.end):
            continue
        if word == "ice" and _AS_COLD_AS.match(text, phrase.end):
            continue
        yield ApparatusMention(phrase.value, phrase.start, phrase.end)


def _is_done(text: str, start: int, end: int) -> bool:
    """Whether the word is the verb: ``stopper the flask``, ``and stand it on the tile``."""
    before = text[max(0, start - _LOOK_BACK) : start]
    if not _BEFORE_A_NOUN.search(before):
        return True
    if re.search(r"[^s]s$", text[start:end]) and _OF_ONE.search(before):
        return True
    has_object = _WITH_AN_OBJECT.match(text, end)
    return bool(has_object and _JOINED.search(before))


def _merged(first: Iterable[Phrase[T]], second: Iterable[Phrase[T]]) -> list[Phrase[T]]:
    """Phrases of two books, the first book's where they overlap, unless shorter."""
    kept: list[Phrase[T]] = []
    for phrase in sorted((*first, *second), key=lambda p: (p.start, p.start - p.end)):
        if not kept or phrase.start >= kept[-1].end:
            kept.append(phrase)
    return kept


@lru_cache(maxsize=1)
def _builtin() -> Phrasebook[Chemical]:
    return Phrasebook(builtin_index().items())


@lru_cache(maxsize=8)
def _own(store: Store) -> Phrasebook[Chemical]:
    return Phrasebook(store.index.items())
