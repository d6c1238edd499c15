"""Classes that ingredients reach together: skin, eyes, airways.

A result is reached where the sum over the ingredients of per cent over limit
is 1 or more. Results run from the worst down, and the first reached stands;
what corrodes the skin is not put down for the eyes as well.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import TypeAlias

from manualgen.knowledge.hazard_class import HazardClass, parse_class
from manualgen.knowledge.part import Part, Reached
from manualgen.knowledge.tables import read_table

Shares: TypeAlias = tuple[tuple[str, Decimal], ...]
_CORROSION, _EYE = "H314", ("H318", "H319")


def added_classes(parts: Sequence[Part]) -> Iterator[Reached]:
    """The results that a mixture of these parts reaches."""
    corrosive = False
    for family in _families():
        if corrosive and family[0][0].statement in _EYE:
            continue
        reached = next((r for r in _results(parts, family) if r), None)
        if reached:
            corrosive = corrosive or reached.hazard.statement == _CORROSION
            yield reached


def _results(
    parts: Sequence[Part], family: Sequence[tuple[HazardClass, Shares]]
) -> Iterator[Reached | None]:
    for result, shares in family:
        limits = [(part, _limit(part, result, shares)) for part in parts]
        counted = [(part, limit) for part, limit in limits if limit is not None]
        total = sum((_share(part, limit) for part, limit in counted), Decimal(0))
        yield Reached(result, _why(counted, total)) if total >= 1 else None


def _share(part: Part, limit: _Limit) -> Decimal:
    return limit.counted / limit.percent


class _Limit:
    """A limit for one part, what is counted against it, and whether it is specific."""

    __slots__ = ("counted", "percent", "specific")

    def __init__(self, percent: Decimal, counted: Decimal, *, specific: bool) -> None:
        self.percent = percent
        self.counted = counted
        self.specific = specific


def _limit(part: Part, result: HazardClass, shares: Shares) -> _Limit | None:
    """The limit at which a part by itself would give the result."""
    specific = part.limit(result.statement, result.name)
    generic = _generic(part, shares)
    if specific is None and generic is not None:
        specific = part.limit(result.statement)
    if specific is None and result.statement in _EYE and _has_eye_limits(part):
        specific = part.limit("H318") or part.limit(_CORROSION)
        generic = None
    if specific is not None:
        return _Limit(specific, part.percent, specific=True)
    return generic


def _has_eye_limits(part: Part) -> bool:
    return any(part.limit(statement) is not None for statement in _EYE)


def _generic(part: Part, shares: Shares) -> _Limit | None:
    least = None
    for written, percent in shares:
        name, _, statement = written.partition(" H")
        wanted = f"H{statement}" if statement else None
        for hazard in part.of_class(name, wanted):
            if least is None or percent < least.percent:
                least = _Limit(percent, part.counted(hazard), specific=False)
    return least


def _why(counted: Sequence[tuple[Part, _Limit]], total: Decimal) -> str:
    if len(counted) == 1:
        ((_, limit),) = counted
        kind = "specific" if limit.specific else "generic"
        return f"{kind} limit {limit.percent} %"
    terms = " + ".join(f"{limit.counted:.3g}/{limit.percent}" for _, limit in counted)
    return f"{terms} = {total:.2f}, 1 or more"


@lru_cache(maxsize=1)
def _families() -> tuple[tuple[tuple[HazardClass, Shares], ...], ...]:
    return tuple(
        tuple(
            (parse_class(row.text("result")), row.numbers("shares"))
            for row in family.rows("rows")
        )
        for family in read_table("mixtures").families("added")
    )
