"""From the amounts put in to what comes out: limiting reactant, yield, excess, gas.

Amounts are in mol and exact (`Fraction`, `Decimal`, int); turning masses and
volumes into them is the caller's business.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, TypeAlias

from manualgen.chemistry._tables import read_rows
from manualgen.chemistry.compounds import composition

if TYPE_CHECKING:
    from collections.abc import Mapping

    from manualgen.chemistry.equation import Equation, Term
    from manualgen.chemistry.formula import Formula

Exact: TypeAlias = "Fraction | Decimal | int"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What becomes of the amounts put in, all in mol, each in its equation's order."""

    limiting: tuple[Term, ...]
    """The reactant that runs out first; several where they run out together."""
    extent: Fraction
    """How many times the equation as written takes place."""
    remaining: tuple[tuple[Term, Fraction], ...]
    """Of every reactant whose amount is known, what is left over."""
    formed: tuple[tuple[Term, Fraction], ...]
    """Of every product, the theoretical yield."""

    def left_of(self, formula: Formula) -> Fraction | None:
        """What is left of a reactant; None where its amount is not known."""
        return _found(self.remaining, formula)

    def yield_of(self, formula: Formula) -> Fraction | None:
        """The theoretical yield of a product; None where it is none."""
        return _found(self.formed, formula)


def outcome(equation: Equation, amounts: Mapping[Formula, Exact]) -> Outcome | None:
    """What a balanced equation makes of the ``amounts`` of its reactants.

    A reactant without an amount is taken to be there in plenty, as water or air
    is. None where no amount is given, or one stands twice on the left.
    """
    known = [
        (term, amount)
        for term in equation.reactants
        if (amount := _amount_of(term.formula, amounts)) is not None
    ]
    if not known:
        return None
    extents = [(term, amount / term.amount) for term, amount in known]
    extent = min(each for _, each in extents)
    return Outcome(
        limiting=tuple(term for term, each in extents if each == extent),
        extent=extent,
        remaining=tuple((t, n - extent * t.amount) for t, n in known),
        formed=tuple((term, extent * term.amount) for term in equation.products),
    )


def gas_volume(amount: Exact, temperature_k: Exact, pressure_pa: Exact) -> Fraction:
    """The volume of an ideal gas in m3: V = nRT/p, with n in mol.

    Raises ZeroDivisionError without a pressure.
    """
    n, temperature = Fraction(amount), Fraction(temperature_k)
    return n * Fraction(gas_constant()) * temperature / Fraction(pressure_pa)


@cache
def gas_constant() -> Decimal:
    """The molar gas constant, in J/(mol K)."""
    rows = read_rows("constants", "constants")
    return Decimal(next(row["value"] for row in rows if row["symbol"] == "R"))


def _amount_of(formula: Formula, amounts: Mapping[Formula, Exact]) -> Fraction | None:
    if formula in amounts:
        return Fraction(amounts[formula])
    alike = [n for f, n in amounts.items() if composition(f) == composition(formula)]
    return Fraction(alike[0]) if len(alike) == 1 else None


def _found(
    amounts: tuple[tuple[Term, Fraction], ...], formula: Formula
) -> Fraction | None:
    found = [n for t, n in amounts if composition(t.formula) == composition(formula)]
    return sum(found, Fraction(0)) if found else None
