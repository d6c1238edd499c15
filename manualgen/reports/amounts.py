"""Amounts, strengths and hazards as JSON has them."""

from __future__ import annotations

from fractions import Fraction
from typing import TypeAlias

from manualgen.knowledge import Classification
from manualgen.quantities import HouseStyle, Quantity, Units, printed

Measure: TypeAlias = dict[str, object]

_SOLIDUS = HouseStyle(units=Units.SOLIDUS)
_PLACES = 6


def number(value: Fraction) -> int | float:
    """A number to a millionth, whole where it is whole."""
    return int(value) if value.denominator == 1 else round(float(value), _PLACES)


def measure(value: Fraction | None, unit: str) -> Measure | None:
    """A value with its unit; None where there is none."""
    return None if value is None else {"value": number(value), "unit": unit}


def plain(quantity: Quantity) -> str:
    """A quantity with a solidus and ordinary blanks: ``0.100 mol/dm³``."""
    return printed(quantity, _SOLIDUS).replace("\u00a0", " ")


def plain_strength(strength: Quantity | str | None) -> str | None:
    """A strength, in numbers or in a word; None where there is none."""
    return plain(strength) if isinstance(strength, Quantity) else strength


def hazards(found: Classification | None) -> dict[str, object] | None:
    """Label elements, statements as codes; None where nothing is known."""
    if found is None:
        return None
    return {
        "signal_word": found.signal_word,
        "pictograms": list(found.pictograms),
        "statements": [*found.h_statements, *found.euh],
    }
