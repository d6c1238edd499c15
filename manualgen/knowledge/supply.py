"""What the store's words ``supplied:`` mean.

``pellets, purity 98 %, pack 500 g``, a hydrate's formula, ``2.00 mol/dm3``, or
``37 % w/w, 1.18 g/cm3``: the parts are told apart by what they measure.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from manualgen.chemistry import ChemistryError, Formula, parse_formula
from manualgen.quantities import Quantity, QuantityError, parse_quantity

_STRENGTHS: Final = ("% w/w", "% w/v", "% v/v", "vol", "ppm")


@dataclass(frozen=True, slots=True)
class Supply:
    """The form in which the store keeps a chemical."""

    words: str
    """As the store writes it."""
    formula: Formula | None = None
    """The hydrate, where the words hold a formula."""
    strength: Quantity | None = None
    density: Quantity | None = None
    purity: Quantity | None = None
    pack: Quantity | None = None


def parse_supply(words: str) -> Supply:
    """What the store keeps; parts that say nothing measurable stay words.

    >>> str(parse_supply("crystals, CuSO4·5H2O, pack 500 g").formula)
    'CuSO4·5H2O'
    """
    supply = Supply(words)
    for part in words.split(", "):
        supply = _with_part(supply, part.strip())
    return supply


def _with_part(supply: Supply, part: str) -> Supply:
    if part.startswith("purity "):
        return replace(supply, purity=_quantity(part.removeprefix("purity ")))
    if part.startswith("pack "):
        return replace(supply, pack=_quantity(part.removeprefix("pack ")))
    quantity = _quantity(part)
    if quantity is None:
        return replace(supply, formula=supply.formula or _hydrate(part))
    if _is_density(quantity, supply):
        return replace(supply, density=quantity)
    return replace(supply, strength=quantity)


def _is_density(quantity: Quantity, supply: Supply) -> bool:
    """A second g/cm³ beside a strength is the density of the stock."""
    of_mass = quantity.dimension.stated() == {"length": -3, "mass": 1}
    return of_mass and quantity.unit.symbol not in _STRENGTHS and bool(supply.strength)


def _quantity(text: str) -> Quantity | None:
    try:
        return parse_quantity(text)
    except QuantityError:
        return None


def _hydrate(text: str) -> Formula | None:
    """A formula, which one word in small letters never is."""
    if not any(c.isupper() for c in text) or " " in text:
        return None
    try:
        return parse_formula(text)
    except ChemistryError:
        return None
