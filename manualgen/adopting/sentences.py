"""Sentences of running text.

A stop inside a number, behind an initial or a usual short form ends none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from manualgen.adopting.vocabulary import doing, words

LONGEST = 1_000
"""Characters of a sentence; what is longer is not searched for weak signs."""
_END = re.compile(
    r"[.!?…]+[\"'”’)\]]*\s+(?![(\[]\d{1,2}(?:\s*marks?)?[)\]])(?=[\"'“‘(\[]?[A-Z0-9])"
)
_LOUD = re.compile(r"!{2,}\s+(?=\S)")
"""*Goggles!!* ends a sentence whatever follows."""
_LETTERS = re.compile(r"(?<![\w'])[A-Z](?:,\s[A-Z])*,?\sand\s[A-Z]\.$")
"""*B, C and D.* are tubes and no person."""
_SHORT = re.compile(
    r"(?:\b(?:e\.g|i\.e|etc|approx|ca|c|no|fig|figs|eq|temp|vol|conc|min|max|mr|mrs|ms|dr|vs|st|cf|al)"
    r"|(?<!['’])\b[A-Z])\.$",
    re.IGNORECASE,
)
_AMOUNT = re.compile(r"\d\s?(?:degrees\s)?(?:[A-Zgs]|ml|cm|mm|cm3)\.$")
_CAPITAL = re.compile(r"\b[A-Z]\.$")


def sentences(text: str) -> Iterator[tuple[int, int]]:
    """Start and end of each sentence; together they hold every word.

    >>> [("Add 1.5 g. Stir it.")[a:b] for a, b in sentences("Add 1.5 g. Stir it.")]
    ['Add 1.5 g.', 'Stir it.']
    """
    begin = 0
    ends = sorted((*_END.finditer(text), *_LOUD.finditer(text)), key=re.Match.end)
    for found in ends:
        if found.end() <= begin:
            continue
        said = text[begin : found.end()].rstrip()
        if _is_short(said) and not _is_label(said, text[found.end() :]):
            continue
        yield begin, begin + len(said)
        begin = found.end()
    if text[begin:].strip():
        yield begin, len(text)


def _is_label(said: str, after: str) -> bool:
    """Whether a capital names a tube and no person: *to tube C. Add …*."""
    row = said.split()[-2:]
    following = re.match(r"[A-Za-z]+", after)
    return (
        len(row) == 2
        and bool(re.fullmatch(r"[A-Z]\.", row[1]))
        and row[0].islower()
        and following is not None
        and following.group().casefold() in {*doing(), *words("starters")}
    )


def _is_short(said: str) -> bool:
    """Whether the stop belongs to a short form and not to a sentence."""
    if _AMOUNT.search(said) or _LETTERS.search(said):
        return False
    last = said.rsplit(" ", 1)[-1]
    if _CAPITAL.search(last) and len(last) > 2:
        return False
    found = _SHORT.search(last)
    return found is not None and found.group().casefold() not in ("c.", "min.", "no.")
