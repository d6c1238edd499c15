"""The elements and their standard atomic weights.

The weights are IUPAC's abridged ones, to which a school's answers are worked;
`edition` names the table. An element that has none (technetium, polonium …)
counts with the mass number of its longest-lived isotope.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from manualgen.chemistry._tables import read_rows, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Element:
    """One row of the periodic table; ``weight`` has no unit."""

    symbol: str
    name: str
    atomic_number: int
    weight: Decimal
    uncertainty: Decimal | None
    """None where ``weight`` is but the mass number of the longest-lived isotope."""


@cache
def elements() -> Mapping[str, Element]:
    """All 118 elements by symbol, in the order of their atomic numbers."""
    rows = (_element(row) for row in read_rows("elements", "elements"))
    return MappingProxyType({element.symbol: element for element in rows})


@cache
def edition() -> str:
    """The edition of the table of atomic weights, as a page should name it."""
    return str(read_table("elements")["edition"])


@cache
def atomic_weights() -> Mapping[str, Decimal]:
    """The abridged standard atomic weight of each element, by symbol."""
    return MappingProxyType({s: e.weight for s, e in elements().items()})


def _element(row: dict[str, str]) -> Element:
    uncertainty = row.get("uncertainty")
    return Element(
        symbol=row["symbol"],
        name=row["name"],
        atomic_number=int(row["Z"]),
        weight=Decimal(row.get("weight") or row["mass_number"]),
        uncertainty=None if uncertainty is None else Decimal(uncertainty),
    )
