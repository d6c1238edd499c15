"""Words looked for in running text by their stems."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import TypeVar

N = TypeVar("N")


@lru_cache(maxsize=256)
def stem_pattern(stems: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern that finds any of the stems at the beginning of a word.

    A stem that ends in ! is a whole word. A blank matches a line's end and a
    hyphen too; the spelling of sulfur makes no difference.

    >>> bool(stem_pattern(("well ventilat",)).search("a well-ventilated room"))
    True
    """
    return re.compile(rf"\b(?:{any_of(stems)})", re.IGNORECASE)


def says(text: str, stems: Iterable[str]) -> bool:
    """Whether a text has any of the stems."""
    listed = tuple(stems)
    return bool(listed) and bool(_folded_pattern(listed).search(text.casefold()))


def said_in(text: str, named: Mapping[N, tuple[str, ...]]) -> frozenset[N]:
    """The names of which a text has a stem; the text is gone through once."""
    everywhere = _beginnings(tuple(stem for stems in named.values() for stem in stems))
    folded = text.casefold()
    starts = [found.start() for found in everywhere.finditer(folded)]
    return frozenset(
        name
        for name, stems in named.items()
        if any(_folded_pattern(stems).match(folded, start) for start in starts)
    )


@lru_cache(maxsize=256)
def _folded_pattern(stems: tuple[str, ...]) -> re.Pattern[str]:
    """The same for a casefolded text, which takes half the time."""
    return re.compile(rf"\b(?:{any_of(stem.casefold() for stem in stems)})")


@lru_cache(maxsize=8)
def _beginnings(stems: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern that finds every place where a stem begins."""
    return re.compile(rf"\b(?={any_of(stem.casefold() for stem in stems)})")


def any_of(stems: Iterable[str]) -> str:
    """The stems as alternatives, the longest first among those of one first letter."""
    by_letter: dict[str, list[str]] = {}
    for stem in sorted(stems, key=len, reverse=True):
        first = re.escape(stem[0])
        by_letter.setdefault(first, []).append(_loose(stem).removeprefix(first))
    return "|".join(f"{k}(?:{'|'.join(rest)})" for k, rest in by_letter.items())


def _loose(stem: str) -> str:
    if stem.endswith("!"):
        return _loose(stem[:-1]) + r"\b"
    escaped = re.escape(stem.replace("-", " ")).replace(r"\ ", r"[\s\u00a0-]+")
    return escaped.replace("sulf", "sul(?:f|ph)")
