"""The words by which the parts of a practical are told apart, as patterns.

They stand in ``manualgen/data/adopting.yaml``; here is only how they are read.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import StrEnum
from functools import cache

from manualgen.knowledge.tables import Row, read_table


class Part(StrEnum):
    """The parts of a practical that a heading can name."""

    AIM = "aim"
    THEORY = "theory"
    APPARATUS = "apparatus"
    CHEMICALS = "chemicals"
    NEEDS = "needs"
    METHOD = "method"
    OBSERVATIONS = "observations"
    CONCLUSION = "conclusion"
    QUESTIONS = "questions"
    ANSWERS = "answers"
    SAFETY = "safety"
    DISPOSAL = "disposal"
    TEACHER = "teacher"
    PREPARATION = "preparation"
    TIME = "time"


NEEDS = (Part.APPARATUS, Part.CHEMICALS, Part.NEEDS)
_NUMBERING = re.compile(
    r"^(?:[a-z]|[ivx]{1,4}|\d{1,2}(?:\.\d{1,2})*)[.):]\s+", re.IGNORECASE
)


def table() -> Row:
    """The vocabulary."""
    return read_table("adopting")


@cache
def _headings() -> dict[str, Part]:
    rows = table().row("headings")
    return {words: part for part in Part for words in rows.texts(part.value)}


@cache
def _heading_patterns() -> dict[Part, re.Pattern[str]]:
    row = table().row("heading_patterns")
    return {Part(key): re.compile(row.text(key), re.IGNORECASE) for key in row.cells}


_AND = re.compile(r"\s*(?:,|/|&|\+|;)\s*(?:and\s+)?|\s+(?:and|or)\s+")
_ASIDE = re.compile(r"\s*\([^()]*\)")


def part_named(heading: str) -> Part | None:
    """The part of a practical that a heading names, or None.

    *Equipment and reagents (per pair)* names what is needed.
    """
    bare = _NUMBERING.sub("", heading.strip()).strip(" :.?–-*_#").casefold()
    words = " ".join(_ASIDE.sub("", bare.replace("’", "'")).split()).rstrip(" :")
    return _headings().get(words) or _part_in(words)


def _part_in(words: str) -> Part | None:
    """The part that all of a heading's members name, without what is said of them."""
    bare = patterns("heading_asides").sub("", words).strip()
    for part, pattern in _heading_patterns().items():
        if pattern.fullmatch(words):
            return part
    named = {_headings().get(member) for member in _AND.split(bare)}
    if len(named) == 1:
        return named.pop()
    return Part.NEEDS if named <= {*NEEDS} else None


@cache
def one_of(*path: str) -> re.Pattern[str]:
    """A pattern for any phrase of a list of the vocabulary, the longest first.

    >>> one_of("fillers").match("and then add").group()
    'and then'
    """
    return re.compile(rf"(?:{alternatives(_texts(path))})(?![\w'])", re.IGNORECASE)


def alternatives(phrases: Iterable[str]) -> str:
    """Phrases as the choices of a pattern, the longest first."""
    longest = sorted(phrases, key=lambda p: (-len(p), p))
    return "|".join(re.escape(p).replace(r"\ ", r"\s+") for p in longest)


@cache
def patterns(*path: str) -> re.Pattern[str]:
    """The patterns of a list of the vocabulary, as one."""
    return re.compile("|".join(f"(?:{text})" for text in filled(*path)), re.IGNORECASE)


def filled(*path: str) -> tuple[str, ...]:
    """The patterns of a list, with the words that N, ORDINAL and AMOUNT stand for."""
    spoken = table().row("spoken")
    counted = {w for key in ("numbers", "tens") for w in spoken.row(key).cells}
    meant = {
        "N": rf"(?:\d{{1,2}}[a-z]?|{alternatives(numbers())})\b",
        "ORDINAL": rf"(?:{alternatives(table().texts('ordinals'))})",
        "AMOUNT": rf"(?:an?|some|half|\d+|{alternatives(counted)})\b",
    }
    return tuple(
        re.sub(r"\b(?:N|ORDINAL|AMOUNT)\b", lambda found: meant[found.group()], text)
        for text in _texts(path)
    )


@cache
def numbers() -> dict[str, str]:
    """Small numbers in words and in figures."""
    row = table().row("numbers")
    return {word: row.text(word) for word in row.cells}


@cache
def doing() -> dict[str, str]:
    """Verbs of doing, and their participles."""
    row = table().row("doing")
    return {verb: row.text(verb) for verb in row.cells}


@cache
def words(*path: str) -> frozenset[str]:
    """A list of the vocabulary as a set."""
    return frozenset(_texts(path))


def _texts(path: tuple[str, ...]) -> tuple[str, ...]:
    row = table()
    for key in path[:-1]:
        row = row.row(key)
    return row.texts(path[-1])
