"""How a strength is found against a solid standard, so that nothing is left to work out."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from manualgen.chemistry import parse_formula
from manualgen.preparation.concentration import mass_of_mole
from manualgen.preparation.rules import Standard, measures
from manualgen.preparation.sizes import rounded_to
from manualgen.preparation.words import Writer
from manualgen.quantities import Quantity
from manualgen.quantities.figures import rounded_to_figures
from manualgen.quantities.kinds import kind_of

_TITRE = 25
"""The titre that is aimed at, in cm³."""
_LITRE = 1000
_FACTOR_FIGURES = 4
_LEAST = Fraction(1, 5)
"""Less than this, in g, is not weighed to three figures on the finer balance."""


def found_by(standard: Standard, strength: Quantity, writer: Writer) -> Iterator[str]:
    """How the strength follows from the mass of a solid standard and the titre.

    c = 1000 a m / (M V), with a mol of the solute to 1 mol of the standard; nothing
    where too little of it would be weighed for a titre of 25 cm³.
    """
    is_moles = kind_of(strength.unit) == "amount concentration"
    if not (standard.weighed and standard.takes and is_moles):
        return
    molar_mass = mass_of_mole(parse_formula(standard.weighed))
    factor = _LITRE * standard.takes / molar_mass
    grams = strength.si_value / _LITRE * _TITRE / factor
    if grams >= _LEAST:
        finest = measures().finer
        yield writer.say(
            "found_by",
            mass=writer.weight(rounded_to(grams, Fraction(1, 100))),
            reads=writer.mass(finest, finest),
            factor=writer.number(rounded_to_figures(factor, _FACTOR_FIGURES)),
        )
