"""An ion written with the wrong charge, found by what would balance.

``Ba^2+ + SO4^- -> BaSO4`` can be balanced by no coefficients; with the sulfate
that the table knows it is balanced as it stands, and that is what was meant.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from manualgen.chemistry.conservation import is_balanced
from manualgen.chemistry.equation import Equation
from manualgen.chemistry.ions import ion_of, ions
from manualgen.chemistry.matrix import as_equation, columns_of, only_reaction
from manualgen.chemistry.splitting import split_ions
from manualgen.chemistry.usual_states import usual_state

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from manualgen.chemistry.equation import Term
    from manualgen.chemistry.formula import Formula


def with_known_ion(equation: Equation) -> Equation | None:
    """The equation with one species exchanged for what it was meant to be, balanced.

    An ion that the table lacks (Zn^+, SO4^-) becomes a known one of the same
    make-up, or the neutral compound.
    """
    unknown = [t for t in equation.terms if t.formula.charge and not ion_of(t.formula)]
    return _only(_as_written(equation, unknown)) or _only(
        _rebalanced(equation, unknown)
    )


def with_another_charge(equation: Equation) -> Equation | None:
    """As `with_known_ion`, and else any species with the charge of a known ion.

    ``Ag + Cl^- -> AgCl`` was meant to have Ag^+. The coefficients must then be
    right as they are written.
    """
    return with_known_ion(equation) or _only(_as_written(equation, equation.terms))


def _only(found: Iterator[Equation]) -> Equation | None:
    different = tuple(dict.fromkeys(found))
    return different[0] if len(different) == 1 else None


def _as_written(equation: Equation, suspects: Iterable[Term]) -> Iterator[Equation]:
    return filter(is_balanced, _exchanged(equation, suspects))


def _rebalanced(equation: Equation, suspects: Iterable[Term]) -> Iterator[Equation]:
    for exchanged in _exchanged(equation, suspects):
        columns = columns_of(exchanged)
        if vector := only_reaction(columns):
            yield as_equation(columns, vector, exchanged.arrow)


def _exchanged(equation: Equation, suspects: Iterable[Term]) -> Iterator[Equation]:
    for term in suspects:
        for formula in _of_same_make_up(term.formula):
            yield Equation(
                _replaced(equation.reactants, term, formula),
                _replaced(equation.products, term, formula),
                equation.arrow,
            )


def _of_same_make_up(formula: Formula) -> Iterator[Formula]:
    for ion in ions().values():
        if formula.parts in ion.writings and ion.charge != formula.charge:
            yield replace(formula, charge=ion.charge)
    neutral = replace(formula, charge=0)
    if formula.charge and split_ions(neutral):
        yield neutral


def _replaced(side: tuple[Term, ...], term: Term, formula: Formula) -> tuple[Term, ...]:
    """A side with another formula in a term, and the state that goes with it."""
    state = term.state and (usual_state(formula, in_water=True) or term.state)
    new = replace(term, formula=formula, state=state)
    return tuple(new if t is term else t for t in side)
