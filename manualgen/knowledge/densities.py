"""Densities of aqueous solutions, by linear interpolation in the table."""

from __future__ import annotations

from bisect import bisect_left
from decimal import Decimal
from functools import lru_cache
from typing import TypeAlias

from manualgen.chemistry import Formula, parse_formula
from manualgen.knowledge.tables import read_table

Points: TypeAlias = tuple[tuple[Decimal, Decimal], ...]


def density_points(species: Formula) -> Points | None:
    """Mass fraction in per cent and density in g/cm³ at 20 °C, from water on.

    None where the table has no solutions of the species; water of
    crystallisation makes no difference to it.
    """
    return _tables().get(str(species.anhydrous))


def density_at(points: Points, percent: Decimal) -> Decimal:
    """The density at a mass fraction; past the last point the line goes straight on."""
    percents = [p for p, _ in points]
    right = min(max(bisect_left(percents, percent), 1), len(points) - 1)
    (p1, d1), (p2, d2) = points[right - 1], points[right]
    return d1 + (d2 - d1) * (percent - p1) / (p2 - p1)


@lru_cache(maxsize=1)
def _tables() -> dict[str, Points]:
    table = read_table("densities")
    water = (Decimal(0), Decimal(table.text("water")))
    found: dict[str, Points] = {}
    for row in table.rows("solutions"):
        points = tuple((Decimal(p), d) for p, d in row.numbers("points"))
        found[str(parse_formula(row.text("of")))] = (water, *points)
    return found
