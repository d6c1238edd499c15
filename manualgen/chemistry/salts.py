"""A salt's formula from its ions: as many of each as bring the charges to nothing."""

from __future__ import annotations

from math import lcm
from typing import TYPE_CHECKING

from manualgen.chemistry.formula import Atom, Formula, Group

if TYPE_CHECKING:
    from manualgen.chemistry.formula import Part
    from manualgen.chemistry.ions import Ion


def salt(cation: Ion, anion: Ion) -> Formula | None:
    """The formula of the salt, or None where the two are not known to make one.

    Protons give the acid: hydrogen and sulfate make H2SO4.
    """
    if str(cation.formula) == "H3O^+":
        return None
    if anion.partners and cation.formula not in anion.partners:
        return None
    if str(cation.formula) == "H^+":
        return anion.acid.formula if anion.acid else None
    return neutral(cation, anion)


def neutral(cation: Ion, anion: Ion) -> Formula:
    """The smallest formula in which the two ions' charges add up to nothing."""
    whole = lcm(cation.charge, anion.charge)
    positive = _several(cation, whole // cation.charge)
    negative = _several(anion, whole // -anion.charge)
    return Formula(negative + positive if anion.leads else positive + negative)


def _several(ion: Ion, count: int) -> tuple[Part, ...]:
    parts = ion.formula.parts
    if count == 1:
        return parts
    match parts:
        case (Atom(symbol, 1),):
            return (Atom(symbol, count),)
        case (Group("[", inside, 1),):
            return (Group("[", inside, count),)
        case _:
            return (Group("(", parts, count),)
