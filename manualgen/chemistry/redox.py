"""What an equation oxidises and reduces, and its two half-equations.

Atoms are compared by element and oxidation number. What stands with the same
number on both sides has not changed; of the rest, a reactant's atoms are
oxidised where a product holds the element at a higher number, reduced where at
a lower one, and both in a disproportionation.

Of carbon in organic molecules only the mean number is known. There the sum over
all carbon decides, so that an esterification is no redox reaction.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import TYPE_CHECKING, TypeAlias

from manualgen.chemistry.formula import Formula
from manualgen.chemistry.oxidation import oxidation_numbers

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from manualgen.chemistry.equation import Equation, Term

Holder: TypeAlias = tuple[Formula, Fraction]
"""A species and the oxidation number that it gives to an element."""

Amounts: TypeAlias = dict[Holder, Fraction]
"""Atoms of one element by what holds them."""


@dataclass(frozen=True, slots=True)
class Change:
    """One element of one reactant that changes its oxidation number."""

    reactant: Formula
    product: Formula
    symbol: str
    before: Fraction
    after: Fraction

    @property
    def is_oxidation(self) -> bool:
        """Whether the number rises."""
        return self.after > self.before


@dataclass(frozen=True, slots=True)
class Redox:
    """What an equation does to oxidation numbers."""

    changes: tuple[Change, ...] = ()
    """None where nothing is oxidised or reduced."""
    is_certain: bool = True
    """False where a species has no oxidation numbers, so that changes may be missing."""

    @property
    def oxidised(self) -> tuple[Formula, ...]:
        """The reactants that are oxidised, as the equation writes them."""
        found = (c.reactant for c in self.changes if c.is_oxidation)
        return tuple(dict.fromkeys(found))

    @property
    def reduced(self) -> tuple[Formula, ...]:
        """The reactants that are reduced, as the equation writes them."""
        found = (c.reactant for c in self.changes if not c.is_oxidation)
        return tuple(dict.fromkeys(found))


def redox(equation: Equation) -> Redox:
    """What a balanced equation oxidises and reduces.

    In a half-equation, which has electrons, only one of the two happens.
    """
    species = [t.formula for t in equation.terms if not t.formula.is_electron]
    symbols = dict.fromkeys(s for formula in species for s in formula.atoms)
    untold = {
        s
        for formula in species
        if not oxidation_numbers(formula).sites
        for s in formula.atoms
    }
    changes = tuple(
        change
        for symbol in symbols
        if symbol not in untold
        for change in _changes(equation, symbol)
    )
    return Redox(changes, is_certain=not untold)


def _changes(equation: Equation, symbol: str) -> Iterator[Change]:
    left = _amounts(equation.reactants, symbol)
    right = _amounts(equation.products, symbol)
    if symbol == "C" and any(_is_organic(f) for f, _ in (*left, *right)):
        yield from _changes_of_the_mean(left, right, symbol)
        return
    _cancel(left, right)
    for reactant, before in left:
        for rising in (True, False):
            reached = [
                (after, formed)
                for formed, after in right
                if after != before and (after > before) == rising
            ]
            if reached:
                after, formed = min(reached, key=lambda r: abs(r[0] - before))
                yield Change(reactant, formed, symbol, before, after)


def _changes_of_the_mean(
    left: Amounts, right: Amounts, symbol: str
) -> Iterator[Change]:
    """The change of carbon as a whole, laid to the reactants that are not spectators."""
    before, after = _sum(left), _sum(right)
    if before == after:
        return
    _cancel(left, right)
    for reactant, number in left:
        formed, reached = max(right, key=lambda key: right[key])
        if (reached > number) == (after > before):
            yield Change(reactant, formed, symbol, number, reached)


def _amounts(terms: Iterable[Term], symbol: str) -> Amounts:
    found: Amounts = {}
    for term in terms:
        for site in oxidation_numbers(term.formula).sites:
            if site.symbol == symbol:
                key = term.formula, site.number
                found[key] = found.get(key, Fraction(0)) + term.amount * site.count
    return found


def _cancel(left: Amounts, right: Amounts) -> None:
    """Take away what has the same number on both sides, one species from itself first."""
    for key in left.keys() & right.keys():
        _take(left, right, key, key)
    for one, other in product(tuple(left), tuple(right)):
        if one[1] == other[1] and one in left and other in right:
            _take(left, right, one, other)


def _take(left: Amounts, right: Amounts, one: Holder, other: Holder) -> None:
    common = min(left[one], right[other])
    for side, key in ((left, one), (right, other)):
        side[key] -= common
        if not side[key]:
            del side[key]


def _sum(side: Amounts) -> Fraction:
    return sum((number * amount for (_, number), amount in side.items()), Fraction(0))


def _is_organic(formula: Formula) -> bool:
    """Whether its carbon atoms differ more than a mean number tells."""
    return "H" in formula.atoms and formula.atoms.get("C", 0) > 1
