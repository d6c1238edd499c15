"""States that the solubility rules contradict.

An insoluble salt is not ``(aq)``; a soluble one does not come out of its
solution as ``(s)``. Nothing is said of crystallising and salting out (the salt
or its ions alone on the left), of a hydrate formed, of salts on the border
(`solubility`), or of reactions in which nothing is dissolved.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from manualgen.chemistry.compounds import composition
from manualgen.chemistry.dissociation import WATER
from manualgen.chemistry.formula import Atom, Formula
from manualgen.chemistry.ions import cations
from manualgen.chemistry.solubility import solubility_of
from manualgen.chemistry.splitting import known_ions

if TYPE_CHECKING:
    from collections.abc import Iterator

    from manualgen.chemistry.equation import Equation, State, Term


@dataclass(frozen=True, slots=True)
class WrongState:
    """A species whose state cannot be right, the right one, and why."""

    term: Term
    state: State
    why: str


def wrong_states(equation: Equation) -> tuple[WrongState, ...]:
    """The states of an equation that contradict what dissolves, in its order.

    >>> from manualgen.chemistry.equation_text import parse_equation
    >>> text = "BaCl2(aq) + Na2SO4(aq) -> BaSO4(aq) + 2 NaCl(aq)"
    >>> [w.term.species for w in wrong_states(parse_equation(text))]
    ['BaSO4(aq)']
    """
    return tuple(_found(equation))


def _found(equation: Equation) -> Iterator[WrongState]:
    for term in equation.terms:
        if term.state == "aq" and (wrong := _not_dissolved(term)):
            yield wrong
    for term in equation.products:
        if term.state == "s" and _is_dissolved(term, equation):
            yield WrongState(term, "aq", f"{term.formula} stays in solution")


def _not_dissolved(term: Term) -> WrongState | None:
    formula = term.formula
    if formula == WATER:
        return WrongState(term, "l", "water is what the others are dissolved in")
    if _is_metal(formula):
        return WrongState(term, "s", "a metal does not dissolve in water as such")
    found = solubility_of(formula)
    if found and found.state == "s" and not found.borderline:
        return WrongState(term, "s", f"{formula} is insoluble in water")
    return None


def _is_metal(formula: Formula) -> bool:
    """Whether this is a metal that stands by itself; mercury is left alone."""
    match formula.parts, formula.charge, formula.adducts:
        case (Atom(symbol, 1),), 0, ():
            return symbol != "Hg" and any(
                ion.is_monatomic and ion.symbol == symbol != "H" for ion in cations()
            )
        case _:
            return False


def _is_dissolved(term: Term, equation: Equation) -> bool:
    """Whether a solid product is a soluble salt that a solution would keep."""
    found = solubility_of(term.formula)
    if found is None or found.state == "s" or found.borderline or term.formula.adducts:
        return False
    solutes = [t.formula for t in equation.reactants if t.state == "aq"]
    return bool(solutes) and not _crystallises(term.formula, solutes)


def _crystallises(salt: Formula, solutes: list[Formula]) -> bool:
    """Whether the salt itself, or nothing but its ions, is what was dissolved."""
    if any(composition(solute) == composition(salt) for solute in solutes):
        return True
    own = known_ions(salt)
    return all(solute in own for solute in solutes)
