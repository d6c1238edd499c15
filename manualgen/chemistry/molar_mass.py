"""Molar mass and composition by mass."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from manualgen.chemistry.elements import atomic_weights
from manualgen.chemistry.errors import FormulaError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from manualgen.chemistry.formula import Count, Formula


def molar_mass(formula: Formula) -> Decimal:
    """The mass of one mole, in g/mol, unrounded.

    The sum keeps every digit of the standard atomic weights; the worksheet,
    not this function, decides how many to print. The mass of electrons gained
    or lost is far below the weights' uncertainty and is left out.

    Raises `FormulaError` for what has no molar mass: an unknown number, ``R``,
    an indicator.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> molar_mass(parse_formula("MgCl2"))
    Decimal('95.205')
    """
    return sum(_masses(formula).values(), Decimal(0))


def mass_fractions(formula: Formula) -> Mapping[str, Decimal]:
    """Each element's share of the mass, between 0 and 1.

    Raises `FormulaError` as `molar_mass` does.
    """
    masses = _masses(formula)
    whole = sum(masses.values(), Decimal(0))
    return {symbol: mass / whole for symbol, mass in masses.items() if whole}


def _masses(formula: Formula) -> dict[str, Decimal]:
    _expect_definite(formula)
    weights = atomic_weights()
    return {s: _times(n, weights[s]) for s, n in formula.atoms.items()}


def _times(count: Count, weight: Decimal) -> Decimal:
    exact = Fraction(count)
    return weight * exact.numerator / exact.denominator


def _expect_definite(formula: Formula) -> None:
    text = str(formula)
    reason = None
    if formula.unknown:
        reason = f"{formula.unknown} is not known"
    elif formula.is_stand_in:
        reason = "it stands for many substances"
    if reason:
        raise FormulaError(f"{text} has no molar mass: {reason}", 0, len(text))
