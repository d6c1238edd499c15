"""Balancing: the one set of smallest whole coefficients, or why there is none.

The coefficients are a vector that the matrix of the equation sends to zero. One
such vector, positive throughout, is the answer; none, or one that would put a
species on the other side, is an impossible equation; several are several
reactions written as one, and to choose between them is chemistry that the
equation does not state.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Literal, TypeAlias

from manualgen.chemistry.conservation import (
    in_lowest_terms,
    is_balanced,
    is_lowest_terms,
    with_unknown,
)
from manualgen.chemistry.equation import Equation, Unknown
from manualgen.chemistry.failure import explain
from manualgen.chemistry.half_equations import by_half_equations, half_reaction
from manualgen.chemistry.matrix import as_equation, only_reaction
from manualgen.chemistry.medium import SOLUTION, fewer_supplies, supplied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from manualgen.chemistry.equation import Term
    from manualgen.chemistry.formula import Formula
    from manualgen.chemistry.medium import Medium

Status: TypeAlias = Literal["balanced", "rebalanced", "impossible", "ambiguous"]

_BY_HALVES = "other reactions fit the species; this has each half-equation once"
_TWO_TRIALS = (101, 103)
"""Primes, so that no coefficient shares a divisor with the unknown by accident."""


@dataclass(frozen=True, slots=True)
class Balance:
    """What balancing an equation came to."""

    status: Status
    """``balanced`` as written, or ``rebalanced``: other coefficients were found."""
    equation: Equation
    """The balanced equation; the given one where there is no single answer."""
    message: str | None = None
    """Why there is no single answer, or what was done to reach it."""
    independent: tuple[Equation, ...] = ()
    """Of an ambiguous equation, the reactions that hide in it."""
    suggestion: Equation | None = None
    """Of an impossible or ambiguous equation, what was probably meant."""


def balance(
    equation: Equation, medium: Medium | None = None, *, half: bool = False
) -> Balance:
    """Balance an equation; in a ``medium`` its ions and water are supplied.

    With a medium, electrons are supplied as well if it cannot do without; where
    ``half`` says that this is a half-equation, they are. States are kept. An equation
    with an unknown number is balanced for every value of it, with no medium.
    """
    if is_balanced(equation):
        return _balanced_as_written(equation)
    if equation.unknown:
        return _balance_with_unknown(equation)
    answers = _answers(equation, medium, half=half)
    if answer := next(filter(None, answers), None):
        return answer
    failure = explain(equation, medium)
    return Balance(
        failure.status,
        equation,
        failure.message,
        failure.independent,
        failure.suggestion,
    )


def _answers(
    equation: Equation, medium: Medium | None, *, half: bool
) -> Iterator[Balance | None]:
    """The ways to an answer, the plainest first; None for one that leads nowhere.

    All that the medium supplies; where that leaves the coefficients open,
    half-equations, then less of it; and only then electrons, unless this is
    known to be a half-equation.
    """
    if half:
        yield _with_electrons(equation, medium)
    yield _with(equation, SOLUTION[medium] if medium else ())
    if medium:
        if by_halves := by_half_equations(equation, medium):
            yield Balance("rebalanced", by_halves, _BY_HALVES)
        yield from (_with(equation, some) for some in fewer_supplies(medium))
        yield _with_electrons(equation, medium)


def _with_electrons(equation: Equation, medium: Medium | None) -> Balance | None:
    if found := half_reaction(equation, medium):
        return Balance("rebalanced", as_equation(*found, equation.arrow))
    return None


def _with(equation: Equation, species: tuple[Formula, ...]) -> Balance | None:
    columns = supplied(equation, species)
    if vector := only_reaction(columns):
        return Balance("rebalanced", as_equation(columns, vector, equation.arrow))
    return None


def _balanced_as_written(equation: Equation) -> Balance:
    if is_lowest_terms(equation):
        return Balance("balanced", equation)
    message = "it balances as written, but not in lowest whole numbers"
    return Balance("rebalanced", in_lowest_terms(equation), message)


def _balance_with_unknown(equation: Equation) -> Balance:
    """Balance for two known numbers and read the general coefficients off them."""
    first, second = (
        balance(with_unknown(equation, number)).equation.terms for number in _TWO_TRIALS
    )
    answer = _through(equation, first, second)
    if is_balanced(answer):
        return Balance("rebalanced", answer)
    message = f"no coefficients balance it for every {equation.unknown}"
    return Balance("impossible", equation, message)


def _through(
    equation: Equation, first: Sequence[Term], second: Sequence[Term]
) -> Equation:
    """The equation whose coefficients are those at the two trials, and linear."""
    low, high = _TWO_TRIALS
    letter = equation.unknown or "x"
    terms: list[Term] = []
    for given, a, b in zip(equation.terms, first, second, strict=True):
        times = (b.amount - a.amount) / (high - low)
        constant = a.amount - times * low
        terms.append(_with_coefficient(given, constant, Unknown(letter, times)))
    count = len(equation.reactants)
    return Equation(tuple(terms[:count]), tuple(terms[count:]), equation.arrow)


def _with_coefficient(term: Term, constant: Fraction, unknown: Unknown) -> Term:
    if not unknown.times:
        return term.times(constant)
    return replace(term, coefficient=constant, unknown=unknown)
