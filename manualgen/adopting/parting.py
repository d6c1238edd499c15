"""Where one practical ends and the next begins.

A document with headings begins one at each heading of the highest rank that
names no part and has needs or a method behind it; talk and plain prose where
their sentences divide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from manualgen.adopting.dividing import FEWEST_STEPS, by_words
from manualgen.adopting.headings import begins_practical
from manualgen.adopting.openings import (
    LONGEST_TITLE,
    PREFIX,
    title_behind,
    title_of,
)
from manualgen.adopting.piece import Kind
from manualgen.adopting.statement import Role, Statement, role_of
from manualgen.adopting.vocabulary import NEEDS, Part, part_named, patterns


@dataclass(frozen=True, slots=True)
class Practical:
    """The statements of one practical, and where it begins."""

    title: str
    origin: str
    opening: Statement | None
    """The heading or sentence that the title was taken from."""
    statements: tuple[Statement, ...]
    preface: tuple[Statement, ...] = ()
    """What stands before the first practical begins."""


def practicals(row: Sequence[Statement], name: str) -> tuple[Practical, ...]:
    """The practicals of a document, every statement in one of them."""
    headings = [s for s in row if s.kind is Kind.HEADING]
    if any(s.part for s in headings) or any(begins_practical(s.text) for s in headings):
        begins = _by_headings(row)
    else:
        begins = by_words(row) or _by_headings(row)
    begins = begins or [0]
    ends = [*begins[1:], len(row)]
    parts = [list(row[a:b]) for a, b in zip(begins, ends, strict=True)]
    preface = list(row[: begins[0]])
    return tuple(
        _practical(part, preface if n == 0 else [], f"{name} {n + 1}" if n else name)
        for n, part in enumerate(parts)
    )


def _practical(part: list[Statement], preface: list[Statement], name: str) -> Practical:
    part = _with_title_below(part)
    first = part[0] if part else None
    title = title_of(first) if first else ""
    if first and not title and first.kind is Kind.TEXT and len(part) > 1:
        title = title_behind(part[1])
    if first is None or not title:
        origin = first.origin if first else "line 1"
        return Practical(name, origin, None, tuple(part), tuple(preface))
    return Practical(title, first.origin, first, tuple(part[1:]), tuple(preface))


def _with_title_below(part: list[Statement]) -> list[Statement]:
    """*Practical 9* and the title on the line below it as one heading."""
    if len(part) < 3 or part[0].kind is not Kind.HEADING:
        return part
    first, second = part[:2]
    is_bare = PREFIX.fullmatch(first.text) and begins_practical(first.text)
    is_short = len(second.text.split()) <= LONGEST_TITLE
    names = second.kind in (Kind.HEADING, Kind.TEXT) and second.text[-1:] not in ".!?;:"
    is_told = part_named(second.text) or role_of(second.text) is not Role.NOTHING
    if is_told or not (is_bare and is_short and names):
        return part
    return [replace(first, text=f"{first.text}: {second.text}"), *part[2:]]


def _by_headings(row: Sequence[Statement]) -> list[int]:
    """The headings that begin a practical with needs or a method."""
    named = [n for n, s in enumerate(row) if _is_title(s)]
    numbered = [n for n in named if begins_practical(row[n].text)]
    if numbered:
        candidates = numbered
    elif named:
        highest = min(row[n].level for n in named)
        candidates = [n for n in named if row[n].level == highest]
    else:
        return []
    begins: list[int] = []
    for at, end in zip(candidates, [*candidates[1:], len(row)], strict=True):
        if _has_method(row[at:end]):
            begins.append(at)
    return begins or candidates[:1]


def _is_title(statement: Statement) -> bool:
    is_heading = statement.kind is Kind.HEADING and not statement.is_label
    return is_heading and part_named(statement.text) is None


def _has_method(row: Sequence[Statement]) -> bool:
    parts = {s.part for s in row}
    if parts & {*NEEDS, Part.METHOD}:
        return True
    return _count(row, Role.DOES) >= FEWEST_STEPS


def _count(row: Sequence[Statement], role: Role) -> int:
    texts = (s for s in row if s.kind in (Kind.TEXT, Kind.ITEM))
    return sum(role_of(s.text) is role for s in texts)


def with_title(row: Sequence[Statement]) -> tuple[Statement, ...]:
    """The statements, their first made a heading where it is short and stands alone."""
    if len(row) > 2 and patterns("letterheads").search(row[0].text):
        below = with_title(row[1:])
        return (row[0], *below) if below[0].kind is Kind.HEADING else tuple(row)
    if len(row) < 2 or row[0].kind is not Kind.TEXT:
        return tuple(row)
    first, second = row[0], row[1]
    is_short = len(first.text) <= 90 and first.text[-1:] not in ".!?;:,"
    if is_short and second.begins_piece and second.after_gap:
        return (replace(first, kind=Kind.HEADING, level=0), *row[1:])
    return tuple(row)
