"""Whether the equations of an experiment bear out what its text claims.

A claim is contradicted only where an equation has the substance and plainly
does something else with it, and no other equation of the experiment bears the
claim out. What happens in air or on standing, and what involves a substance
that no equation has, is another reaction and no business of theirs.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from manualgen.checks.claims import Claim, Fate
from manualgen.chemistry import (
    Change,
    Equation,
    Formula,
    known_ions,
    oxidation_numbers,
    parse_formula,
    redox,
    signed,
)
from manualgen.chemistry.compounds import composition

_OF_ACIDS_AND_BASES = tuple(map(parse_formula, ("H^+", "H3O^+", "OH^-", "NH4^+")))


@dataclass(frozen=True, slots=True)
class Bearing:
    """An equation with a substance in it, and what happens to that substance."""

    equation: Equation
    substance: Formula
    changes: tuple[Change, ...]

    @property
    def fates(self) -> frozenset[Fate]:
        """What the equation does to it, in either direction where it has two."""
        if self.changes and self.equation.arrow == "<=>":
            return frozenset(("oxidised", "reduced"))
        kinds: Iterator[Fate] = (
            "oxidised" if change.is_oxidation else "reduced" for change in self.changes
        )
        return frozenset(kinds)

    @property
    def is_literal(self) -> bool:
        """Whether the substance itself is a reactant, not an element inside one."""
        return _is_among(self.substance, self.equation)


def contradiction(claim: Claim, equations: Sequence[Equation]) -> Bearing | None:
    """The equation that says something else of a substance; None where none does.

    The equations are balanced.
    """
    bearing = tuple(_bearing(claim, equations))
    if "displaced" in claim.fates:
        return _where_nothing_is_displaced(bearing)
    if any(claim.fates <= each.fates for each in bearing):
        return None
    about = [each for each in bearing if _is_about(claim, each)]
    opposed = [e for e in about if e.changes and (e.is_literal or not claim.is_general)]
    unchanged = [e for e in about if not e.changes and not claim.is_general]
    return next(iter((*opposed, *unchanged)), None)


def in_words(claim: Claim, bearing: Bearing) -> str:
    """What an equation does in place of a claim: ``in EQUATION Zn goes from 0 to +2``."""
    if "displaced" in claim.fates:
        return f"in {bearing.equation} ions only change partners; nothing is displaced"
    if not bearing.changes:
        return (
            f"no oxidation number of {bearing.substance} changes in {bearing.equation}"
        )
    change = bearing.changes[0]
    numbers = f"from {signed(change.before)} to {signed(change.after)}"
    return f"in {bearing.equation} {change.symbol} goes {numbers}"


def _bearing(claim: Claim, equations: Iterable[Equation]) -> Iterator[Bearing]:
    for equation in equations:
        reacting = [s for s in claim.meanings if _takes_part(s, equation)]
        if reacting and (found := redox(equation)).is_certain:
            for substance in reacting:
                changes = (c for c in found.changes if _is_of(c, substance))
                yield Bearing(equation, substance, tuple(changes))


def _takes_part(substance: Formula, equation: Equation) -> bool:
    """Whether it is a reactant, or an ion or an element of one."""
    if _is_among(substance, equation):
        return True
    symbol = _element(substance)
    return symbol is not None and any(
        symbol in term.formula.atoms for term in equation.reactants
    )


def _is_among(substance: Formula, equation: Equation) -> bool:
    """Whether it is a reactant, or an ion of one."""
    return any(
        composition(term.formula) == composition(substance)
        or substance in known_ions(term.formula)
        for term in equation.reactants
    )


def _is_of(change: Change, substance: Formula) -> bool:
    """Whether a change happens to a substance, to an ion in a compound, to an element."""
    if composition(change.reactant) == composition(substance):
        return True
    if change.symbol == _element(substance):
        return True
    number = oxidation_numbers(substance).averages.get(change.symbol)
    return substance in known_ions(change.reactant) and number == change.before


def _element(substance: Formula) -> str | None:
    """The symbol of an uncombined element."""
    atoms = tuple(substance.atoms)
    return atoms[0] if len(atoms) == 1 and not substance.charge else None


def _is_about(claim: Claim, bearing: Bearing) -> bool:
    """Whether an equation has what the claim says the substance is changed by or to."""
    present = {composition(term.formula) for term in bearing.equation.terms}
    ions = {i for term in bearing.equation.terms for i in known_ions(term.formula)}
    return all(
        any(composition(meaning) in present or meaning in ions for meaning in meanings)
        for meanings in claim.beside
    )


def _where_nothing_is_displaced(bearing: tuple[Bearing, ...]) -> Bearing | None:
    """A double decomposition: ions change partners, and nothing drives anything out.

    A stronger acid or base may be said to displace a weaker one.
    """
    if any(each.changes or _has_acid_or_base(each.equation) for each in bearing):
        return None
    return next((e for e in bearing if _is_of_salts(e.equation)), None)


def _has_acid_or_base(equation: Equation) -> bool:
    ions = (ion for term in equation.reactants for ion in known_ions(term.formula))
    return any(ion in _OF_ACIDS_AND_BASES for ion in ions)


def _is_of_salts(equation: Equation) -> bool:
    return all(known_ions(term.formula) for term in equation.reactants)
