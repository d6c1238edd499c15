"""The state in which a species usually stands in an equation.

For suggestions only: a table cannot know whether a salt was weighed out or
dissolved.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from manualgen.chemistry.compounds import compound_of
from manualgen.chemistry.elements import elements
from manualgen.chemistry.formula import Atom, Formula
from manualgen.chemistry.medium import HYDROGEN_ION, WATER
from manualgen.chemistry.oxidation_table import nonmetals
from manualgen.chemistry.solubility import solubility_of
from manualgen.chemistry.splitting import known_ions

if TYPE_CHECKING:
    from manualgen.chemistry.equation import State


def usual_state(formula: Formula, *, in_water: bool) -> State | None:
    """The state at room temperature; None where it might well be another.

    Where ``in_water`` says that something in the equation is dissolved, soluble
    salts and acids are taken to be dissolved too.
    """
    if formula == WATER:
        return "l"
    if formula.charge:
        return "aq"
    if _is_metal(formula):
        return "s"
    if HYDROGEN_ION in known_ions(formula):
        return "aq" if in_water else None
    if solubility := solubility_of(formula):
        return (
            "aq" if solubility.state == "aq" and in_water else _solid(solubility.state)
        )
    compound = compound_of(formula)
    return compound.state if compound else None


def _solid(state: State) -> State | None:
    return "s" if state == "s" else None


def _is_metal(formula: Formula) -> bool:
    match formula.parts:
        case (Atom(symbol, 1),):
            is_solid = symbol not in nonmetals() and symbol != "Hg"
            return is_solid and symbol in elements() and not formula.adducts
        case _:
            return False
