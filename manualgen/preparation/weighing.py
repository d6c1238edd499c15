"""What is put on the balance, and whether it dissolves.

What is too little to weigh is weighed for a stronger solution, of which a part
is diluted; what is costly goes on the finer balance instead, since nine tenths
of the stronger solution would be thrown away.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from manualgen.knowledge import Chemical
from manualgen.preparation.batch import Batch
from manualgen.preparation.concentration import (
    grams_per_dm3,
    volume_fraction,
    without_water,
)
from manualgen.preparation.reason import CannotMakeError
from manualgen.preparation.rules import is_costly, measures, most_dissolved
from manualgen.preparation.sizes import by_cylinder, exactly, rounded_to
from manualgen.quantities import Quantity

_MOST_DILUTIONS = 4
_TEN = 10
_MOST_GRAMS = 2500
"""No solution of a solid has more of it in 1 dm³."""


def refuse_undissolved(chemical: Chemical, strength: Quantity) -> None:
    """Raise `CannotMakeError` where so much does not dissolve.

    1 dm³ of solution has no more than 1 kg of water in it, and so no more of the
    solid than that takes up.
    """
    if volume_fraction(strength) is not None:
        return
    grams = grams_per_dm3(chemical, strength)
    most = _most_per_dm3(chemical)
    if most is not None and without_water(chemical, grams) > most:
        raise CannotMakeError(
            "why_undissolved", grams=int(most), name=chemical.substance
        )
    if grams > _MOST_GRAMS:
        raise CannotMakeError("why_too_much")


def weighed(batch: Batch, mass: Fraction, chemical: Chemical, *, exact: bool) -> Batch:
    """The batch with a mass to weigh, in g; by way of a stronger solution if need be.

    Raises `CannotMakeError` where even the finer balance would show nothing.
    """
    m = measures()
    least = m.least_exact if exact else m.least
    if mass >= least:
        return replace(batch, mass=rounded_to(mass, m.reads))
    stronger = None if is_costly(chemical) else _stronger(batch, mass, least)
    if stronger is None or not _dissolves(stronger, chemical):
        if mass < m.finer:
            raise CannotMakeError("why_too_little")
        return replace(batch, mass=rounded_to(mass, m.finer), finer=True)
    return replace(
        stronger, measured=(exactly if exact else by_cylinder)(batch.volume / _TEN)
    )


def _stronger(batch: Batch, mass: Fraction, least: Fraction) -> Batch | None:
    """Weighed for the first solution of which a tenth of the volume is taken."""
    m = measures()
    taken = batch.volume / _TEN
    size = next((s for s in m.makings if s >= max(taken, m.make)), m.makings[-1])
    if not m.least_stock <= taken <= size:
        return None
    for dilutions in range(_MOST_DILUTIONS):
        strong = mass * _TEN ** (dilutions + 1) * size / batch.volume
        if strong >= least:
            strong = rounded_to(strong, m.reads)
            return replace(batch, mass=strong, strong_for=size, dilutions=dilutions)
    return None


def _dissolves(batch: Batch, chemical: Chemical) -> bool:
    most = _most_per_dm3(chemical)
    if most is None or batch.mass is None or batch.strong_for is None:
        return True
    return without_water(chemical, batch.mass) / batch.strong_for * 1000 <= most


def _most_per_dm3(chemical: Chemical) -> Fraction | None:
    most = most_dissolved(chemical)
    return None if most is None else most * _TEN
