"""Whether two net ionic equations say the same.

Order and a common factor do not matter; nor do ways of writing that chemists
change freely: H3O^+ for H^+, an ion with its shell of water, aqueous ammonia as
NH4OH, the older ZnO2^2- for [Zn(OH)4]^2-. All are brought to one writing, the
water that this sets free or takes up counted with the rest.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from manualgen.chemistry.compounds import Composition, composition
from manualgen.chemistry.dissociation import WATER
from manualgen.chemistry.formula import Atom, Formula, Group

if TYPE_CHECKING:
    from collections.abc import Iterable

    from manualgen.chemistry.equation import Equation, State, Term

Place: TypeAlias = "tuple[int, Composition]"
"""A side, −1 or 1, and what stands there."""

_H3O = composition(Formula((Atom("H", 3), Atom("O")), 1))
_NH4OH = composition(Formula((Atom("N"), Atom("H", 5), Atom("O"))))
_WATER = composition(WATER)


def same_net_ionic(line: Equation, derived: Equation) -> bool:
    """Whether two ionic equations describe one reaction.

    States count where both give them.
    """
    ours, theirs = _ledger(line), _ledger(derived)
    if ours.keys() != theirs.keys():
        return False
    ratios = {ours[place] / theirs[place] for place in ours}
    return len(ratios) <= 1 and _agree(_states(line), _states(derived))


def _ledger(equation: Equation) -> dict[Place, Fraction]:
    """How much of what stands on each side; water where there is more of it."""
    found: dict[Place, Fraction] = {}
    water = Fraction(0)
    for side, term in _placed(equation):
        bare, waters = _bare(term.formula)
        water += side * waters * term.amount
        if bare != _WATER:
            place = (side, bare)
            found[place] = found.get(place, Fraction(0)) + term.amount
    if water:
        found[1 if water > 0 else -1, _WATER] = abs(water)
    return found


def _states(equation: Equation) -> dict[Place, set[State | None]]:
    found: dict[Place, set[State | None]] = {}
    for side, term in _placed(equation):
        place = (side, _bare(term.formula)[0])
        found.setdefault(place, set()).add(term.state)
    return found


def _agree(
    ours: dict[Place, set[State | None]], theirs: dict[Place, set[State | None]]
) -> bool:
    return all(
        None in ours[place] | theirs[place] or ours[place] == theirs[place]
        for place in ours.keys() & theirs.keys()
        if place[1] != _WATER
    )


def _placed(equation: Equation) -> Iterable[tuple[int, Term]]:
    yield from ((-1, term) for term in equation.reactants)
    yield from ((1, term) for term in equation.products)


def _bare(formula: Formula) -> tuple[Composition, int]:
    """What a species is without the water that its writing holds, and how much."""
    made_of = composition(formula)
    if made_of == _WATER:
        return made_of, 1
    waters = 1 if made_of in (_H3O, _NH4OH) else _bound_water(formula)
    if not waters:
        return made_of, 0
    atoms = dict(formula.atoms)
    atoms["H"] -= 2 * waters
    atoms["O"] -= waters
    kept = {symbol: count for symbol, count in atoms.items() if count}
    return (formula.charge, frozenset(kept.items())), waters


def _bound_water(formula: Formula) -> int:
    """Water as a ligand, and the water of pairs of hydroxide ligands."""
    match formula.parts:
        case (Group("[", parts),):
            inside = [p for p in parts if isinstance(p, Group)]
        case _:
            return 0
    counts = {p.parts: p.count for p in inside if isinstance(p.count, int)}
    hydroxides = counts.get((Atom("O"), Atom("H")), 0)
    return counts.get(WATER.parts, 0) + hydroxides // 2
