"""Acute toxicity of a mixture: 100 / ATE(mix) = sum of w / ATE (CLP Annex I, 3.1.3.6)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Final

from manualgen.knowledge.hazard_class import HazardClass
from manualgen.knowledge.part import Part, Reached
from manualgen.knowledge.tables import read_table

_NAME: Final = "Acute Tox. "
_CUT_OFF: Final = {4: Decimal(1)}
"""Per cent below which an ingredient of a category is left out (Table 1.1)."""
_CUT_OFF_WORSE: Final = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class _Category:
    number: int
    statement: str
    point: Decimal
    up_to: Decimal


def acute_classes(parts: Sequence[Part]) -> Iterator[Reached]:
    """The worst category that the mixture reaches by each route."""
    routes = {
        "oral": ["oral"],
        "dermal": ["dermal"],
        "inhaled": ["gas", "vapour", "dust"],
    }
    for kinds in routes.values():
        reached = [r for kind in kinds if (r := _by_route(parts, kind)) is not None]
        yield from sorted(reached, key=lambda r: r.hazard.name)[:1]


def _by_route(parts: Sequence[Part], route: str) -> Reached | None:
    categories = _routes()[route]
    terms = [term for part in parts if (term := _term(part, route)) is not None]
    specific = [s for part in parts if (s := _specific(part, categories)) is not None]
    if not terms:
        return None
    estimate = 100 / sum((w / ate for w, ate, _ in terms), Decimal(0))
    number = max(_category_of(estimate, categories), min(n for *_, n in terms))
    if specific and min(specific) < number:
        return _reached(categories, min(specific), "specific limit")
    if number > len(categories):
        return None
    return _reached(categories, number, f"ATE of the mixture {estimate:.4g}")


def _term(part: Part, route: str) -> tuple[Decimal, Decimal, int] | None:
    """Per cent, estimate and category of a part that counts by this route."""
    if route in ("gas", "vapour", "dust") and route != part.hazards.inhaled:
        return None
    for category in _routes()[route]:
        for hazard in part.of_class(f"{_NAME}{category.number}", category.statement):
            counted = part.counted(hazard)
            if counted < _CUT_OFF.get(category.number, _CUT_OFF_WORSE):
                return None
            own = dict(part.hazards.estimates).get(route)
            return counted, own or category.point, category.number
    return None


def _specific(part: Part, categories: Sequence[_Category]) -> int | None:
    reached = [
        c.number
        for c in categories
        if (limit := part.limit(c.statement, f"{_NAME}{c.number}")) is not None
        and part.percent >= limit
    ]
    return min(reached, default=None)


def _category_of(estimate: Decimal, categories: Sequence[_Category]) -> int:
    return next(
        (c.number for c in categories if estimate <= c.up_to), len(categories) + 1
    )


def _reached(categories: Sequence[_Category], number: int, why: str) -> Reached:
    category = categories[number - 1]
    return Reached(HazardClass(f"{_NAME}{number}", category.statement), why)


@lru_cache(maxsize=1)
def _routes() -> dict[str, tuple[_Category, ...]]:
    table = read_table("mixtures").row("routes")
    return {
        route: tuple(
            _Category(
                int(row.text("category")),
                row.text("statement"),
                Decimal(row.text("point")),
                Decimal(row.text("up_to")),
            )
            for row in table.rows(route)
        )
        for route in table.cells
    }
