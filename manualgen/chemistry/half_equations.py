"""Balancing by half-equations, where the species alone allow several reactions.

Manganate(VII) and hydrogen peroxide balance in endlessly many ways, since the
peroxide can also decompose by itself. A chemist settles it by halves: the
species fall apart into families that share an element other than hydrogen and
oxygen, each family is balanced with electrons, and the electrons cancel.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from manualgen.chemistry.conservation import in_lowest_terms, is_balanced
from manualgen.chemistry.equation import Equation
from manualgen.chemistry.formula import Formula
from manualgen.chemistry.matrix import as_equation, columns_of, only_reaction
from manualgen.chemistry.medium import (
    ELECTRON,
    HYDROGEN_ION,
    HYDROXIDE,
    SOLUTION,
    WATER,
    fewer_supplies,
    supplied,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from manualgen.chemistry.matrix import Column
    from manualgen.chemistry.medium import Medium
    from manualgen.chemistry.null_space import Vector

Amounts: TypeAlias = dict[Formula, int]
"""How much of each species is used up; what is formed counts negative."""

_SOLVENT = frozenset({"H", "O"})
_SUPPLIED = (HYDROGEN_ION, HYDROXIDE, WATER, ELECTRON)


def by_half_equations(equation: Equation, medium: Medium | None) -> Equation | None:
    """The equation with each of its two half-equations once; None if it has not two.

    Without a medium nothing may be left over: no H^+, OH^- or water that the
    equation does not have.
    """
    halves = [_half(family) for family in _families(equation)]
    gained = [half for half in halves if half and half[ELECTRON] > 0]
    lost = [half for half in halves if half and half[ELECTRON] < 0]
    if len(halves) != 2 or len(gained) != 1 or len(lost) != 1:
        return None
    amounts = _joined(gained[0], lost[0])
    if medium == "base" or HYDROXIDE in _formulas(equation):
        amounts = _in_base(amounts)
    return _placed(equation, amounts, medium)


def _families(equation: Equation) -> list[Equation]:
    """The species parted by the elements they share; those of H and O alone are one."""
    families: list[tuple[frozenset[str], list[Column]]] = []
    for column in columns_of(equation):
        if column.term.formula in _SUPPLIED:
            continue
        elements = frozenset(column.term.formula.atoms) - _SOLVENT
        related = [f for f in families if f[0] & elements or not (f[0] or elements)]
        merged = elements.union(*(f[0] for f in related))
        members = [c for f in related for c in f[1]]
        families = [f for f in families if f not in related]
        families.append((merged, [*members, column]))
    return [_family(columns) for _, columns in families]


def _family(columns: list[Column]) -> Equation:
    return Equation(
        tuple(c.term for c in columns if c.side == 1),
        tuple(c.term for c in columns if c.side == -1),
    )


def half_reaction(
    half: Equation, medium: Medium | None
) -> tuple[tuple[Column, ...], Vector] | None:
    """A half-equation's species and coefficients, electrons among them.

    None where no electrons change hands, or not in one way.
    """
    solutions: tuple[tuple[Formula, ...], ...] = ((),)
    if medium:
        solutions = (SOLUTION[medium], *fewer_supplies(medium))
    for solution in solutions:
        columns = supplied(half, (*solution, ELECTRON))
        vector = only_reaction(columns)
        if vector and _amounts(columns, vector)[ELECTRON]:
            return columns, vector
    return None


def _half(family: Equation) -> Amounts | None:
    """How much of each species a half-equation uses up in acid, electrons and all."""
    found = half_reaction(family, "acid")
    return found and _amounts(*found)


def _amounts(columns: Sequence[Column], vector: Vector) -> Amounts:
    amounts: Amounts = {}
    for column, entry in zip(columns, vector, strict=True):
        formula = column.term.formula
        amounts[formula] = amounts.get(formula, 0) + entry * (column.side or 1)
    return amounts


def _joined(gained: Amounts, lost: Amounts) -> Amounts:
    """Both halves, each so many times that the electrons cancel."""
    taken, given = gained[ELECTRON], -lost[ELECTRON]
    return {
        formula: given * gained.get(formula, 0) + taken * lost.get(formula, 0)
        for formula in gained | lost
    }


def _in_base(amounts: Amounts) -> Amounts:
    """The same reaction with every H^+ neutralised by OH^- on both sides."""
    ions = amounts.get(HYDROGEN_ION, 0)
    water = amounts.get(WATER, 0) + ions
    return amounts | {HYDROGEN_ION: 0, HYDROXIDE: -ions, WATER: water}


def _placed(
    equation: Equation, amounts: Amounts, medium: Medium | None
) -> Equation | None:
    """The reaction written in the order of ``equation``; None if it does not fit it."""
    solvent = (HYDROGEN_ION, HYDROXIDE, WATER)
    allowed = (
        solvent if medium else tuple(s for s in solvent if s in _formulas(equation))
    )
    columns = supplied(equation, allowed)
    vector = [amounts.get(c.term.formula, 0) * (c.side or 1) for c in columns]
    found = in_lowest_terms(as_equation(columns, vector, equation.arrow))
    return found if is_balanced(found) else None


def _formulas(equation: Equation) -> set[Formula]:
    return {term.formula for term in equation.terms}
