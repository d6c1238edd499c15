"""The plan: every solution with how it is made, and everything else to put out.

The same solution for two classes, or shown under two names, is made once. What
something is dissolved in is a solution of its own, made before it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from string import ascii_uppercase
from typing import TypeAlias

from manualgen.knowledge import Classification, united
from manualgen.knowledge.names import key
from manualgen.preparation.apparatus import Pieces, apparatus_of
from manualgen.preparation.concentration import moles_per_dm3
from manualgen.preparation.making import Making
from manualgen.preparation.needs import (
    Need,
    Order,
    Shape,
    Sitting,
    groups_without,
    is_at_hand,
    needs_of,
)
from manualgen.preparation.reason import CannotMakeError, Reason
from manualgen.preparation.rules import Keeping, keeping_of
from manualgen.preparation.volumes import making_for
from manualgen.quantities import Quantity
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import Identity

_Key: TypeAlias = "tuple[str, object, str, object]"


@dataclass(frozen=True, slots=True)
class Solution:
    """A solution to make."""

    identity: Identity
    solvent: Identity | None
    """None for water."""
    needs: tuple[Need, ...]
    """None where it serves only to make another."""
    total: Fraction | None
    """All that is needed, in cm³; None where nobody says how much."""
    making: Making | None
    problem: Reason | None = None
    """Why there is no making."""
    code: str = ""
    """``A``, by which the sheet speaks of it."""
    solvent_code: str = ""
    """The solution that it is dissolved in."""

    @property
    def hazards(self) -> Classification | None:
        """What the label of its bottle says, the solvent counted."""
        own = self.identity.classification
        other = self.solvent.classification if self.solvent else None
        if own is None or other is None:
            return own
        return replace(united([own, other]), percent_ww=own.percent_ww)

    @property
    def keeping(self) -> Keeping:
        """How it keeps."""
        return keeping_of(self.identity.chemical)


@dataclass(frozen=True, slots=True)
class Supplied:
    """Something that is given out as it was bought: a liquid, a solid, pieces."""

    identity: Identity
    shape: Shape
    needs: tuple[Need, ...]
    total: Fraction | None
    """In cm³, g or pieces; None where nobody says how much."""


@dataclass(frozen=True, slots=True)
class Unclear:
    """Something to ask before the work begins."""

    what: str
    why: Reason


@dataclass(frozen=True, slots=True)
class Plan:
    """What to prepare for the classes of an order."""

    order: Order
    solutions: tuple[Solution, ...]
    supplied: tuple[Supplied, ...]
    apparatus: tuple[Pieces, ...]
    unclear: tuple[Unclear, ...]

    def of_shape(self, shape: Shape) -> tuple[Supplied, ...]:
        """What is given out as bought, of one shape."""
        return tuple(s for s in self.supplied if s.shape is shape)


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A solution that is wanted, by whom, and how much more by other solutions."""

    identity: Identity
    solvent: Identity | None
    needs: tuple[Need, ...] = ()
    extra: Fraction = Fraction(0)

    @property
    def total(self) -> Fraction | None:
        """All that is wanted, in cm³."""
        found = _sum(self.needs)
        if found is None and not self.extra:
            return None
        return (found or Fraction(0)) + self.extra


def plan(order: Order) -> Plan:
    """What to weigh, dilute, fill and set out for an order."""
    needs = needs_of(order)
    laboratory = _laboratory(order)
    solutions = _solutions(needs, laboratory)
    supplied = tuple(_supplied(needs))
    unclear = (
        *_unmade(solutions),
        *_unmeasured(solutions, supplied),
        *_without_set(order.sittings),
    )
    return Plan(order, solutions, supplied, apparatus_of(order), unclear)


def _laboratory(order: Order) -> Laboratory:
    works = [s.work for s in order.sittings]
    return works[0].laboratory if works else Laboratory()


def _solutions(needs: Sequence[Need], laboratory: Laboratory) -> tuple[Solution, ...]:
    """Every solution with its code, those that others are dissolved in as well."""
    wanted: dict[_Key, _Wanted] = {}
    for need in needs:
        if need.shape is Shape.SOLUTION:
            own = _key(need.identity, need.entry.solvent)
            known = wanted.get(own) or _Wanted(need.identity, need.entry.solvent)
            wanted[own] = replace(known, needs=(*known.needs, need))
    for first in list(wanted.values()):
        base, making = _base_of(first), _solution(first, laboratory).making
        if base is not None and making is not None and first.solvent is not None:
            known = wanted.get(base) or _Wanted(first.solvent, None)
            wanted[base] = replace(known, extra=known.extra + making.volume)
    bases = {_base_of(each) for each in wanted.values()}
    in_order = sorted(wanted, key=lambda k: k not in bases)
    codes: dict[_Key | None, str] = {k: _code(n) for n, k in enumerate(in_order)}
    return tuple(
        replace(
            _solution(wanted[k], laboratory),
            code=codes[k],
            solvent_code=codes.get(_base_of(wanted[k]), ""),
        )
        for k in in_order
    )


