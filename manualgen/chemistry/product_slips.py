"""A product given another substance's formula, found by what would balance.

``Zn + H2SO4 -> ZnSO3 + H2`` cannot be balanced; of the salts that zinc and the
ions of the reactants can make, only the sulfate can stand there. A molecule of
two elements (``CO``) may have been meant to be another of the same two.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from manualgen.chemistry.compounds import compounds
from manualgen.chemistry.formula import Atom, Formula
from manualgen.chemistry.ions import anions, cations
from manualgen.chemistry.matrix import as_equation, columns_of, only_reaction
from manualgen.chemistry.medium import WATER
from manualgen.chemistry.salts import salt
from manualgen.chemistry.splitting import split_ions
from manualgen.chemistry.usual_states import usual_state

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from manualgen.chemistry.equation import Equation, Term
    from manualgen.chemistry.ions import Ion


def with_another_product(equation: Equation) -> Equation | None:
    """The equation with one product exchanged for a likelier one, and balanced.

    None where none comes out, or more than one.
    """
    for likelier in (_salts_like, _molecules_like):
        found = {
            str(balanced): balanced
            for term in equation.products
            for formula in likelier(term.formula, equation.reactants)
            if (balanced := _balanced_with(equation, term, formula))
        }
        if found:
            return next(iter(found.values())) if len(found) == 1 else None
    return None


def _salts_like(formula: Formula, reactants: tuple[Term, ...]) -> Iterator[Formula]:
    """Salts of one of its ions and an ion of the reactants."""
    match split_ions(formula):
        case ((first, _), (second, _)):
            positive, negative = sorted((first, second), key=lambda i: i.charge < 0)
        case _:
            return
    at_hand = tuple(_ions_of(reactants))
    pairs = [(positive, ion) for ion in at_hand if ion in anions()]
    pairs += [(ion, negative) for ion in at_hand if ion in cations()]
    for pair in pairs:
        made = salt(*pair)
        known = (formula, *(term.formula for term in reactants))
        if made is not None and made not in known:
            yield made


def _ions_of(reactants: Iterable[Term]) -> Iterator[Ion]:
    """The ions of the reactants, and those that a metal among them forms."""
    for term in reactants:
        yield from (ion for ion, _ in split_ions(term.formula))
        match term.formula.parts:
            case (Atom(symbol, 1),) if not term.formula.charge:
                yield from (
                    ion
                    for ion in cations()
                    if ion.in_water and ion.is_monatomic and ion.symbol == symbol
                )
            case _:
                pass


def _molecules_like(formula: Formula, _: tuple[Term, ...]) -> Iterator[Formula]:
    """Other molecules of the same two elements."""
    if formula.charge or len(formula.atoms) != 2 or formula == WATER:
        return
    for compound in compounds():
        alike = compound.formula.atoms.keys() == formula.atoms.keys()
        if alike and not compound.is_trade_name and compound.formula != formula:
            yield compound.formula


def _balanced_with(equation: Equation, term: Term, formula: Formula) -> Equation | None:
    in_water = any(each.state == "aq" for each in equation.terms)
    state = term.state and (usual_state(formula, in_water=in_water) or term.state)
    new = replace(term, formula=formula, state=state)
    products = tuple(new if each is term else each for each in equation.products)
    columns = columns_of(replace(equation, products=products))
    vector = only_reaction(columns)
    return as_equation(columns, vector, equation.arrow) if vector else None
