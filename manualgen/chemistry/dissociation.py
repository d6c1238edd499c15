"""What a species is in water: ions, where it is a strong electrolyte in solution.

Strong acids, soluble salts and soluble bases dissociate; weak acids and bases,
solids, liquids and gases stay whole. An insoluble salt that is called ``(aq)``
is taken for the solid that it is.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Literal, TypeAlias

from manualgen.chemistry.compounds import compound_of
from manualgen.chemistry.equation import Term
from manualgen.chemistry.formula import Atom, Formula
from manualgen.chemistry.ions import acids
from manualgen.chemistry.solubility import dissolves_whole, solubility_of
from manualgen.chemistry.splitting import is_complex, is_water, split_ions

if TYPE_CHECKING:
    from manualgen.chemistry.splitting import Split

Strength: TypeAlias = Literal["strong", "weak", "none"]
"""Of an electrolyte."""

WATER = Formula((Atom("H", 2), Atom("O")))


def dissociated(term: Term) -> tuple[Term, ...]:
    """A term as it is in water: its ions with their numbers, or itself.

    >>> from manualgen.chemistry.equation_text import parse_term
    >>> [str(each) for each in dissociated(parse_term("2 AgNO3(aq)"))]
    ['2 Ag^+(aq)', '2 NO3^-(aq)']
    """
    formula = term.formula
    if term.state != "aq" or formula.charge:
        return (term,)
    if _is_precipitate(formula):
        return (Term(term.coefficient, formula, "s"),)
    if electrolyte(formula) != "strong" or formula.unknown:
        return (term,)
    apart = sorted(split_ions(formula), key=lambda each: each[0].charge < 0)
    found = [Term(term.amount * n, ion.formula, "aq") for ion, n in apart]
    return tuple(_plain(each) for each in found) + _water_of(term)


def electrolyte(formula: Formula) -> Strength | None:
    """How far a substance falls apart into ions in water.

    ``strong`` for strong acids and all salts and bases that dissolve, ``weak``
    for other acids and bases, ``none`` for molecules; None where the tables do
    not tell, or nothing dissolves.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> electrolyte(parse_formula("CH3COOH"))
    'weak'
    """
    split = split_ions(formula)
    if not split or formula.charge:
        compound = compound_of(formula)
        return compound.electrolyte if compound else None
    positive = [ion for ion, _ in split if ion.charge > 0]
    if all(str(ion.formula) == "H^+" for ion in positive):
        return "strong" if _is_strong_acid(formula, split) else "weak"
    if _is_precipitate(formula) or any(not ion.in_water for ion in positive):
        return None
    return "none" if dissolves_whole(formula) else "strong"


def _is_strong_acid(formula: Formula, split: Split) -> bool:
    """Whether an acid is wholly ionised; that of a complex ion is taken to be."""
    if any(is_complex(ion.formula) for ion, _ in split):
        return True
    return any(a.is_strong and a.formula.atoms == formula.atoms for a in acids())


def _is_precipitate(formula: Formula) -> bool:
    found = solubility_of(formula)
    return found is not None and found.state == "s" and not found.borderline


def _water_of(term: Term) -> tuple[Term, ...]:
    """The water of crystallisation of a hydrate that is called dissolved."""
    numbers = [a.count for a in term.formula.adducts if is_water(a)]
    total = sum((Fraction(n) for n in numbers if not isinstance(n, str)), Fraction(0))
    return (_plain(Term(term.amount * total, WATER, "l")),) if total else ()


def _plain(term: Term) -> Term:
    """A coefficient of one is not written."""
    return term.times(term.amount)
