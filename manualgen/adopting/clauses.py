"""Talk without stops, cut into lines anywhere, parted where a new clause can only begin.

A clause begins at *okay so*, *now*, *then* before a verb of doing; at *you need*
and *you get*; and at a verb of doing that nothing before it governs.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from manualgen.adopting.headings import cut
from manualgen.adopting.piece import Piece
from manualgen.adopting.vocabulary import alternatives, doing, table

_FEWEST = 3
"""Words of a clause."""


@cache
def _beginnings() -> re.Pattern[str]:
    row = table().row("clauses")
    sure = alternatives(set(doing()) & set(row.texts("sure_verbs")))
    behind = "".join(f"(?<! {re.escape(w)} )" for w in row.texts("governing"))
    texts = "|".join(row.texts("beginnings"))
    return re.compile(
        rf"(?<=\s)(?:(?:{texts})|{behind}(?:{sure})(?=\s))",
        re.IGNORECASE,
    )


def clauses(piece: Piece) -> Iterator[Piece]:
    """The clauses of a piece, every word in one of them."""
    begin = 0
    for found in _beginnings().finditer(piece.text):
        if len(piece.text[begin : found.start()].split()) < _FEWEST:
            continue
        yield _part(piece, begin, found.start())
        begin = found.start()
    yield _part(piece, begin, len(piece.text))


def _part(piece: Piece, start: int, end: int) -> Piece:
    rest = cut(piece, start)
    text = rest.text[: end - start].rstrip()
    marks = tuple((at, origin) for at, origin in rest.marks if at < max(1, len(text)))
    return replace(rest, text=text, marks=marks)
