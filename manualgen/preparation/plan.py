"""The plan: every solution with how it is made, and everything else to put out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from manualgen.knowledge.names import key
from manualgen.preparation.apparatus import Pieces, apparatus_of
from manualgen.preparation.needs import (
    Need,
    Order,
    Shape,
    Sitting,
    groups_without,
    is_at_hand,
    needs_of,
    total_of,
)
from manualgen.preparation.reason import Reason
from manualgen.preparation.solutions import Solution, solutions_of
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import Identity


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


def plan(order: Order) -> Plan:
    """What to weigh, dilute, fill and set out for an order."""
    needs = needs_of(order)
    laboratory = _laboratory(order)
    solutions = solutions_of(needs, laboratory)
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


def _supplied(needs: Iterable[Need]) -> Iterator[Supplied]:
    grouped: dict[tuple[Shape, str, object], list[Need]] = {}
    for need in needs:
        if need.shape is not Shape.SOLUTION:
            # Liquids of two strengths, or pieces of two lengths, are two things.
            apart = need.identity.strength or _size(need)
            name = (need.shape, key(need.identity.name), apart)
            grouped.setdefault(name, []).append(need)
    for (shape, _, _), found in grouped.items():
        yield Supplied(found[0].identity, shape, tuple(found), total_of(found))


def _size(need: Need) -> object:
    is_length = need.amount is not None and need.amount.dimension.stated() == {
        "length": 1
    }
    return need.amount.si_value if need.amount and is_length else None


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
