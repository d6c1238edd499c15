"""The half-equations of a redox equation.

A half-equation is written with the ions that really change: Cu^2+ of copper(II)
sulfate, MnO4^- of its potassium salt, Mg^2+ of magnesium oxide. Water and its
ions come from the medium, which is basic where the equation shows hydroxide.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from manualgen.chemistry.equation import Equation, Term
from manualgen.chemistry.formula import Atom, Formula
from manualgen.chemistry.half_equations import half_reaction
from manualgen.chemistry.matrix import as_equation
from manualgen.chemistry.medium import (
    HYDROGEN_ION,
    HYDROXIDE,
    WATER,
    states_are_given,
)
from manualgen.chemistry.oxidation import oxidation_numbers
from manualgen.chemistry.redox import redox
from manualgen.chemistry.splitting import known_ions, split_ions

if TYPE_CHECKING:
    from fractions import Fraction

    from manualgen.chemistry.equation import State
    from manualgen.chemistry.medium import Medium
    from manualgen.chemistry.redox import Change

_OXIDE: Final = Formula((Atom("O"),), -2)
_HIGHEST_IN_WATER: Final = 3
"""The largest charge of a simple cation that a half-equation shows."""

_BOUND: Final = {"H": 1, "O": -2}
"""Hydrogen and oxygen as water has them."""


def redox_halves(equation: Equation) -> tuple[Equation, ...]:
    """The oxidation and the reduction of a balanced equation, in that order.

    None where nothing is oxidised, where the equation has electrons itself, or
    where a half cannot be told.

    >>> from manualgen.chemistry.equation_text import parse_equation
    >>> text = "Zn(s) + CuSO4(aq) -> ZnSO4(aq) + Cu(s)"
    >>> [str(half) for half in redox_halves(parse_equation(text))]
    ['Zn(s) -> Zn^2+(aq) + 2 e^-', 'Cu^2+(aq) + 2 e^- -> Cu(s)']
    """
    if any(term.formula.is_electron for term in equation.terms):
        return ()
    changes = redox(equation).changes
    halves = [
        _half(equation, [c for c in changes if c.is_oxidation == oxidation])
        for oxidation in (True, False)
    ]
    return tuple(half for half in halves if half) if all(halves) else ()


def _half(equation: Equation, changes: list[Change]) -> Equation | None:
    """One half, balanced with its electrons; None if it does not come out."""
    if not changes:
        return None
    medium = _medium(equation)
    left, right = _terms(equation, medium, changes)
    skeleton = Equation(tuple(dict.fromkeys(left)), tuple(dict.fromkeys(right)))
    found = half_reaction(skeleton, medium)
    return found and as_equation(*found, "->")


def _medium(equation: Equation) -> Medium:
    """Basic where hydroxide takes part, by itself or in a compound; else acid."""
    species = [t.formula for t in equation.terms]
    ions = {ion for formula in species for ion in (formula, *known_ions(formula))}
    return "base" if HYDROXIDE in ions and HYDROGEN_ION not in ions else "acid"


def _terms(
    equation: Equation, medium: Medium, changes: list[Change]
) -> list[list[Term]]:
    """The changing species of both sides, without states if one of them has none."""
    sides = [
        [_form(equation, medium, c.reactant, c.symbol, c.before) for c in changes],
        [_form(equation, medium, c.product, c.symbol, c.after) for c in changes],
    ]
    if all(term.state for side in sides for term in side):
        return sides
    return [[Term(None, term.formula) for term in side] for side in sides]


def _form(
    equation: Equation, medium: Medium, formula: Formula, symbol: str, number: Fraction
) -> Term:
    """The species in which an element really is: the compound, or an ion of it."""
    state = next((t.state for t in equation.terms if t.formula == formula), None)
    if _BOUND.get(symbol) == number:
        return _bound(equation, medium, formula, symbol)
    ion = _ion_of(formula, symbol, number)
    if ion is None:
        return Term(None, formula, state)
    return Term(None, ion, state if state == "aq" else None)


def _bound(equation: Equation, medium: Medium, formula: Formula, symbol: str) -> Term:
    """Hydrogen or oxygen in the form that the medium gives it."""
    if symbol == "O" and _OXIDE in known_ions(formula) and _is_dry(equation):
        return Term(None, _OXIDE)
    has_states = states_are_given(equation)
    in_base = HYDROXIDE if symbol == "O" else WATER
    in_acid = WATER if symbol == "O" else HYDROGEN_ION
    species = in_base if medium == "base" else in_acid
    state: State = "l" if species == WATER else "aq"
    return Term(None, species, state if has_states else None)


def _is_dry(equation: Equation) -> bool:
    """Whether no species has hydrogen, and so none can be water."""
    return all("H" not in term.formula.atoms for term in equation.terms)


def _ion_of(formula: Formula, symbol: str, number: Fraction) -> Formula | None:
    """The ion of a salt, a base or a strong acid that holds an element at a number.

    None for a weak acid, and for an ion that is but a way of counting, as the
    Pb^4+ of PbO2.
    """
    ions = [ion for ion, _ in split_ions(formula)]
    is_acid = any(ion.formula == HYDROGEN_ION for ion in ions)
    if is_acid and not all(ion.acid.is_strong for ion in ions if ion.acid):
        return None
    for ion in ions:
        is_real = ion.in_water and ion.charge <= _HIGHEST_IN_WATER
        if is_real and oxidation_numbers(ion.formula).averages.get(symbol) == number:
            return ion.formula
    return None
