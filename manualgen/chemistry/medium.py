"""What a solution supplies to a reaction: water and its ions, and electrons.

In acid that is H^+ and water, in base OH^- and water. A half-equation is
supplied with electrons too.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from manualgen.chemistry.equation import Term
from manualgen.chemistry.formula import Atom, Formula
from manualgen.chemistry.matrix import Column, columns_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from manualgen.chemistry.equation import Equation, State

Medium: TypeAlias = Literal["acid", "base"]

WATER: Final = Formula((Atom("H", 2), Atom("O")))
HYDROGEN_ION: Final = Formula((Atom("H"),), 1)
HYDROXIDE: Final = Formula((Atom("O"), Atom("H")), -1)
ELECTRON: Final = Formula((), -1)

SOLUTION: Final[dict[Medium, tuple[Formula, ...]]] = {
    "acid": (HYDROGEN_ION, WATER),
    "base": (HYDROXIDE, WATER),
}
"""What each medium supplies."""

_STATES: Final[dict[Formula, State]] = {
    WATER: "l",
    HYDROGEN_ION: "aq",
    HYDROXIDE: "aq",
}


def fewer_supplies(medium: Medium) -> Iterator[tuple[Formula, ...]]:
    """Less than all that a medium supplies, the least first.

    Where sulfite, sulfate and their hydrogen ions stand together, H^+ moves
    among them freely and the whole medium leaves the coefficients open; without
    it they are settled.
    """
    ion, water = SOLUTION[medium]
    yield from ((), (water,), (ion,))


def supplied(equation: Equation, species: tuple[Formula, ...]) -> tuple[Column, ...]:
    """The columns of an equation with ``species`` free to stand on either side.

    One that the author wrote already keeps its place among the others.
    """
    given: list[Column] = []
    for column in columns_of(equation):
        free = column.term.formula in species
        if not (free and any(c.term.formula == column.term.formula for c in given)):
            given.append(Column(column.term, 0) if free else column)
    written = {column.term.formula for column in given}
    has_states = states_are_given(equation)
    added = (
        Column(Term(None, formula, _STATES.get(formula) if has_states else None), 0)
        for formula in species
        if formula not in written
    )
    return (*given, *added)


def states_are_given(equation: Equation) -> bool:
    """Whether every species that can have a state has one."""
    stateless = (
        t.formula for t in equation.terms if t.state is None and has_state(t.formula)
    )
    return next(stateless, None) is None


def has_state(formula: Formula) -> bool:
    """Whether a species can have a state: electrons, ``[O]`` and ``[H]`` have none."""
    return not (formula.is_electron or formula.is_agent)
