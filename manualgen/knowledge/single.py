"""Classes that one ingredient reaches by itself, and supplemental statements."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

from manualgen.knowledge.hazard_class import HazardClass, Limit, parse_class
from manualgen.knowledge.part import Part, Reached
from manualgen.knowledge.tables import read_table

_BY_TEST = ("Ox.", "Flam.")
"""Physical hazards: only a limit of the substance's own stands for a test."""

_SENSITISERS = ("Skin Sens. 1", "Resp. Sens. 1")


def classes_alone(parts: Sequence[Part]) -> Iterator[Reached]:
    """The classes that any one part of the mixture gives it."""
    found: dict[HazardClass, Reached] = {}
    for part in parts:
        for reached in (*_health(part), *_physical(part)):
            found.setdefault(reached.hazard, reached)
    yield from found.values()


def supplements(
    parts: Sequence[Part], statements: Collection[str]
) -> Iterator[Reached]:
    """EUH statements: with a limit, beside a statement, and for traces of sensitisers."""
    for part in parts:
        for written in part.hazards.euh:
            code, _, condition = written.partition(" ")
            if _holds(condition, part.percent, statements):
                yield Reached(HazardClass("EUH", code), condition)
        if _is_trace_of_sensitiser(part):
            why = f"contains {part.name}"
            yield Reached(HazardClass("EUH", "EUH208"), why, part.name)


def _health(part: Part) -> Iterator[Reached]:
    done: set[str] = set()
    for name, gives, generic in _rules():
        for hazard in part.of_class(name):
            result = gives or replace(hazard, counted_as=None)
            specific = part.limit(result.statement, result.name)
            limit = generic if specific is None else specific
            counted = part.counted(hazard)
            if counted >= limit and _family(result) not in done:
                done.add(_family(result))
                kind = "generic" if specific is None else "specific"
                yield Reached(result, f"{kind} limit {limit} %")


def _family(hazard: HazardClass) -> str:
    """Categories of one class shut each other out; two effects on reproduction do not."""
    stem = hazard.name.rsplit(" ", 1)[0]
    return f"{stem} {hazard.statement[:4]}" if stem == "Repr." else stem


def _physical(part: Part) -> Iterator[Reached]:
    for stem in _BY_TEST:
        limits = [x for x in _own_limits(part) if x.hazard.name.startswith(stem)]
        reached = [x for x in limits if part.percent >= x.percent]
        if reached:
            worst = max(reached, key=lambda x: x.percent)
            is_flash = worst in part.hazards.flammable
            why = "by its flash point, cautiously" if is_flash else "specific limit"
            yield Reached(worst.hazard, f"{why} from {worst.percent} %")


def _own_limits(part: Part) -> tuple[Limit, ...]:
    return (*part.hazards.limits, *part.hazards.flammable)


def _holds(condition: str, percent: Decimal, statements: Collection[str]) -> bool:
    match condition.split(" "):
        case ["from", limit]:
            return percent >= Decimal(limit)
        case ["with", *others]:
            return bool(set(others) & set(statements))
        case _:
            return False


def _is_trace_of_sensitiser(part: Part) -> bool:
    """EUH208: from a tenth of the limit up to the limit (Table 3.4.6)."""
    for name, _, generic in _rules():
        for hazard in part.of_class(name) if name in _SENSITISERS else ():
            specific = part.limit(hazard.statement)
            limit = generic if specific is None else specific
            if limit / 10 <= part.counted(hazard) < limit:
                return True
    return False


@lru_cache(maxsize=1)
def _rules() -> tuple[tuple[str, HazardClass | None, Decimal], ...]:
    """Class, the result where it is another class, and the generic limit."""
    return tuple(
        (
            row.text("class"),
            parse_class(row.text("gives")) if "gives" in row else None,
            Decimal(row.text("limit")),
        )
        for row in read_table("mixtures").rows("alone")
    )
