"""Which element takes another's place in a compound in solution.

A metal displaces those after it in the activity series, and hydrogen from acids
if it stands before hydrogen; a halogen displaces the halogens after it.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

from manualgen.chemistry._tables import read_rows
from manualgen.chemistry.formula_text import parse_formula

if TYPE_CHECKING:
    from manualgen.chemistry.formula import Formula


@dataclass(frozen=True, slots=True)
class Rank:
    """An element of a series and the ion by which it is ranked."""

    symbol: str
    ion: Formula
    potential: Decimal
    """Standard electrode potential at 25 °C, in volts."""


@cache
def metals() -> tuple[Rank, ...]:
    """The metals and hydrogen, the most active first."""
    return tuple(map(_rank, read_rows("activity", "metals")))


@cache
def halogens() -> tuple[Rank, ...]:
    """The halogens, the most active first."""
    return tuple(map(_rank, read_rows("activity", "halogens")))


def displaces(free: str, bound: str) -> bool | None:
    """Whether the free element drives the bound one out of its compound.

    Both by symbol; None where they do not stand in one series.

    >>> displaces("Cu", "Zn")
    False
    """
    for series in (metals(), halogens()):
        order = [rank.symbol for rank in series]
        if free in order and bound in order and free != bound:
            return order.index(free) < order.index(bound)
    return None


def _rank(row: dict[str, str]) -> Rank:
    return Rank(row["symbol"], parse_formula(row["ion"]), Decimal(row["potential"]))
