"""What an equation conserves: atoms of every element, and charge.

Counts are exact. Where a formula holds an unknown number, an equation conserves
only if it does so whatever the number; both sides are at most quadratic in it,
so that three trials decide.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import gcd, lcm
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from manualgen.chemistry.equation import Equation, Term
    from manualgen.chemistry.formula import Count

TRIALS = (1, 2, 3)
"""Numbers to put for an unknown one: two expressions of second degree that agree at three agree."""


@dataclass(frozen=True, slots=True)
class Uneven:
    """An element of which the two sides of an equation have different numbers of atoms."""

    symbol: str
    left: Count
    right: Count

    def __str__(self) -> str:
        return f"{self.symbol} {self.left} to {self.right}"


def count_atoms(terms: Iterable[Term]) -> dict[str, Count]:
    """The atoms on one side, by symbol, in the order in which they come."""
    total: dict[str, Count] = {}
    for term in terms:
        times: Count = 1 if term.coefficient is None else term.coefficient
        for symbol, count in term.formula.atoms.items():
            total[symbol] = total.get(symbol, 0) + times * count
    return total


def total_charge(terms: Iterable[Term]) -> Count:
    """The charge on one side, in elementary charges."""
    return sum(
        term.amount * term.formula.charge for term in terms if term.formula.charge
    )


def signed_charge(charge: Count) -> str:
    """A charge in words: ``2+``, ``1-``, ``0``."""
    sign = "+" if charge > 0 else "-"
    return f"{abs(charge)}{sign}" if charge else "0"


def uneven_elements(equation: Equation) -> tuple[Uneven, ...]:
    """The elements that do not balance, in the order in which they come."""
    for trial in trials(equation):
        left, right = count_atoms(trial.reactants), count_atoms(trial.products)
        uneven = tuple(
            Uneven(symbol, left.get(symbol, 0), right.get(symbol, 0))
            for symbol in left | right
            if left.get(symbol, 0) != right.get(symbol, 0)
        )
        if uneven:
            return uneven
    return ()


def is_charge_even(equation: Equation) -> bool:
    """Whether both sides carry the same charge."""
    return all(
        total_charge(trial.reactants) == total_charge(trial.products)
        for trial in trials(equation)
    )


def is_balanced(equation: Equation) -> bool:
    """Whether the equation as it stands conserves every element and charge."""
    return not uneven_elements(equation) and is_charge_even(equation)


def is_lowest_terms(equation: Equation) -> bool:
    """Whether the coefficients are whole numbers without a common divisor."""
    return _common_factor(equation.terms) == 1


def in_lowest_terms(equation: Equation) -> Equation:
    """The same equation with the smallest whole coefficients."""
    return scaled(equation, 1 / _common_factor(equation.terms))


def scaled(equation: Equation, factor: Fraction) -> Equation:
    """The equation with every coefficient multiplied by ``factor``."""
    return replace(
        equation,
        reactants=tuple(_scaled(term, factor) for term in equation.reactants),
        products=tuple(_scaled(term, factor) for term in equation.products),
    )


def trials(equation: Equation) -> Sequence[Equation]:
    """The equation itself, or with its unknown number replaced by known ones."""
    terms = equation.terms
    if all(t.unknown is None and t.formula.unknown is None for t in terms):
        return (equation,)
    return tuple(with_unknown(equation, number) for number in TRIALS)


def with_unknown(equation: Equation, number: int) -> Equation:
    """The equation with ``number`` in place of its unknown number."""
    return replace(
        equation,
        reactants=tuple(_known(term, number) for term in equation.reactants),
        products=tuple(_known(term, number) for term in equation.products),
    )


def _known(term: Term, number: int) -> Term:
    amount = term.amount + (term.unknown.times * number if term.unknown else 0)
    return replace(term.times(amount), formula=term.formula.with_unknown(number))


def _scaled(term: Term, factor: Fraction) -> Term:
    unknown = term.unknown
    if unknown is not None:
        unknown = replace(unknown, times=unknown.times * factor)
    return replace(term.times(term.amount * factor), unknown=unknown)


def _common_factor(terms: Iterable[Term]) -> Fraction:
    """The largest number of which every coefficient is a whole multiple."""
    numbers = [term.amount for term in terms if term.amount]
    numbers += [term.unknown.times for term in terms if term.unknown]
    denominator = lcm(*(number.denominator for number in numbers))
    return Fraction(
        gcd(*(int(number * denominator) for number in numbers)), denominator
    )
