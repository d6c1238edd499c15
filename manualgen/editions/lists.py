"""The lists of chemicals and apparatus as they are printed."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.chemistry import formula_of
from manualgen.editions.sheet import ListRow
from manualgen.model.lab import (
    ListedApparatus,
    ListedChemical,
    Strength,
    StrengthWord,
)
from manualgen.quantities import HouseStyle, printed


def students_chemical(listed: ListedChemical, house: HouseStyle) -> ListRow:
    """A chemical as students may know it: an unknown by what they are shown."""
    if listed.shown is None:
        return true_chemical(listed, house)
    return ListRow(listed.shown, None, tuple(_details(listed, house, None)))


def true_chemical(listed: ListedChemical, house: HouseStyle) -> ListRow:
    """A chemical by its own name, with its formula where the name gives one."""
    strength = listed.made or listed.strength
    return ListRow(
        listed.name,
        formula_of(listed.name) if not listed.sets else None,
        tuple(_details(listed, house, strength)),
    )


def printed_strength(strength: Strength, house: HouseStyle) -> str:
    """A strength in the house style, or the word for it."""
    value = strength.value
    return value.value if isinstance(value, StrengthWord) else printed(value, house)


def _details(
    listed: ListedChemical, house: HouseStyle, strength: Strength | None
) -> Iterator[str]:
    if strength:
        yield printed_strength(strength, house)
    if listed.amount:
        yield printed(listed.amount.value, house)
    if listed.solvent and listed.shown is None:
        solvent = listed.solvent
        if listed.solvent_strength:
            solvent += ", " + printed_strength(listed.solvent_strength, house)
        yield f"in {solvent}"
    if listed.excess:
        yield "an excess"
    if listed.shared:
        yield f"{listed.shared.number} {listed.shared.by.value}"
    if listed.for_disposal:
        yield "for disposal"
    if listed.for_spills:
        yield "for spills"


def apparatus_row(listed: ListedApparatus, house: HouseStyle) -> ListRow:
    """A piece of apparatus with how many, how large and how fine."""
    details: list[str] = []
    if listed.capacity:
        details.append(printed(listed.capacity, house))
    if listed.glass_class:
        details.append(f"class {listed.glass_class.value}")
    if listed.resolution:
        details.append(f"reading to {printed(listed.resolution, house)}")
    if listed.shared:
        details.append(f"{listed.shared.number} {listed.shared.by.value}")
    name = f"{listed.count} {listed.name}" if listed.count > 1 else listed.name
    return ListRow(name, None, tuple(details))
