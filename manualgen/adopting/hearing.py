"""Talk as it is meant: without hesitations, and with what the speaker put right.

*Five no sorry six discs* is *six discs*. The draft keeps what was said beside it.
"""

from __future__ import annotations

import re
from functools import cache

from manualgen.adopting.spoken import spoken_pattern
from manualgen.adopting.vocabulary import alternatives, table

_FARTHEST = 5
"""Words that a speaker takes back at most."""


@cache
def _hesitation() -> re.Pattern[str]:
    sounds = alternatives(table().row("hearing").texts("hesitations"))
    return re.compile(rf"(?<![\w'’-])(?:{sounds})(?![\w'’-])[,.…]*\s*", re.IGNORECASE)


@cache
def _corrections() -> tuple[re.Pattern[str], ...]:
    row = table().row("hearing")
    sure, unsure = (alternatives(row.texts(k)) for k in ("corrections", "perhaps"))
    number = rf"(?:\d[\d.]*|{spoken_pattern()})"
    within = rf"(?:\s+[\w'-]+){{0,{_FARTHEST - 1}}}?[\s,–-]+"
    return (
        re.compile(
            rf"{number}{within}(?:{sure}|{unsure}),?\s+(?={number}\s)", re.IGNORECASE
        ),
        re.compile(
            rf"\b(?P<word>[a-z]+){within}(?:{sure}|{unsure}),?\s+(?=(?P=word)\b)",
            re.IGNORECASE,
        ),
    )


def without_hesitations(text: str) -> tuple[str, tuple[int, ...]]:
    """The text without *um* and *er*, and where each character of it stood."""
    kept, begin = list[int](), 0
    for found in _hesitation().finditer(text):
        kept += range(begin, found.start())
        begin = found.end()
    kept += range(begin, len(text))
    return "".join(text[at] for at in kept), (*kept, len(text))


def as_meant(text: str) -> str:
    """A sentence of talk as its speaker meant it.

    >>> as_meant("cut um five no sorry six discs")
    'cut six discs'
    """
    bare, _ = without_hesitations(text)
    for correction in _corrections():
        bare = correction.sub("", bare)
    return bare.strip() or text
