"""How much of a chemical is in a solution of a strength.

Exact where the strength is in mol/dm³ or g/dm³; a strength in % w/w goes by the
density table, c = 10 ρ w / M, w in per cent and ρ in g/cm³.
"""

from __future__ import annotations

from fractions import Fraction

from manualgen.chemistry import ChemistryError, Formula, molar_mass
from manualgen.knowledge import Chemical, StrengthError, grams_per_litre, percent_ww
from manualgen.preparation.reason import CannotMakeError
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import kind_of


def grams_per_dm3(chemical: Chemical, strength: Quantity) -> Fraction:
    """The mass of the named form of a chemical in 1 dm³, in g.

    Raises `CannotMakeError` where the strength is none that tells it.
    """
    if kind_of(strength.unit) == "mass concentration":
        return _value(strength)
    moles = moles_per_dm3(chemical, strength)
    if moles is not None and chemical.formula is not None:
        return moles * mass_of_mole(chemical.formula)
    return _grams_by_percent(chemical, strength)


def moles_per_dm3(chemical: Chemical, strength: Quantity) -> Fraction | None:
    """The amount of a chemical in 1 dm³, in mol; None where no formula tells it."""
    if kind_of(strength.unit) == "amount concentration":
        return _value(strength) / 1000
    if chemical.formula is None:
        return None
    if kind_of(strength.unit) == "mass concentration":
        return _value(strength) / mass_of_mole(chemical.formula)
    return _grams_by_percent(chemical, strength) / mass_of_mole(
        chemical.basis or chemical.formula
    )


def without_water(chemical: Chemical, grams: Fraction) -> Fraction:
    """The mass of a hydrate less its water of crystallisation."""
    formula = chemical.formula
    if formula is None:
        return grams
    return grams * mass_of_mole(formula.anhydrous) / mass_of_mole(formula)


def mass_of_mole(formula: Formula) -> Fraction:
    """The molar mass, in g/mol."""
    try:
        return Fraction(molar_mass(formula))
    except ChemistryError as error:
        raise CannotMakeError("why_other", said=error) from error


def volume_fraction(strength: Quantity) -> Fraction | None:
    """The part of the volume that a strength in % v/v means, else None."""
    is_volume = kind_of(strength.unit) == "volume fraction"
    return _value(strength) if is_volume else None


def _grams_by_percent(chemical: Chemical, strength: Quantity) -> Fraction:
    """By way of the mass fraction, of the species that its limits count."""
    if kind_of(strength.unit) == "molality":
        raise CannotMakeError("why_molality")
    try:
        percent = percent_ww(chemical, strength)
    except StrengthError as error:
        raise CannotMakeError("why_other", said=error) from error
    if percent is None:
        raise CannotMakeError("why_no_strength", unit=strength.unit)
    return Fraction(grams_per_litre(chemical, percent))


def _value(strength: Quantity) -> Fraction:
    """In SI units; a range counts at its upper end."""
    return strength.si_value if strength.si_upper is None else strength.si_upper
