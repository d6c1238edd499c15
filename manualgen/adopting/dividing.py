"""Where talk and plain prose, which have no headings, begin another practical.

Some words open one, if needs or steps follow. Where no such words are known, a
practical begins where things are asked for after a whole one was told; it then
begins at the sentence before that bears the most signs of an opening.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache

from manualgen.adopting.doing import steps_in
from manualgen.adopting.openings import (
    is_alone,
    is_named,
    is_strong,
    opened,
    tells_one,
    title_behind,
    title_of,
)
from manualgen.adopting.piece import Kind
from manualgen.adopting.sentences import LONGEST
from manualgen.adopting.statement import Role, Statement, role_of
from manualgen.adopting.vocabulary import filled, table
from manualgen.knowledge import mentions

_SOON = 4
"""Sentences behind a weak opening in which needs must be named."""
FEWEST_STEPS = 3
"""Steps of a whole practical."""
_FEWEST_NEEDED = 2
"""Steps of one whose needs were told."""
_FAR = 4
"""Sentences before its needs in which a practical may begin."""
_TOLD = (Role.SEES, Role.MEANS, Role.DISPOSES, Role.WARNS, Role.ASKS)
_MANY_SIGNS = 4
_SURE_SIGNS = 3
"""Signs of an opening, though its verb is also one of doing: *I turn to the …*."""
_OPENED = 4
"""Signs that words of opening count for."""


def by_words(row: Sequence[Statement]) -> list[int]:
    """The sentences that open a practical."""
    roles = [_role(s) for s in row]
    begins: list[int] = []
    openings = list(_openings(row))
    for n in openings:
        is_weak = not is_strong(row[n]) and not is_named(row[n])
        if is_weak and roles[n] in (Role.DOES, Role.NEEDS):
            continue
        following = next((m for m in openings if m > n), len(row))
        if _is_followed(row[n:following], roles[n + 1 : following]):
            begins.append(n)
    found = sorted({*begins, *_by_needs(row, roles, begins)})
    found = sorted({*found, *_by_signs(row, roles, found)})
    found = sorted({*found, *_first_by_needs(row, roles, found)})
    return sorted({*found, *_first_by_steps(row, roles, found)})


def _openings(row: Sequence[Statement]) -> Iterator[int]:
    """What may open a practical; the title behind an opening that stands alone is of it."""
    for n, statement in enumerate(row):
        is_behind = n > 0 and is_alone(row[n - 1]) and not is_alone(statement)
        if opened(statement) is not None and not is_behind:
            yield n


def _role(statement: Statement) -> Role:
    is_text = statement.kind in (Kind.TEXT, Kind.ITEM)
    return role_of(statement.text) if is_text else Role.NOTHING


def _is_followed(section: Sequence[Statement], roles: list[Role]) -> bool:
    opening, *behind = section
    if Role.NEEDS in roles[:_SOON]:
        return True
    if is_strong(opening):
        return Role.DOES in roles
    is_one = tells_one(opening)
    if is_alone(opening):
        is_one = bool(behind and title_behind(behind[0]))
    return is_one and _steps(behind, roles) >= FEWEST_STEPS


def _steps(row: Sequence[Statement], roles: Sequence[Role]) -> int:
    told = zip(row, roles, strict=False)
    return sum(len(steps_in(s.text)) for s, role in told if role is Role.DOES)


def _by_needs(
    row: Sequence[Statement], roles: list[Role], begins: list[int]
) -> Iterator[int]:
    """Needs after a whole practical, which nothing else opened."""
    last = 0
    for n, role in enumerate(roles):
        if n in begins:
            last = n
        if role is not Role.NEEDS:
            continue
        begin, signs = _opening_before(row, roles, n, last + 1)
        if _steps(row[last:n], roles[last:n]) < _fewest(roles[last:n], signs):
            continue
        is_told = any(r in _TOLD for r in roles[last:n])
        if not any(b in begins for b in range(begin, n)) and (
            signs >= _MANY_SIGNS or (is_told and begin < n)
        ):
            last = n
            yield begin


def _by_signs(
    row: Sequence[Statement], roles: list[Role], begins: list[int]
) -> Iterator[int]:
    """Sentences that name another practical, between two that are whole without needs."""
    last = 0
    for n, role in enumerate(roles):
        if n in begins:
            last = n
        end = next((b for b in begins if b > n), len(row))
        if role is not Role.NOTHING or signs_of(row[n]) < _SURE_SIGNS:
            continue
        is_told = any(r in _TOLD for r in roles[last:n]) and title_of(row[n])
        parts = ((last, n), (n, end))
        if is_told and all(
            _steps(row[a:b], roles[a:b]) >= FEWEST_STEPS for a, b in parts
        ):
            last = n
            yield n


def _fewest(told: list[Role], signs: int) -> int:
    """The steps of a practical that is whole, by what else was told of it."""
    if Role.NEEDS not in told:
        return FEWEST_STEPS
    return 1 if Role.SEES in told and signs >= _MANY_SIGNS else _FEWEST_NEEDED


def _opening_before(
    row: Sequence[Statement], roles: list[Role], needs: int, first: int
) -> tuple[int, int]:
    """The sentence before some needs that opens their practical, and its signs."""
    best, most = needs, 0
    for n in range(needs - 1, max(first, needs - _FAR) - 1, -1):
        is_opening = opened(row[n]) is not None
        seen = signs_of(row[n])
        if roles[n] is not Role.NOTHING and not is_opening and seen < _SURE_SIGNS:
            break
        signs = seen + _OPENED * is_opening + 1 - (needs - 1 - n)
        if signs > most:
            best, most = n, signs
    return best, most


@cache
def _signs() -> tuple[tuple[re.Pattern[str], int], ...]:
    row = table().row("opening_signs")
    return tuple(
        (re.compile(text, re.IGNORECASE), int(weight))
        for weight in row.cells
        for text in filled("opening_signs", weight)
    )


def signs_of(statement: Statement) -> int:
    """How much a sentence looks like the opening of a practical, by weak signs together."""
    is_long = len(statement.text) > LONGEST
    if statement.kind is not Kind.TEXT or is_long or " " not in statement.text:
        return 0
    return sum(weight for sign, weight in _signs() if sign.search(statement.text))


def _first_by_needs(
    row: Sequence[Statement], roles: list[Role], begins: list[int]
) -> Iterator[int]:
    """The practical before the first that was found, where its needs were told."""
    end = begins[0] if begins else 0
    before = roles[:end]
    if Role.NEEDS in before and _steps(row[:end], before) >= _FEWEST_NEEDED:
        yield _opening_before(row, roles, before.index(Role.NEEDS), 0)[0]


def _first_by_steps(
    row: Sequence[Statement], roles: list[Role], begins: list[int]
) -> Iterator[int]:
    """The practical before the first that was found, where its steps were told.

    It begins at what may open it, though that alone would be too weak, or else
    where the document does.
    """
    first = begins[0] if begins else 0
    if not first or _steps(row[:first], roles) < FEWEST_STEPS:
        return
    done = [n for n in range(first) if roles[n] is Role.DOES]
    lead = row[: done[0]]
    may = (n for n, s in enumerate(lead) if opened(s) is not None)
    begin = next(may, None)
    if begin is not None:
        yield begin
    elif any(_is_of_chemistry(row[n].text) for n in done):
        yield 0


def _is_of_chemistry(text: str) -> bool:
    """Whether a step is more than housekeeping before a lesson."""
    return bool(mentions(text).chemicals)
