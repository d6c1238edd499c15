"""How a solution is made: what is weighed or measured for each making.

A mass follows from m = c V M / p, with M of the hydrate as supplied and p its
purity; a volume of stock from c₁V₁ = c₂V₂. What is too little to weigh or to
measure goes by way of first dilutions, each of one in ten.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from manualgen.knowledge import Chemical
from manualgen.preparation.batch import Added, Batch
from manualgen.preparation.concentration import (
    grams_per_dm3,
    mass_of_mole,
    moles_per_dm3,
    volume_fraction,
)
from manualgen.preparation.reason import CannotMakeError
from manualgen.preparation.rules import (
    Recipe,
    Standard,
    helper_for,
    is_bought,
    loses_strength,
    measures,
    standard_for,
)
from manualgen.preparation.shelf import Start, StartKind, start_for
from manualgen.preparation.sizes import (
    by_cylinder,
    exactly,
    is_flask_size,
    rounded_to,
)
from manualgen.preparation.weighing import refuse_undissolved, weighed
from manualgen.quantities import Quantity

_MOST_DILUTIONS = 4
_TEN = 10


@dataclass(frozen=True, slots=True)
class Making:
    """How a solution is made."""

    start: Start
    batches: tuple[Batch, ...]
    exact: bool
    """Whether its strength counts to three figures."""
    standard: Standard | None = None
    """Against what it is standardised, where making it does not fix its strength."""
    filtered: bool = False
    """Whether the clear solution is poured or filtered off what is left."""

    def unaided(self) -> Making:
        """The same without what only water asks for, as iodine does for iodide."""
        batches = tuple(replace(batch, also=()) for batch in self.batches)
        return replace(self, batches=batches)

    @property
    def volume(self) -> Fraction:
        """All that is made, in cm³."""
        return sum((b.volume for b in self.batches), Fraction(0))

    @property
    def mass(self) -> Fraction | None:
        """All that is weighed, in g."""
        masses = [b.mass for b in self.batches if b.mass is not None]
        return sum(masses, Fraction(0)) if masses else None

    @property
    def stock(self) -> Fraction | None:
        """All of the stock that comes to be in it, in cm³."""
        volumes = [b.stock for b in self.batches if b.stock is not None]
        return sum(volumes, Fraction(0)) if volumes else None

    @property
    def taken(self) -> Fraction:
        """What leaves the shelf, in g of a solid or cm³ of a stock."""
        return sum(map(_taken, self.batches), Fraction(0))


def is_exact(strength: Quantity) -> bool:
    """Whether a strength is meant to count to three figures."""
    return strength.significant_figures >= measures().figures


def making_of(
    chemical: Chemical, strength: Quantity, volumes: tuple[Fraction, ...]
) -> Making:
    """How to make these volumes, in cm³, of a solution of a chemical.

    Raises `CannotMakeError` where it cannot be worked out or made.
    """
    if is_bought(chemical):
        raise CannotMakeError("why_bought")
    start = start_for(chemical)
    exact = is_exact(strength)
    batches = tuple(
        _with_helper(_batch(start, chemical, strength, v, exact=exact), chemical)
        for v in volumes
    )
    return Making(start, batches, exact, _standard(start, exact=exact))


def making_by_recipe(
    recipe: Recipe, solids: Sequence[Chemical], volumes: tuple[Fraction, ...]
) -> Making:
    """How to make these volumes, in cm³, by a recipe whose solids these are."""
    reads = measures().reads
    liquids = recipe.liquids

    def batch(volume: Fraction) -> Batch:
        masses = [rounded_to(g * volume / 1000, reads) for _, g in recipe.solids]
        more = zip(solids[1:], masses[1:], strict=True)
        also = (
            *(Added(c.name, mass=m) for c, m in more),
            *(Added(name, volume=v * volume / 1000) for name, v in liquids),
        )
        return Batch(volume, in_flask=False, mass=masses[0], also=also)

    start = start_for(solids[0])
    return Making(start, tuple(map(batch, volumes)), False, filtered=recipe.filtered)


def _with_helper(batch: Batch, chemical: Chemical) -> Batch:
    """With what a solid needs to dissolve at all: iodine its iodide."""
    helper = helper_for(chemical)
    if helper is None or batch.mass is None:
        return batch
    name, times = helper
    mass = rounded_to(batch.mass * times, measures().reads)
    return replace(batch, also=(Added(name, mass=mass),))


def _standard(start: Start, *, exact: bool) -> Standard | None:
    if not exact:
        return None
    standard = standard_for(start.chemical)
    if start.is_standard and not loses_strength(start.chemical):
        return None
    return standard


def _batch(
    start: Start,
    chemical: Chemical,
    strength: Quantity,
    volume: Fraction,
    *,
    exact: bool,
) -> Batch:
    in_flask = exact and is_flask_size(volume)
    batch = Batch(volume, in_flask)
    if start.kind is StartKind.SOLID:
        refuse_undissolved(chemical, strength)
        mass = _mass(start, chemical, strength) * volume / 1000
        # What is standardised afterwards need not be weighed to three figures.
        to_figures = exact and _standard(start, exact=exact) is None
        return weighed(batch, mass, chemical, exact=to_figures)
    share = _share(start, chemical, strength)
    if share > 1:
        raise CannotMakeError("why_weak", name=start.called)
    return _measured(batch, share * volume, start, exact=exact)


def _mass(start: Start, chemical: Chemical, strength: Quantity) -> Fraction:
    """What is weighed for 1 dm³, in g."""
    if volume_fraction(strength) is not None:
        raise CannotMakeError("why_volume_of_solid")
    moles = moles_per_dm3(chemical, strength) if start.formula else None
    if moles is not None and start.formula is not None:
        return moles * mass_of_mole(start.formula) / start.purity
    return grams_per_dm3(chemical, strength) / start.purity


def _share(start: Start, chemical: Chemical, strength: Quantity) -> Fraction:
    """The part of the solution's volume that is stock."""
    by_volume = volume_fraction(strength)
    if by_volume is not None:
        if start.is_pure_liquid:
            return by_volume
        raise CannotMakeError("why_not_pure", name=start.called)
    moles = moles_per_dm3(chemical, strength)
    if moles is not None and start.moles:
        return moles / start.moles
    if not start.grams:
        raise CannotMakeError("why_how_strong", name=start.called)
    return grams_per_dm3(chemical, strength) / start.grams


def _measured(batch: Batch, stock: Fraction, start: Start, *, exact: bool) -> Batch:
    if stock == batch.volume:
        return replace(batch, stock=stock, is_straight=True)
    read = exactly if exact and start.is_standard else by_cylinder
    dilutions, taken = 0, stock
    while taken < measures().least_stock and dilutions < _MOST_DILUTIONS:
        dilutions, taken = dilutions + 1, taken * _TEN
    return replace(batch, stock=stock, measured=read(taken), dilutions=dilutions)


def _taken(batch: Batch) -> Fraction:
    if batch.mass is not None:
        return batch.mass
    if batch.dilutions:
        return measures().take
    if batch.measured is not None:
        return batch.measured.total
    return batch.stock or Fraction(0)
