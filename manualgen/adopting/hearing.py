"""Talk as it is meant: without hesitations, and with what the speaker put right.

*Five no sorry six discs* is *six discs*. The draft keeps what was said beside it.
"""

from __future__ import annotations

import re
from functools import cache

from manualgen.adopting.spoken import spoken_pattern, spoken_units
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


@cache
def _hundreds() -> re.Pattern[str]:
    """*A two fifty mil beaker* holds two hundred and fifty."""
    spoken = table().row("spoken")
    digits, tens = (alternatives(spoken.row(k).cells) for k in ("numbers", "tens"))
    return re.compile(
        rf"\b(an?\s+)({digits})\s+((?:{tens})(?:[\s-](?:{digits}))?)"
        rf"(?=\s+(?:{alternatives(spoken_units())}|ml|cc|cm3)\b)",
        re.IGNORECASE,
    )


def as_meant(text: str) -> str:
    """A sentence of talk as its speaker meant it.

    >>> as_meant("cut um five no sorry six discs")
    'cut six discs'
    """
    bare, _ = without_hesitations(text)
    for correction in _corrections():
        bare = correction.sub("", bare)
    bare = _hundreds().sub(r"\1\2 hundred and \3", bare)
    return bare.strip() or text
