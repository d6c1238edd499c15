"""Pieces of apparatus to set out: each class's, and all together.

What each group has is multiplied by the groups, with a spare rounded up to
whole pieces beside it; what a class or a station shares is not multiplied.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from manualgen.model.lab import ListedApparatus, ShareBy
from manualgen.preparation.needs import Order, Sitting
from manualgen.preparation.parts import needs_apparatus, parts_with, stations_with


@dataclass(frozen=True, slots=True)
class Pieces:
    """So many pieces of one kind."""

    sitting: int
    """Which class they are for, counted from 0."""
    listed: ListedApparatus
    count: int
    """Without the spare."""
    spare: int
    consumable: bool

    @property
    def shared(self) -> bool:
        """Whether the class shares them."""
        return self.listed.shared is not None


def apparatus_of(order: Order) -> tuple[Pieces, ...]:
    """What each class needs, in the order of its list."""
    return tuple(
        _pieces(n, sitting, listed, order.spare)
        for n, sitting in enumerate(order.sittings)
        for listed in sitting.work.experiment.apparatus
        if needs_apparatus(sitting.work, listed, sitting.part)
    )


def together(pieces: tuple[Pieces, ...]) -> tuple[Pieces, ...]:
    """All classes' pieces, those of one kind added up."""
    found: dict[object, Pieces] = {}
    for each in pieces:
        kind = _kind(each.listed)
        known = found.get(kind)
        if known is None:
            found[kind] = each
        else:
            found[kind] = replace(
                known, count=known.count + each.count, spare=known.spare + each.spare
            )
    return tuple(found.values())


def _pieces(
    n: int, sitting: Sitting, listed: ListedApparatus, spare: Fraction
) -> Pieces:
    piece = sitting.work.laboratory.vocabulary.find(listed.name)
    consumable = piece is not None and piece.consumable
    if listed.shared is None:
        count = listed.count * sitting.groups
        return Pieces(n, listed, count, ceil(count * spare), consumable)
    stations = 1
    if listed.shared.by is ShareBy.STATION:
        stations = stations_with(sitting.work, parts_with(sitting.work, listed))
    count = listed.count * listed.shared.number * stations
    return Pieces(n, listed, count, 0, consumable)


def _kind(listed: ListedApparatus) -> object:
    sizes = (listed.capacity, listed.resolution)
    values = tuple(q.si_value if q else None for q in sizes)
    return listed.name.casefold().removesuffix("s"), values, listed.glass_class
