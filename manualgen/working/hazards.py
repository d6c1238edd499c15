"""The hazard box of an experiment: what is used or made, and what it can do.

Every chemical in use at its strength, every gas that the equations make, with
how much at most, and what else they make that is hazardous. An unknown stands
under the name that students are shown, with all that it may be. The box says
what a label would say; it never says that anything is safe.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from manualgen.chemistry import gas_volume
from manualgen.knowledge import (
    Chemical,
    Classification,
    Precaution,
    StrengthError,
    classify,
    response_statements,
    united,
)
from manualgen.model.manual import Settings
from manualgen.quantities import Quantity, parse_unit
from manualgen.quantities.figures import rounded_to_figures
from manualgen.quantities.kinds import kind_of
from manualgen.working.evolved import Made, Reaction
from manualgen.working.listed import Identity, Resolved
from manualgen.working.materials import Materials

_FIGURES = 2
"""Of the strength of a product in solution: it is a bound and no measurement."""


@dataclass(frozen=True, slots=True)
class HazardEntry:
    """One line of the hazard box."""

    name: str
    """As students see it."""
    strength: Quantity | str | None
    """None where there is none, and for an unknown."""
    classification: Classification | None
    """None where no table knows the hazards."""
    chemicals: tuple[Chemical, ...]
    """What it is; for an unknown, all that it may be."""
    made: Made | None = None
    gas_m3: Fraction | None = None
    """The volume of a gas that is made, at most, at the room's conditions."""
    listed: int | None = None
    """The entry of the list."""


@dataclass(frozen=True, slots=True)
class HazardBox:
    """Safety N.1."""

    entries: tuple[HazardEntry, ...] = ()
    controls: tuple[str, ...] = ()
    """The laboratory's standing rules."""
    response: tuple[Precaution, ...] = ()
    """What to do when something has gone wrong, in the standard's number order."""


def hazard_box(
    materials: Materials,
    reactions: Sequence[Reaction],
    made: Sequence[Made],
    settings: Settings,
) -> HazardBox:
    """The hazard box from what is listed and what the equations make."""
    used = list(_used(materials))
    products = list(_made(made, reactions, materials, settings))
    entries = _without_repeats((*used, *products))
    classes = {
        hazard
        for entry in entries
        if entry.classification
        for hazard in entry.classification.classes
    }
    return HazardBox(entries, settings.standing_controls, response_statements(classes))


def _used(materials: Materials) -> Iterator[HazardEntry]:
    for n, entry in enumerate(materials.lineup.entries):
        if not entry.in_use:
            continue
        yield _listed(entry, n)
        if entry.solvent is not None:
            yield _identified(entry.solvent, n)


def _listed(entry: Resolved, n: int) -> HazardEntry:
    shown = entry.listed.shown
    if shown is None:
        return _identified(entry.identities[0], n)
    known = [i.classification for i in entry.identities]
    whole = None if None in known else united([k for k in known if k is not None])
    chemicals = tuple(i.chemical for i in entry.identities if i.chemical)
    return HazardEntry(shown, None, whole, chemicals, listed=n)


def _identified(identity: Identity, n: int) -> HazardEntry:
    chemicals = (identity.chemical,) if identity.chemical else ()
    return HazardEntry(
        identity.name, identity.strength, identity.classification, chemicals, listed=n
    )


def _made(
    made: Sequence[Made],
    reactions: Sequence[Reaction],
    materials: Materials,
    settings: Settings,
) -> Iterator[HazardEntry]:
    litres = {r.place: _solution_litres(r, materials) for r in reactions}
    for product in made:
        if product.chemical is None or product.chemical.substance == "water":
            continue
        strength = _strength(product, litres.get(product.place))
        if product.term.state == "aq" and strength is None:
            continue
        found = _classified(product.chemical, strength)
        if product.is_gas or (found and found.is_classified):
            yield HazardEntry(
                product.chemical.name,
                strength,
                found,
                (product.chemical,),
                product,
                _gas(product, settings),
            )


def _classified(chemical: Chemical, strength: Quantity | None) -> Classification | None:
    try:
        return classify(chemical, strength)
    except StrengthError:
        return classify(chemical)


def _strength(product: Made, litres: Fraction | None) -> Quantity | None:
    """The concentration of a product in solution, at most."""
    if product.term.state != "aq" or not litres or product.moles is None:
        return None
    value = rounded_to_figures(product.moles / litres, _FIGURES)
    return Quantity(value, parse_unit("mol/dm3"))


def _solution_litres(reaction: Reaction, materials: Materials) -> Fraction | None:
    """The volume of the solutions that are put together, in dm³."""
    total = Fraction(0)
    for _, entries in reaction.entries:
        for n in entries:
            entry = materials.lineup.entries[n]
            handled = [h.amount for h in materials.handled(n)]
            listed = [entry.listed.amount.value] if entry.listed.amount else []
            total += max(_litres(handled), _litres(listed))
    return total or None


def _litres(amounts: Sequence[Quantity]) -> Fraction:
    volumes = (q for q in amounts if kind_of(q.unit) == "volume")
    return sum((q.si_value * 1000 for q in volumes), Fraction(0))


def _gas(product: Made, settings: Settings) -> Fraction | None:
    if not product.is_gas or product.moles is None:
        return None
    temperature, pressure = settings.temperature.si_value, settings.pressure.si_value
    return gas_volume(product.moles, temperature, pressure)


def _without_repeats(entries: Sequence[HazardEntry]) -> tuple[HazardEntry, ...]:
    """One line for a chemical at a strength, and none for a product that is listed."""
    kept: dict[tuple[str, object], HazardEntry] = {}
    listed = {c.substance for e in entries if not e.made for c in e.chemicals}
    for entry in entries:
        is_listed = any(c.substance in listed for c in entry.chemicals)
        if entry.made and is_listed and not entry.made.is_gas:
            continue
        known = kept.setdefault((entry.name, entry.strength), entry)
        if (entry.gas_m3 or 0) > (known.gas_m3 or 0):
            kept[entry.name, entry.strength] = entry
    return tuple(kept.values())
