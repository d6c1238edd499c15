"""A weak solution out of a stronger one of the same plan.

Where too little of the stock would be taken to measure, and a stronger solution
is made for the class anyway, a part of that is diluted instead: it spares a
first dilution of a concentrated acid, of which most would be thrown away.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from manualgen.preparation.batch import Batch
from manualgen.preparation.making import Making
from manualgen.preparation.reason import CannotMakeError
from manualgen.preparation.rules import measures
from manualgen.preparation.shelf import StartKind, start_from
from manualgen.preparation.sizes import by_cylinder
from manualgen.quantities import Quantity


def made_from(
    weak: Making, strength: Quantity, strong: Making, stronger: Quantity
) -> Making | None:
    """How the weak solution is made from the strong one; None where that is no gain.

    A strength that counts to three figures keeps its own way: the strong solution
    is as exact as the stock that it was made from.
    """
    if weak.exact or not _goes_by_first_dilution(weak):
        return None
    if strong.start.kind is not StartKind.STOCK or _goes_by_first_dilution(strong):
        return None
    chemical = weak.start.chemical
    try:
        start, wanted = start_from(chemical, stronger), start_from(chemical, strength)
    except CannotMakeError:
        return None
    if not (start.moles and wanted.moles) or wanted.moles >= start.moles:
        return None
    share = wanted.moles / start.moles
    if any(b.volume * share < measures().least_stock for b in weak.batches):
        return None
    batches = tuple(_diluted(batch, share) for batch in weak.batches)
    return replace(weak, start=start, batches=batches)


def _goes_by_first_dilution(making: Making) -> bool:
    is_stock = making.start.kind is StartKind.STOCK
    return is_stock and any(batch.dilutions for batch in making.batches)


def _diluted(batch: Batch, share: Fraction) -> Batch:
    taken = batch.volume * share
    return Batch(batch.volume, batch.in_flask, stock=taken, measured=by_cylinder(taken))
