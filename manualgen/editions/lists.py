"""The lists of chemicals and apparatus as they are printed."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.chemistry import formula_of
from manualgen.editions.sheet import ListRow
from manualgen.editions.wording import Wording
from manualgen.model.lab import ListedApparatus, ListedChemical, Strength
from manualgen.quantities import printed


def students_chemical(listed: ListedChemical, wording: Wording) -> ListRow:
    """A chemical as students may know it: an unknown by what they are shown."""
    if listed.shown is None:
        return true_chemical(listed, wording)
    return ListRow(listed.shown, None, tuple(_details(listed, wording, None)))


def true_chemical(listed: ListedChemical, wording: Wording) -> ListRow:
    """A chemical by its own name, with its formula where the name gives one."""
    strength = listed.made or listed.strength
    return ListRow(
        listed.name,
        formula_of(listed.name) if not listed.sets else None,
        tuple(_details(listed, wording, strength)),
    )


def _details(
    listed: ListedChemical, wording: Wording, strength: Strength | None
) -> Iterator[str]:
    say = wording.say
    if strength:
        yield wording.strength(strength)
    if listed.amount:
        yield printed(listed.amount.value, wording.house)
    if listed.solvent and listed.shown is None:
        solvent = (listed.solvent, wording.strength(listed.solvent_strength))
        yield say["in_solvent"].format(solvent=", ".join(filter(None, solvent)))
    if listed.excess:
        yield say["an_excess"]
    if listed.shared:
        yield wording.shared(listed.shared)
    if listed.for_disposal:
        yield say["for_disposal"]
    if listed.for_spills:
        yield say["for_spills"]


def apparatus_row(listed: ListedApparatus, wording: Wording) -> ListRow:
    """A piece of apparatus with how many, how large and how fine."""
    say, house = wording.say, wording.house
    details: list[str] = []
    if listed.capacity:
        details.append(printed(listed.capacity, house))
    if listed.glass_class:
        details.append(say["glass_class"].format(letter=listed.glass_class.value))
    if listed.resolution:
        graduation = printed(listed.resolution, house)
        details.append(say["reading_to"].format(graduation=graduation))
    if listed.shared:
        details.append(wording.shared(listed.shared))
    name = f"{listed.count} {listed.name}" if listed.count > 1 else listed.name
    return ListRow(name, None, tuple(details))
