"""What a unit measures, in words: a volume, an amount concentration, a count.

The dimension tells most of it. Where it does not, since a mass fraction, a
count of drops and the volume strength of hydrogen peroxide are all of dimension
one, the unit's own row in the table does.
"""

from __future__ import annotations

from typing import Final

from manualgen.quantities.dimension import Dimension
from manualgen.quantities.unit_table import unit_table
from manualgen.quantities.unit_text import parse_unit
from manualgen.quantities.units import PURE_NUMBER, Unit, raised

PURE = "pure number"

STRENGTHS = frozenset(
    {
        "amount concentration",
        "mass concentration",
        "molality",
        "fraction",
        "mass fraction",
        "volume fraction",
        "volume strength",
    }
)
"""The kinds that say how strong a solution is."""

AMOUNTS = frozenset({"mass", "volume", "length", "count", PURE})
"""The kinds that say how much of a chemical each group is given."""


def kind_of(unit: Unit) -> str:
    """The name of what a unit measures; for want of one, its base units."""
    match unit.parts:
        case ((named, 1),) if named.kind:
            return named.kind
    if unit.dimension.is_one:
        return PURE
    return unit_table().kinds.get(unit.dimension) or si_symbol(unit.dimension)


def is_named(dimension: Dimension) -> bool:
    """Whether chemistry has a name for what is of a dimension: none for mol/m6."""
    return dimension.is_one or dimension in unit_table().kinds


def a_kind(unit: Unit) -> str:
    """The kind with its article: a volume, an amount concentration."""
    kind = kind_of(unit)
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def is_strength(unit: Unit) -> bool:
    """Whether a solution's strength can be stated in this unit."""
    return kind_of(unit) in STRENGTHS


def is_amount(unit: Unit) -> bool:
    """Whether a chemical can be given out in this unit."""
    return kind_of(unit) in AMOUNTS


_BASE_SYMBOLS = {
    "length": "m",
    "mass": "kg",
    "time": "s",
    "current": "A",
    "temperature": "K",
    "amount": "mol",
    "luminous": "cd",
}


def si_symbol(dimension: Dimension) -> str:
    """The coherent SI unit of a dimension: Pa, mol m⁻³; `1` for a pure number."""
    named = unit_table().si_symbols.get(dimension)
    if named:
        return named
    powers = [
        (_BASE_SYMBOLS[base], power) for base, power in dimension.stated().items()
    ]
    above_first = sorted(powers, key=lambda each: each[1] < 0)
    return " ".join(raised(symbol, power) for symbol, power in above_first) or "1"


def si_unit(dimension: Dimension) -> Unit:
    """The coherent SI unit of a dimension, whatever its powers."""
    named = unit_table().si_symbols.get(dimension)
    if named:
        return parse_unit(named)
    unit = PURE_NUMBER
    for base, power in dimension.stated().items():
        unit *= parse_unit(_BASE_SYMBOLS[base]) ** power
    return unit


NORMALITY: Final = (
    "N is the newton; where it stands for normality, write mol/dm3: the normality, "
    "divided by the charges that one formula unit gives or takes (1 for HCl and NaOH, 2 "
    "for H2SO4)"
)
"""What to do about a strength in the old way, ``0.1 N``."""
