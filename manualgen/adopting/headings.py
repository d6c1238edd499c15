"""Headings, and the labels that stand before a text on its line ("Apparatus: …")."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from manualgen.adopting.markers import bare_items, depth
from manualgen.adopting.piece import Kind, Piece
from manualgen.adopting.vocabulary import part_named, patterns

_LABEL = re.compile(r"(?P<label>[^:;.!?|]{2,48}?)\s*(?::|\s[–—-]\s)\s*(?=\S)")
_ANSWER = re.compile(r"(A(?:ns(?:wer)?\.?)?\s*\d{1,2})[.:)]?\s+(?=\S)", re.IGNORECASE)
_PAIR = re.compile(r"(?P<letter>[QA])[.:]\s+(?=\S)")
_FEWEST_NUMBERED = 2
LONGEST = 90
"""Characters of a heading that nothing else marks as one."""


def with_headings(pieces: Iterable[Piece]) -> Iterator[Piece]:
    """The pieces, with what only its words mark as a heading made one."""
    for piece in _with_numbered(_with_bare_items(list(_with_pairs(pieces)))):
        if piece.kind is not Kind.TEXT:
            yield piece
        elif is_heading(piece):
            yield replace(piece, kind=Kind.HEADING, level=_level(piece.text))
        else:
            yield from _parted(piece)


def _with_pairs(pieces: Iterable[Piece]) -> Iterator[Piece]:
    """*Q. …* as a question and *A. …* behind it as its answer, counted through."""
    number, is_asked = 0, False
    for piece in pieces:
        found = _PAIR.match(piece.text) if piece.kind is Kind.TEXT else None
        if found and (found["letter"] == "Q" or is_asked):
            is_asked = found["letter"] == "Q"
            number += is_asked
            marker = f"{found['letter']}{number}"
            yield replace(cut(piece, found.end()), kind=Kind.ITEM, marker=marker)
        else:
            is_asked = False
            yield piece


def _with_bare_items(pieces: list[Piece]) -> list[Piece]:
    """Texts that are numbered without a stop, one behind the other, as items."""
    texts = [p.text if p.kind is Kind.TEXT else "" for p in pieces]
    items = bare_items(texts)
    return [
        replace(
            cut(p, len(p.text) - len(items[n][1])), kind=Kind.ITEM, marker=items[n][0]
        )
        if n in items
        else p
        for n, p in enumerate(pieces)
    ]


def _with_numbered(pieces: list[Piece]) -> Iterator[Piece]:
    """Numbered lines as headings, where two or more of them name parts.

    So does the line above them whose number theirs begin with: *2 Lead iodide*
    stands over *2.1 Equipment*.
    """
    pieces = _with_answers(pieces)
    parts = [depth(p.marker) > 0 and part_named(p.text) is not None for p in pieces]
    if sum(parts) < _FEWEST_NUMBERED:
        yield from pieces
        return
    above = {
        p.marker.rpartition(".")[0]
        for p, named in zip(pieces, parts, strict=True)
        if named
    }
    for piece, named in zip(pieces, parts, strict=True):
        is_title = piece.marker in above and piece.text[-1:] not in ".!?;:,"
        if named or (is_title and piece.marker and len(piece.text) <= LONGEST):
            rank = depth(piece.marker)
            yield replace(piece, kind=Kind.HEADING, level=rank, after_gap=True)
        else:
            yield piece


def _with_answers(pieces: list[Piece]) -> list[Piece]:
    """*A1 …* as an answer, where there is a question *Q1*."""
    if not any(p.is_numbered_question for p in pieces):
        return pieces
    return [_answer(p) if p.kind is Kind.TEXT else p for p in pieces]


def _answer(piece: Piece) -> Piece:
    found = _ANSWER.match(piece.text)
    if found is None:
        return piece
    return replace(cut(piece, found.end()), kind=Kind.ITEM, marker=found[1])


def is_heading(piece: Piece) -> bool:
    """Whether a text alone names a part, or begins a practical by its number."""
    text = piece.text.strip()
    if not text or len(text) > LONGEST:
        return False
    if begins_practical(text) and not text.endswith("."):
        return True
    is_marked = text.endswith(":") or text.isupper() or text[:1].isupper()
    return is_marked and part_named(text) is not None


def begins_practical(text: str) -> bool:
    """Whether a heading numbers a practical: ``Practical 2 - Starch``."""
    return bool(patterns("practical_headings").match(text.strip()))


def begins_with_label(text: str) -> bool:
    """Whether a line begins with a label such as ``Chemicals:``."""
    found = _LABEL.match(text.strip())
    return found is not None and part_named(found["label"]) is not None


def _level(text: str) -> int:
    return 1 if begins_practical(text) else 3


def _parted(piece: Piece) -> Iterator[Piece]:
    """The label that begins a text as a heading of its own."""
    found = _LABEL.match(piece.text)
    if not found or part_named(found["label"]) is None:
        yield piece
        return
    yield replace(piece, kind=Kind.HEADING, text=found["label"], level=3, is_label=True)
    yield cut(piece, found.end())


def cut(piece: Piece, start: int) -> Piece:
    """The rest of a piece from a character on."""
    kept = [(max(0, at - start), origin) for at, origin in piece.marks if at > start]
    marks = ((0, piece.origin_at(start)), *kept)
    return replace(piece, text=piece.text[start:], marks=marks, after_gap=False)
