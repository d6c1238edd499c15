"""An equation as its author wrote it: species with coefficients and states.

A coefficient of one is not written, and is None here. A coefficient may hold
the unknown number of a formula (``MgSO4·xH2O -> MgSO4 + x H2O``): it is then
`Term.coefficient` plus so many times the unknown as `Term.unknown` says.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from manualgen.chemistry.formula import Formula

State: TypeAlias = Literal["s", "l", "g", "aq"]
Arrow: TypeAlias = Literal["->", "<=>"]

_ONE = Fraction(1)
_PRETTY_ARROWS = {"->": "→", "<=>": "⇌"}
VULGAR_FRACTIONS = {
    "½": Fraction(1, 2),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
}


@dataclass(frozen=True, slots=True)
class Unknown:
    """The unknown number in a coefficient: its letter and how many times it is taken."""

    letter: str
    times: Fraction = Fraction(1)


@dataclass(frozen=True, slots=True)
class Term:
    """One species of an equation, with its coefficient and its state.

    ``start`` and ``end`` bound it in the text it was read from, the coefficient
    and the state included; they take no part in comparison.
    """

    coefficient: Fraction | None
    formula: Formula
    state: State | None = None
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)
    unknown: Unknown | None = None

    @property
    def amount(self) -> Fraction:
        """The coefficient as a number, apart from the unknown: 1 if none is written."""
        return _ONE if self.coefficient is None else self.coefficient

    def times(self, amount: Fraction) -> Term:
        """The same species with another coefficient."""
        coefficient = None if amount == 1 else amount
        return Term(coefficient, self.formula, self.state, self.start, self.end)

    @property
    def species(self) -> str:
        """The formula and the state, without the coefficient: ``H2O(l)``."""
        return str(self.formula) + _state(self.state)

    def __str__(self) -> str:
        """The term in the source's writing: ``2 H2O(l)``."""
        return _joined(self._coefficient(pretty=False), self.species)

    @property
    def pretty(self) -> str:
        """The term in Unicode: ``½ O₂(g)``."""
        species = self.formula.pretty + _state(self.state)
        return _joined(self._coefficient(pretty=True), species)

    @property
    def coefficient_text(self) -> str:
        """The coefficient in the source's writing, nothing for one: ``(x+1)``."""
        return self._coefficient(pretty=False)

    def _coefficient(self, *, pretty: bool) -> str:
        number = "" if self.coefficient is None else str(self.coefficient)
        if pretty and self.coefficient is not None:
            number = _mixed_number(self.coefficient)
        if self.unknown is None:
            return number
        times = "" if self.unknown.times == 1 else str(self.unknown.times)
        unknown = f"{times}{self.unknown.letter}"
        return f"({unknown}+{number})" if self.coefficient else unknown


@dataclass(frozen=True, slots=True)
class Equation:
    """Reactants, an arrow, products."""

    reactants: tuple[Term, ...]
    products: tuple[Term, ...]
    arrow: Arrow = "->"

    @property
    def terms(self) -> tuple[Term, ...]:
        """All species, reactants first."""
        return self.reactants + self.products

    @property
    def unknown(self) -> str | None:
        """The letter of the unknown number in a formula, where there is one."""
        return next((t.formula.unknown for t in self.terms if t.formula.unknown), None)

    def __str__(self) -> str:
        """The equation in the source's writing: ``2 H2O(l) -> 2 H2(g) + O2(g)``."""
        left = " + ".join(map(str, self.reactants))
        right = " + ".join(map(str, self.products))
        return f"{left} {self.arrow} {right}"

    @property
    def pretty(self) -> str:
        """The equation in Unicode: ``2 H₂O(l) → 2 H₂(g) + O₂(g)``."""
        left = " + ".join(term.pretty for term in self.reactants)
        right = " + ".join(term.pretty for term in self.products)
        return f"{left} {_PRETTY_ARROWS[self.arrow]} {right}"


def _state(state: State | None) -> str:
    return "" if state is None else f"({state})"


def _joined(coefficient: str, species: str) -> str:
    return f"{coefficient} {species}" if coefficient else species


def _mixed_number(number: Fraction) -> str:
    """A number with its part below one as a single sign where there is one: ``1½``."""
    whole, part = divmod(number, 1)
    for sign, value in VULGAR_FRACTIONS.items():
        if part == value:
            return f"{whole or ''}{sign}"
    return str(number)
