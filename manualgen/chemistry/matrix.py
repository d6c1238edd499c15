"""The matrix of an equation: species as columns, what they conserve as rows.

A column knows its side. Species that a solution supplies (water, hydrogen
ions, hydroxide, electrons) have none: the sign of their coefficient decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import TYPE_CHECKING, Final, Literal

from manualgen.chemistry.equation import Equation, Term
from manualgen.chemistry.null_space import null_space

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from manualgen.chemistry.equation import Arrow
    from manualgen.chemistry.formula import Formula
    from manualgen.chemistry.null_space import Vector

CHARGE: Final = "charge"
"""The label of the row that is no element's."""


@dataclass(frozen=True, slots=True)
class Column:
    """A species, and whether it stands left (1), right (-1) or where it is needed (0)."""

    term: Term
    side: Literal[1, -1, 0]


def columns_of(equation: Equation) -> tuple[Column, ...]:
    """The species of an equation, each on the side where it stands."""
    left = (Column(term, 1) for term in equation.reactants)
    right = (Column(term, -1) for term in equation.products)
    return (*left, *right)


def conservation_rows(columns: Sequence[Column]) -> dict[str, list[int]]:
    """For each element and for charge, what a unit of each species adds to the left."""
    rows: dict[str, list[Fraction | int]] = {}
    width = len(columns)
    for at, column in enumerate(columns):
        sign = column.side or 1
        for symbol, count in _conserved(column.term.formula):
            rows.setdefault(symbol, [0] * width)[at] = sign * count
    return {symbol: _whole(row) for symbol, row in rows.items()}


def reactions(columns: Sequence[Column], leaving_out: str = "") -> tuple[Vector, ...]:
    """A basis of the reactions among species; one row may be left out of account."""
    rows = conservation_rows(columns)
    rows.pop(leaving_out, None)
    return null_space(list(rows.values()), len(columns))


def only_reaction(columns: Sequence[Column], leaving_out: str = "") -> Vector | None:
    """The one reaction in which every species takes part on its own side.

    None where there is no such reaction, or more than one.
    """
    basis = reactions(columns, leaving_out)
    if len(basis) != 1:
        return None
    for vector in (basis[0], tuple(-entry for entry in basis[0])):
        if all(v > 0 for v, c in zip(vector, columns, strict=True) if c.side):
            return vector
    return None


def as_equation(
    columns: Sequence[Column], vector: Sequence[int], arrow: Arrow
) -> Equation:
    """The reaction that a vector of coefficients describes; zeros are left out.

    A negative coefficient puts its species on the other side.
    """
    amounts = [v * (c.side or 1) for v, c in zip(vector, columns, strict=True)]
    placed = [
        (c.term.times(Fraction(abs(a))), a)
        for c, a in zip(columns, amounts, strict=True)
    ]
    return Equation(
        tuple(term for term, amount in placed if amount > 0),
        tuple(term for term, amount in placed if amount < 0),
        arrow,
    )


def _conserved(formula: Formula) -> Iterable[tuple[str, Fraction | int]]:
    yield from formula.atoms.items()
    if formula.charge:
        yield CHARGE, formula.charge


def _whole(row: list[Fraction | int]) -> list[int]:
    scale = lcm(*(entry.denominator for entry in row))
    return [int(entry * scale) for entry in row]
