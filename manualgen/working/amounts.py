"""Amounts of substance: from what is listed or handled to moles."""

from __future__ import annotations

from fractions import Fraction

from manualgen.chemistry import ChemistryError, molar_mass
from manualgen.knowledge import Chemical, StrengthError, grams_per_litre, percent_ww
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import kind_of
from manualgen.working.handling import Handling
from manualgen.working.listed import Resolved
from manualgen.working.materials import Materials


def moles_in(
    amount: Quantity, chemical: Chemical, strength: Quantity | str | None
) -> Fraction | None:
    """The amount of substance in a mass or a volume, in mol; None where it cannot be told.

    A mass is of the form that was named, water of crystallisation included.
    """
    if chemical.formula is None:
        return None
    try:
        molar = Fraction(molar_mass(chemical.formula))
    except ChemistryError:
        return None
    value = amount.si_value
    match kind_of(amount.unit):
        case "mass":
            return value * 1000 / molar if strength is None else None
        case "volume":
            return _in_volume(value * 1000, chemical, strength, molar)
        case _:
            return None


def issued_moles(entry: Resolved) -> Fraction | None:
    """The amount of substance that each group is given."""
    if entry.chemical is None or entry.listed.amount is None:
        return None
    return moles_in(entry.listed.amount.value, entry.chemical, entry.strength)


def used_moles(
    materials: Materials, entry: int, *, largest: bool = False
) -> Fraction | None:
    """The amount of substance that the steps use, in mol; else what is listed.

    ``largest`` takes the largest single amount, as one filling of a gas syringe
    does. None where a step leaves the amount to the student, and where nothing
    is said of it.
    """
    resolved = materials.lineup.entries[entry]
    handled = materials.handled(entry)
    if not handled:
        return issued_moles(resolved)
    if any(h.open_ended for h in handled):
        return None
    moles = [_handled_moles(h, resolved, largest=largest) for h in handled]
    known = [n for n in moles if n is not None]
    if len(known) != len(moles):
        return None
    return max(known) if largest else sum(known, Fraction(0))


def _handled_moles(
    handling: Handling, entry: Resolved, *, largest: bool
) -> Fraction | None:
    if entry.chemical is None:
        return None
    moles = moles_in(handling.amount, entry.chemical, entry.strength)
    return moles if moles is None or largest else moles * handling.times


def _in_volume(
    litres: Fraction,
    chemical: Chemical,
    strength: Quantity | str | None,
    molar: Fraction,
) -> Fraction | None:
    if isinstance(strength, Quantity) and kind_of(strength.unit) == (
        "amount concentration"
    ):
        return strength.si_value / 1000 * litres
    if strength is None:
        density = chemical.density
        return None if density is None else Fraction(density) * 1000 * litres / molar
    try:
        percent = percent_ww(chemical, strength)
    except StrengthError:
        return None
    if percent is None or chemical.basis != chemical.formula:
        return None
    return Fraction(grams_per_litre(chemical, percent)) * litres / molar
