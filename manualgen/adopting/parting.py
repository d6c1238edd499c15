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


def practicals(
    row: Sequence[Statement], name: str, *, is_talk: bool = False
) -> tuple[Practical, ...]:
    """The practicals of a document, every statement in one of them."""
    headings = [s for s in row if s.kind is Kind.HEADING and not is_talk]
    is_headed = any(s.part or begins_practical(s.text) for s in headings)
    if is_headed or len(headings) > 1:
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
    candidates = numbered or _of_rank(row, named)
    begins: list[int] = []
    for at, end in zip(candidates, [*candidates[1:], len(row)], strict=False):
        if _has_method(row[at:end]):
            begins.append(at)
    return begins or candidates[:1]


def _of_rank(row: Sequence[Statement], named: list[int]) -> list[int]:
    """The titles of the highest rank, or below one title those that are whole each."""
    ranks = sorted({row[n].level for n in named})
    by_rank = [[n for n in named if row[n].level == rank] for rank in ranks]
    for candidates in by_rank[1:] if by_rank and len(by_rank[0]) == 1 else ():
        ends = [*candidates[1:], len(row)]
        parts = [row[a:b] for a, b in zip(candidates, ends, strict=True)]
        if len(parts) > 1 and all(map(_is_whole, parts)):
            return candidates
    return by_rank[0] if by_rank else []


def _is_whole(row: Sequence[Statement]) -> bool:
    """Whether a section has needs and a method of its own."""
    parts = {s.part for s in row}
    has_needs = bool(parts & {*NEEDS}) or _count(row, Role.NEEDS) > 0
    return has_needs and _has_steps(row)


def _has_steps(row: Sequence[Statement]) -> bool:
    return Part.METHOD in {s.part for s in row} or _count(row, Role.DOES) > 1


def _is_title(statement: Statement) -> bool:
    is_heading = statement.kind is Kind.HEADING and not statement.is_label
    return is_heading and part_named(statement.text) is None


def _has_method(row: Sequence[Statement]) -> bool:
    parts = {s.part for s in row}
    if parts & {*NEEDS, Part.METHOD}:
        return True
    return _count(row, Role.DOES) >= FEWEST_STEPS or _is_whole(row)


def _count(row: Sequence[Statement], role: Role) -> int:
    texts = (s for s in row if s.kind in (Kind.TEXT, Kind.ITEM))
    return sum(role_of(s.text) is role for s in texts)


def with_titles(row: Sequence[Statement]) -> tuple[Statement, ...]:
    """The statements, with short lines that stand alone over a practical as headings.

    That is the first line, or two and more of them over steps each.
    """
    alone = [n for n in range(len(row) - 1) if _stands_alone(row[n], row[n + 1])]
    ends = [*alone[1:], len(row)]
    over = [a for a, b in zip(alone, ends, strict=False) if _has_steps(row[a + 1 : b])]
    if len(over) < 2 or any(s.part for s in row):
        return with_title(row)
    return tuple(
        replace(s, kind=Kind.HEADING, level=0) if n in over else s
        for n, s in enumerate(row)
    )


def _stands_alone(first: Statement, second: Statement) -> bool:
    """Whether a short line stands between gaps, or by its number, and tells nothing."""
    if not first.begins_piece or not second.begins_piece or first.text[-1:] in ".!:;,":
        return False
    is_apart = first.kind is Kind.TEXT and first.after_gap and second.after_gap
    is_numbered = first.kind is Kind.ITEM and first.marker[:1].isdigit()
    is_over = is_numbered and second.kind is Kind.TEXT
    is_short = 0 < len(first.text.split()) <= LONGEST_TITLE and not _greets(first)
    return is_short and (is_apart or is_over) and _tells_nothing(first.text)


def _greets(statement: Statement) -> bool:
    """Whether a line is the head, the greeting or the end of a message."""
    return patterns("no_titles").match(statement.text) is not None


def _tells_nothing(text: str) -> bool:
    is_title = text.endswith("?") and "(" not in text
    return is_title or role_of(text) is Role.NOTHING


def with_title(row: Sequence[Statement]) -> tuple[Statement, ...]:
    """The statements, their first made a heading where it is short and stands alone."""
    if len(row) > 2 and patterns("letterheads").search(row[0].text):
        below = with_title(row[1:])
        head = replace(row[0], kind=Kind.TEXT)
        return (head, *below) if _is_title(below[0]) else tuple(row)
    if len(row) < 2 or row[0].kind is not Kind.TEXT or _greets(row[0]):
        return tuple(row)
    first, second = row[0], row[1]
    is_short = len(first.text) <= 90 and first.text[-1:] not in ".!;:,"
    if is_short and second.begins_piece and second.after_gap:
        return (replace(first, kind=Kind.HEADING, level=0), *row[1:])
    return tuple(row)
