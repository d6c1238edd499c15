"""Why an equation has no single set of coefficients, in a chemist's words.

The reasons are looked for in the order in which a chemist would see them: an
element on one side only; a charge that nothing can make even; a species that
would have to stand on the other side; an element that does not come out; and,
of equations that balance in many ways, the reactions that hide in them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from manualgen.chemistry.conservation import (
    signed_charge,
    total_charge,
    uneven_elements,
)
from manualgen.chemistry.equation import Equation
from manualgen.chemistry.half_equations import by_half_equations
from manualgen.chemistry.ion_slips import with_another_charge
from manualgen.chemistry.matrix import (
    CHARGE,
    Column,
    as_equation,
    columns_of,
    conservation_rows,
    only_reaction,
    reactions,
)
from manualgen.chemistry.medium import (
    ELECTRON,
    HYDROGEN_ION,
    HYDROXIDE,
    WATER,
    supplied,
)
from manualgen.chemistry.null_space import extreme_rays, independent
from manualgen.chemistry.product_slips import with_another_product

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from manualgen.chemistry.formula import Formula
    from manualgen.chemistry.medium import Medium
    from manualgen.chemistry.null_space import Vector


_SPECIES_OF_A_HALF: Final = 2
"""A species and what becomes of it, apart from water and its ions."""


@dataclass(frozen=True, slots=True)
class Failure:
    """Why there is no single answer."""

    status: Literal["impossible", "ambiguous"]
    message: str
    independent: tuple[Equation, ...] = ()
    suggestion: Equation | None = None


def explain(equation: Equation, medium: Medium | None) -> Failure:
    """Why ``equation`` cannot be balanced, or not in one way only."""
    columns = columns_of(equation)
    if medium is not None:
        ion = HYDROGEN_ION if medium == "acid" else HYDROXIDE
        columns = supplied(equation, (WATER, ion))
    suggestion = _probably_meant(equation) if medium is None else None
    if one_sided := _one_sided(columns):
        return _impossible(one_sided, suggestion)
    basis = reactions(columns)
    if not basis:
        return _impossible(_what_does_not_come_out(equation, columns), suggestion)
    if len(basis) == 1:
        return _impossible(_wrong_side(equation, columns, basis[0]), suggestion)
    return _several(equation, columns, len(basis))


def _impossible(message: str, suggestion: Equation | None) -> Failure:
    return Failure("impossible", message, suggestion=suggestion)


def _one_sided(columns: Sequence[Column]) -> str | None:
    """The elements that stand on one side of the arrow only, said in words."""
    left = [s for s, row in _elements(columns) if all(n >= 0 for n in row)]
    right = [s for s, row in _elements(columns) if all(n <= 0 for n in row)]
    said = [
        f"{_listed(symbols)} {'stands' if len(symbols) == 1 else 'stand'} only {side} of the arrow"
        for symbols, side in ((left, "left"), (right, "right"))
        if symbols
    ]
    return "; ".join(said) or None


def _elements(columns: Sequence[Column]) -> Iterator[tuple[str, list[int]]]:
    """The rows of the elements that no supplied species holds."""
    free = {s for c in columns if not c.side for s in c.term.formula.atoms}
    for symbol, row in conservation_rows(columns).items():
        if symbol != CHARGE and symbol not in free:
            yield symbol, row


def _what_does_not_come_out(equation: Equation, columns: Sequence[Column]) -> str:
    """Which law no coefficients keep while they keep all the others."""
    for row in (CHARGE, *(symbol for symbol, _ in _elements(columns))):
        if vector := only_reaction(columns, row):
            nearest = as_equation(columns, vector, equation.arrow)
            return _left_over(row, nearest)
    return "no coefficients make every element and the charge even"


def _left_over(row: str, nearest: Equation) -> str:
    if row == CHARGE:
        left, right = total_charge(nearest.reactants), total_charge(nearest.products)
        sides = (
            f"{signed_charge(left)} on the left and {signed_charge(right)} on the right"
        )
        return f"the atoms balance as {nearest}, but its charge is {sides}"
    uneven = next(u for u in uneven_elements(nearest) if u.symbol == row)
    return (
        f"no coefficients make {row} even: the rest balances as {nearest}, "
        f"which has {uneven.left} {row} on the left and {uneven.right} on the right"
    )


def _wrong_side(equation: Equation, columns: Sequence[Column], vector: Vector) -> str:
    """What is amiss with the one reaction that there is among the species."""
    given = [v for v, c in zip(vector, columns, strict=True) if c.side]
    if sum(v > 0 for v in given) < sum(v < 0 for v in given):
        vector = tuple(-v for v in vector)
    pairs = [(c.term, v) for c, v in zip(columns, vector, strict=True) if c.side]
    across = [str(term.formula) for term, v in pairs if v < 0]
    idle = [str(term.formula) for term, v in pairs if v == 0]
    reaction = as_equation(columns, vector, equation.arrow)
    if across:
        return f"it balances only with {_listed(across)} on the other side: {reaction}"
    return f"{_listed(idle)} can take no part: {reaction}"


def _several(equation: Equation, columns: Sequence[Column], count: int) -> Failure:
    """The reactions that hide in an equation which balances in more ways than one."""
    sided = _both_ways(columns)
    rows = conservation_rows(sided)
    rays = extreme_rays(list(rows.values()), len(sided))
    idle = [c.term for i, c in enumerate(sided) if not any(ray[i] for ray in rays)]
    if rays and idle:
        names = _listed([str(term.formula) for term in idle])
        return _impossible(f"{names} can take no part", None)
    hidden = tuple(
        as_equation(sided, ray, equation.arrow)
        for ray in independent(rays)
        if not _is_idle(as_equation(sided, ray, equation.arrow))
    )
    repeated = _on_both_sides(equation)
    if repeated and len(hidden) == 1:
        message = f"{_listed(repeated)} on both sides; without it this is {hidden[0]}"
        return Failure("ambiguous", message, hidden, hidden[0])
    named = f": {'; '.join(map(str, hidden))}" if hidden else ""
    message = f"{len(hidden) or count} independent reactions hide in it{named}"
    by_halves = by_half_equations(equation, None)
    if by_halves:
        message += f". With each half-equation once it is {by_halves}"
    return Failure("ambiguous", message, hidden, by_halves)


def _both_ways(columns: Sequence[Column]) -> tuple[Column, ...]:
    """The columns with each supplied species once on either side."""
    return tuple(
        side
        for c in columns
        for side in ((c,) if c.side else (Column(c.term, 1), Column(c.term, -1)))
    )


def _is_idle(reaction: Equation) -> bool:
    """Whether nothing changes but perhaps a state."""
    left, right = (
        {term.formula: term.amount for term in side}
        for side in (reaction.reactants, reaction.products)
    )
    return left == right


def _on_both_sides(equation: Equation) -> list[str]:
    products = {term.formula for term in equation.products}
    return [str(t.formula) for t in equation.reactants if t.formula in products]


def _probably_meant(equation: Equation) -> Equation | None:
    """The equation with the right charge, what was left out, or another product.

    Left out are water, an ion of it, or electrons.
    """
    if mended := with_another_charge(equation):
        return mended
    for species in _likely_omissions(equation):
        columns = supplied(equation, species)
        if vector := only_reaction(columns):
            return as_equation(columns, vector, equation.arrow)
    return with_another_product(equation)


def _likely_omissions(equation: Equation) -> Iterator[tuple[Formula, ...]]:
    """Water; among ions also its ions; in what looks like a half-equation, electrons."""
    yield (WATER,)
    formulas = {t.formula for t in equation.terms}
    if any(formula.charge for formula in formulas):
        ion = HYDROXIDE if HYDROXIDE in formulas else HYDROGEN_ION
        yield from ((ion,), (ion, WATER))
        if len(formulas - {WATER, HYDROGEN_ION, HYDROXIDE}) <= _SPECIES_OF_A_HALF:
            yield from ((ELECTRON,), (ion, WATER, ELECTRON))


def _listed(words: Sequence[str]) -> str:
    return " and ".join((", ".join(words[:-1]), words[-1])) if words[1:] else words[0]
