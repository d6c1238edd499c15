"""Finding phrases in running text, the longest first.

A phrase is a row of words; what stands between them, a space, a hyphen or
brackets, makes no difference, so that ``copper(II) sulfate``, ``copper (II)
sulphate`` and ``test-tube``, ``test tube`` are one each. The words of a text are
looked up one after the other in a tree, in time that grows with the text alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Generic, NamedTuple, TypeVar

T = TypeVar("T")

_WORD = re.compile(r"\d+(?:\.\d+)?|[^\W\d_]+")
_GAP = re.compile(r"[ \u00a0\u202f\n]{0,3}[-‑–(),'’/.]{0,2}[ \u00a0\u202f\n]{0,3}")
_OPENING = re.compile(r"[,./]")


class Word(NamedTuple):
    """A word of a text, as it is compared, and where it stands."""

    key: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Phrase(Generic[T]):
    """A phrase found in a text, and what it stands for."""

    value: T
    start: int
    end: int


@dataclass(slots=True)
class _Node(Generic[T]):
    further: dict[str, _Node[T]] = field(default_factory=dict)
    value: T | None = None


class Phrasebook(Generic[T]):
    """Phrases with what they stand for; the first to give a phrase keeps it."""

    def __init__(self, phrases: Iterable[tuple[str, T]]) -> None:
        self._root: _Node[T] = _Node()
        for phrase, value in phrases:
            self._enter(phrase, value)

    def _enter(self, phrase: str, value: T) -> None:
        node = self._root
        for word in words(phrase):
            node = node.further.setdefault(word.key, _Node())
        if node is not self._root and node.value is None:
            node.value = value

    def find(self, text: str) -> tuple[Phrase[T], ...]:
        """Every phrase in a text, the longest at each place, none overlapping."""
        return tuple(self._found(text, words(text)))

    def exactly(self, text: str) -> T | None:
        """What the whole text stands for, or None."""
        node = self._root
        for word in words(text):
            if word.key not in node.further:
                return None
            node = node.further[word.key]
        return node.value

    def _found(self, text: str, row: tuple[Word, ...]) -> Iterator[Phrase[T]]:
        beginnings = self._root.further
        after = 0
        for at in [at for at, word in enumerate(row) if word.key in beginnings]:
            if at >= after and (longest := self._longest(text, row, at)):
                after, value = longest
                word, last = row[at], row[after - 1]
                yield Phrase(value, word.start, _closed(text, word, last))

    def _longest(
        self, text: str, row: tuple[Word, ...], at: int
    ) -> tuple[int, T] | None:
        node: _Node[T] | None = self._root
        found: tuple[int, T] | None = None
        for here in range(at, len(row)):
            if here > at and not _joined(text, row[here - 1], row[here]):
                break
            node = node.further.get(row[here].key) if node else None
            if node is None:
                break
            if node.value is not None:
                found = here + 1, node.value
        return found


@lru_cache(maxsize=64)
def words(text: str) -> tuple[Word, ...]:
    """The words of a text: small letters, the f spelling of sulfur.

    >>> [word.key for word in words("Sulphuric acid (2-M)")]
    ['sulfuric', 'acid', '2', 'm']
    """
    return tuple(
        Word(_spelt(match[0].casefold()), *match.span())
        for match in _WORD.finditer(text)
    )


def _spelt(word: str) -> str:
    return _SPELLINGS.get(word, word).replace("sulph", "sulf")


_SPELLINGS: Mapping[str, str] = {"aluminum": "aluminium", "deionized": "deionised"}


def _joined(text: str, before: Word, word: Word) -> bool:
    """Whether two words belong to one phrase by what stands between them.

    A comma, a stop or a stroke joins figures (``2,4-``) and nothing else.
    """
    gap = text[before.end : word.start]
    if not _GAP.fullmatch(gap):
        return False
    if _OPENING.search(gap):
        return before.key.isdigit() and word.key.isdigit() and len(gap) == 1
    return True


def _closed(text: str, first: Word, last: Word) -> int:
    """The end of the phrase, with the bracket that its last word leaves open."""
    inside = text[first.start : last.end]
    is_open = inside.count("(") > inside.count(")")
    return last.end + (is_open and text[last.end : last.end + 1] == ")")
