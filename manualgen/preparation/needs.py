"""What the classes need of each listed chemical: how many portions, and how much in all.

The spare is a percentage of what the groups use. A dropping bottle holds at
least 5 cm³ whatever is used of it; what the class shares is not multiplied; a
drop is about 0.05 cm³ of an aqueous solution (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from math import ceil

from manualgen.knowledge import Chemical, Form
from manualgen.model.lab import IdentitySet, ShareBy
from manualgen.preparation.parts import (
    amount_in_part,
    entries_by_part,
    needs_chemical,
    stations_with,
)
from manualgen.preparation.rules import measures, recipe_for, stock_rule
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import PURE, kind_of
from manualgen.working.listed import Identity, Resolved
from manualgen.working.worked import WorkedExperiment

_CM3 = 1_000_000
"""cm³ in 1 m³."""
_GRAMS = 1000
_DROPS = ("drop", "drops")
_AT_HAND = frozenset({"water", "gases"})
FROM_THE_BOTTLE = ("concentrated", "glacial")


@dataclass(frozen=True, slots=True)
class Sitting:
    """One class that comes: an experiment, or a part of it, with so many groups."""

    work: WorkedExperiment
    groups: int
    part: int | None = None
    """The lesson or station, counted; None for the whole."""


@dataclass(frozen=True, slots=True)
class Order:
    """The classes to prepare for, with a spare for each hundred."""

    sittings: tuple[Sitting, ...]
    spare: Fraction
    """A fraction of 1; an entry of a list may have its own."""


class Shape(StrEnum):
    """In what shape a chemical is given out."""

    SOLUTION = "solution"
    """Made here, at a strength or to a recipe."""
    LIQUID = "liquid"
    """Poured from the bottle that it is bought in."""
    SOLID = "solid"
    PIECES = "pieces"
    """Counted, or cut to a length."""


@dataclass(frozen=True, slots=True)
class Need:
    """What one class needs of one chemical, in cm³, g or pieces."""

    sitting: int
    """Which class, counted from 0."""
    entry: Resolved
    identity: Identity
    shape: Shape
    portions: int
    """Bottles, pots or lots, without the spare."""
    each: Fraction | None
    """In one portion; None where the list and the Method do not say."""
    total: Fraction | None
    """With the spare."""
    amount: Quantity | None
    """As the author writes it, for one group."""
    dropping: bool = False
    groups: tuple[int, int] | None = None
    """The groups whose unknown this is."""

    @property
    def spare_portions(self) -> int:
        """Pieces or lots beyond those that the groups use."""
        if self.shape is not Shape.PIECES or self.total is None or not self.each:
            return 0
        return max(0, ceil(self.total / self.each) - self.portions)


def needs_of(order: Order) -> tuple[Need, ...]:
    """Everything that is needed of the listed chemicals, class by class."""
    return tuple(
        need
        for n, sitting in enumerate(order.sittings)
        for entry in range(len(sitting.work.materials.lineup.entries))
        if needs_chemical(sitting.work, entry, sitting.part)
        for need in _of_entry(n, sitting, entry, order.spare)
    )


def groups_without(sitting: Sitting, entry: Resolved) -> tuple[int, ...]:
    """The groups of a class that an unknown's sets leave without one."""
    if not entry.listed.sets:
        return ()
    given = {g for s in entry.listed.sets for g in _groups_of(s)}
    return tuple(g for g in range(1, sitting.groups + 1) if g not in given)


@dataclass(frozen=True, slots=True)
class _Lot:
    """An entry of a class's list, with who shares it out and what is added to it."""

    sitting: int
    entry: Resolved
    amount: Quantity | None
    portions: int
    spare: Fraction
    groups: tuple[int, int] | None = None


def _of_entry(n: int, sitting: Sitting, entry: int, spare: Fraction) -> Iterator[Need]:
    resolved = sitting.work.materials.lineup.entries[entry]
    own, shared = resolved.listed.spare, resolved.listed.shared
    share = Fraction(0) if shared else own.si_value if own else spare
    amount = amount_in_part(sitting.work, entry, sitting.part)
    portions = _portions(sitting, entry, resolved)
    lot = _Lot(n, resolved, amount, portions, share)
    if not resolved.listed.sets:
        yield _need(lot, resolved.identities[0])
        return
    for each, identity in zip(resolved.listed.sets, resolved.identities, strict=True):
        groups = [g for g in _groups_of(each) if g <= sitting.groups]
        if groups:
            bounds = (groups[0], groups[-1])
            yield _need(replace(lot, portions=len(groups), groups=bounds), identity)