def _base_of(wanted: _Wanted) -> _Key | None:
    """The solution that another is dissolved in, where it has to be made."""
    solvent = wanted.solvent
    if solvent is None or not isinstance(solvent.strength, Quantity):
        return None
    return _key(solvent, None)


def _solution(wanted: _Wanted, laboratory: Laboratory) -> Solution:
    identity, solvent = _most_exact(wanted), wanted.solvent
    draft = Solution(identity, solvent, wanted.needs, wanted.total, None)
    if wanted.total is None:
        return draft
    try:
        making = making_for(identity, wanted.total, laboratory.store)
    except CannotMakeError as error:
        return replace(draft, problem=error.reason)
    return replace(draft, making=making.unaided() if solvent else making)


def _most_exact(wanted: _Wanted) -> Identity:
    """Of 0.1 and 0.100 mol/dm³ the one that asks for more care."""

    def figures(identity: Identity) -> int:
        strength = identity.strength
        return strength.significant_figures if isinstance(strength, Quantity) else 0

    return max((wanted.identity, *(n.identity for n in wanted.needs)), key=figures)


def _key(identity: Identity, solvent: Identity | None) -> _Key:
    """Two solutions of one key are one solution."""
    in_what = (_substance(solvent), _strength(solvent)) if solvent else ("", None)
    return (_substance(identity), _strength(identity), *in_what)


def _substance(identity: Identity) -> str:
    chemical = identity.chemical
    return key(identity.name) if chemical is None else chemical.substance


def _strength(identity: Identity) -> object:
    chemical, strength = identity.chemical, identity.strength
    if not isinstance(strength, Quantity):
        return strength or (chemical and chemical.name)
    try:
        moles = moles_per_dm3(chemical, strength) if chemical else None
    except CannotMakeError:
        moles = None
    upper = strength.si_upper or strength.si_value
    return moles or (str(strength.dimension), upper)


def _code(n: int) -> str:
    """``A`` to ``Z``, then ``AA``."""
    first, last = divmod(n, len(ascii_uppercase))
    return (ascii_uppercase[first - 1] if first else "") + ascii_uppercase[last]


def _supplied(needs: Iterable[Need]) -> Iterator[Supplied]:
    grouped: dict[tuple[Shape, str, object], list[Need]] = {}
    for need in needs:
        if need.shape is not Shape.SOLUTION:
            # Liquids of two strengths, or pieces of two lengths, are two things.
            apart = need.identity.strength or _size(need)
            name = (need.shape, key(need.identity.name), apart)
            grouped.setdefault(name, []).append(need)
    for (shape, _, _), found in grouped.items():
        yield Supplied(found[0].identity, shape, tuple(found), _sum(found))


def _size(need: Need) -> object:
    is_length = need.amount is not None and need.amount.dimension.stated() == {
        "length": 1
    }
    return need.amount.si_value if need.amount and is_length else None


def _sum(needs: Iterable[Need]) -> Fraction | None:
    totals = [need.total for need in needs]
    known = [total for total in totals if total is not None]
    return sum(known, Fraction(0)) if known else None


def _unmade(solutions: Sequence[Solution]) -> Iterator[Unclear]:
    for solution in solutions:
        if solution.problem:
            yield Unclear(solution.identity.name, solution.problem)


def _unmeasured(
    solutions: Sequence[Solution], supplied: Sequence[Supplied]
) -> Iterator[Unclear]:
    everything: tuple[Solution | Supplied, ...] = (*solutions, *supplied)
    for each in everything:
        for need in each.needs:
            needless = need.shape is Shape.PIECES or is_at_hand(need.identity.chemical)
            if need.total is None and not needless:
                yield Unclear(each.identity.name, Reason("why_amount_unsaid"))


def _without_set(sittings: Sequence[Sitting]) -> Iterator[Unclear]:
    for sitting in sittings:
        for entry in sitting.work.materials.lineup.entries:
            left = groups_without(sitting, entry)
            if left:
                numbers = ", ".join(map(str, left))
                shown = entry.listed.shown or entry.listed.name
                yield Unclear(shown, Reason("why_no_set", (("groups", numbers),)))
