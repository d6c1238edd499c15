"""To what a listed piece of apparatus is read.

What the list says (`reading to 0.01 g`) holds. Where it is silent, a burette is
read to what the manual says, another scale to half of its division and a
display to its last digit, as the vocabulary has them; that is the trade's
custom and no standard's, so `is_stated` tells the two apart. A piece listed
without its capacity may be the finest of its kind.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from manualgen.knowledge.apparatus import (
    Piece,
    Vocabulary,
    find_apparatus,
    is_builtin,
)
from manualgen.model.lab import ListedApparatus
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import kind_of

BETWEEN_DIVISIONS = frozenset({"thermometer", "ruler"})
"""Instruments without a display whose entry gives one division."""


@dataclass(frozen=True, slots=True)
class Scale:
    """What one listed piece measures, and to what it is read."""

    listed: ListedApparatus
    name: str
    """The piece in the vocabulary's word."""
    kind: str
    """What it measures: volume, mass, temperature."""
    step: Quantity
    """The smallest difference that is read."""
    is_stated: bool
    """Whether the list or the department says the step, and not only custom."""
    is_display: bool = False
    """Whether figures show it and nobody reads between them."""


def scales_of(
    listed: Iterable[ListedApparatus],
    burette: Quantity,
    vocabulary: Vocabulary | None = None,
) -> Iterator[Scale]:
    """Of each piece on a list that is read, to what.

    ``burette`` is the manual's own step for a burette. A piece with one mark,
    such as a pipette, is not read.
    """
    for entry in listed:
        piece = find_apparatus(entry.name, vocabulary)
        name = piece.name if piece else entry.name
        step = entry.resolution or _usual_step(piece, entry, burette)
        if step:
            step = Quantity(step.value, step.unit.difference)
            stated = bool(entry.resolution) or name == "burette" or _is_own(piece)
            display = piece is not None and not _is_scale(piece)
            yield Scale(entry, name, kind_of(step.unit), step, stated, display)


def _usual_step(
    piece: Piece | None, entry: ListedApparatus, burette: Quantity
) -> Quantity | None:
    if piece is None:
        return None
    if piece.name == "burette":
        return burette
    division = piece.graduation(entry.capacity) or min(
        (d for _, d in piece.graduations), key=_size, default=None
    )
    if division is None:
        return None
    return _half(division) if _is_scale(piece) else division


def _is_own(piece: Piece | None) -> bool:
    """Whether a piece is an addition of the department's."""
    return piece is not None and not is_builtin(piece)


def _is_scale(piece: Piece) -> bool:
    return bool(piece.graduations) or piece.name in BETWEEN_DIVISIONS


def _size(division: Quantity) -> Fraction:
    return division.si_value


def _half(division: Quantity) -> Quantity:
    return Quantity(division.value / Decimal(2), division.unit)