def _groups_of(each: IdentitySet) -> range:
    return range(each.first_group, each.last_group + 1)


def _portions(sitting: Sitting, entry: int, resolved: Resolved) -> int:
    shared = resolved.listed.shared
    if shared is None:
        return sitting.groups
    if shared.by is ShareBy.CLASS:
        return shared.number
    used = entries_by_part(sitting.work).get(entry, set())
    return shared.number * stations_with(sitting.work, used)


def _need(lot: _Lot, identity: Identity) -> Need:
    shape = shape_of(identity, lot.amount)
    each = None if lot.amount is None else measured(lot.amount)
    dropping = _is_dropping(shape, identity, lot.amount, each)
    total = None
    if each is not None and dropping:
        each = _in_dropping_bottle(each, lot.spare)
        total = lot.portions * each
    elif each is not None and shape is Shape.PIECES:
        total = each * ceil(lot.portions * (1 + lot.spare))
    elif each is not None:
        total = each * lot.portions * (1 + lot.spare)
    return Need(
        lot.sitting,
        lot.entry,
        identity,
        shape,
        lot.portions,
        each,
        total,
        lot.amount,
        dropping,
        lot.groups,
    )


def _in_dropping_bottle(each: Fraction, spare: Fraction) -> Fraction:
    """What a dropping bottle holds, its spare in it, in whole cm³."""
    return max(measures().dropping_least, Fraction(ceil(each * (1 + spare))))


def total_of(needs: Iterable[Need]) -> Fraction | None:
    """All that these need, with the spare; None where nobody says how much."""
    totals = [need.total for need in needs]
    known = [total for total in totals if total is not None]
    return sum(known, Fraction(0)) if known else None


def measured(amount: Quantity) -> Fraction:
    """An amount in cm³, g or pieces; of a length, 1 piece; a range at its upper end."""
    value = amount.si_value if amount.si_upper is None else amount.si_upper
    match kind_of(amount.unit):
        case "volume":
            return value * _CM3
        case "mass":
            return value * _GRAMS
        case "length":
            return Fraction(1)
        case _ if is_drops(amount):
            return value * measures().drop
        case _:
            return value


def is_drops(amount: Quantity) -> bool:
    """Whether an amount counts drops."""
    return bool(amount.unit.parts) and amount.unit.parts[0][0].symbol in _DROPS


def is_at_hand(chemical: Chemical | None) -> bool:
    """Whether it comes from the tap, the still or the air."""
    return chemical is not None and bool(_AT_HAND & chemical.kin)


def shape_of(identity: Identity, amount: Quantity | None) -> Shape:
    """In what shape a chemical of an amount is given out."""
    kind = kind_of(amount.unit) if amount else ""
    chemical, strength = identity.chemical, identity.strength
    if isinstance(strength, Quantity) or strength == "saturated":
        return Shape.SOLUTION
    if strength in FROM_THE_BOTTLE:
        return Shape.LIQUID
    if kind == "mass":
        return Shape.SOLID
    if kind in ("length", "count", PURE) and not (amount and is_drops(amount)):
        return Shape.PIECES
    if kind == "volume" or (amount and is_drops(amount)):
        return _poured(chemical)
    is_solid = chemical is not None and chemical.form is Form.SOLID
    return Shape.SOLID if is_solid else Shape.LIQUID


def _poured(chemical: Chemical | None) -> Shape:
    """What is poured without a strength: to a recipe, or out of its own bottle."""
    if chemical is None:
        return Shape.LIQUID
    has_recipe = recipe_for(chemical, None) is not None
    lacks_strength = chemical.form is Form.SOLID or (
        chemical.form is Form.SOLUTION and stock_rule(chemical) is not None
    )
    return Shape.SOLUTION if has_recipe or lacks_strength else Shape.LIQUID


def _is_dropping(
    shape: Shape, identity: Identity, amount: Quantity | None, each: Fraction | None
) -> bool:
    """Whether it goes into dropping bottles."""
    if shape not in (Shape.SOLUTION, Shape.LIQUID) or amount is None or each is None:
        return False
    kin = identity.chemical.kin if identity.chemical else frozenset()
    m = measures()
    is_few = each <= m.dropping_at_most
    is_indicator = bool(kin & m.dropping_kin) and each <= m.dropping_kin_at_most
    return is_few or is_indicator or is_drops(amount)
