"""The department's own store, which adds to and overrides the built-in table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from manualgen.chemistry import ChemistryError, Formula, parse_formula
from manualgen.knowledge.chemical import Chemical, Form, StatedHazards
from manualgen.knowledge.chemical_table import chemicals
from manualgen.knowledge.index import Index, builtin_index, index_of
from manualgen.knowledge.names import key
from manualgen.knowledge.supply import Supply, parse_supply
from manualgen.quantities.kinds import kind_of


@dataclass(frozen=True, slots=True)
class StoreEntry:
    """What the store says of one chemical."""

    name: str
    formula: str | None = None
    supplied: str | None = None
    also: tuple[str, ...] = ()
    hazards: tuple[StatedHazards, ...] = ()
    """None stated: the built-in hazards stand."""
    source: str | None = None
    disposal: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Store:
    """The store's chemicals, by every name that they have."""

    entries: tuple[StoreEntry, ...] = ()
    index: Index = field(default_factory=dict)
    kept: Mapping[str, Chemical] = field(default_factory=dict)
    """What the store keeps of each substance."""


NO_STORE = Store()


def store_of(entries: Iterable[StoreEntry]) -> Store:
    """The store with these entries, each filled up from the built-in table."""
    listed = tuple(entries)
    kept = [_merged(entry) for entry in listed]
    return Store(listed, index_of(kept), {c.substance: c for c in kept})


def _merged(entry: StoreEntry) -> Chemical:
    supply = parse_supply(entry.supplied) if entry.supplied else None
    known = _builtin(entry)
    solid = _solid_of(known, entry, supply)
    name, known = (solid.name, solid) if solid else (entry.name, known)
    formula = _formula(entry.formula) or known.formula
    supplied = supply.formula if supply else None
    return replace(
        known,
        name=name,
        also=(*known.also, *entry.also, known.name),
        formula=formula,
        basis=known.basis or formula,
        hydrates=(*known.hydrates, *([supplied] if supplied else [])),
        supply=supply,
        stated=entry.hazards,
        disposal=entry.disposal or known.disposal,
        source=entry.source or known.source,
    )


def _builtin(entry: StoreEntry) -> Chemical:
    names = map(key, (entry.name, *entry.also))
    found = (builtin_index()[name] for name in names if name in builtin_index())
    return next(found, Chemical(entry.name, entry.name))


def _solid_of(
    known: Chemical, entry: StoreEntry, supply: Supply | None
) -> Chemical | None:
    """The solid that is kept where the bare name means its solution.

    Who writes *phenolphthalein* in a list means the indicator's solution; who
    keeps a powder of that name has what the solution is made of. It goes by the
    solid's own names, so that the bare one goes on meaning the solution.
    """
    is_solution = known.form is Form.SOLUTION and known.formula is None
    if not (is_solution and key(entry.name) == key(known.substance)):
        return None
    if not _is_kept_solid(entry, supply):
        return None
    return next(
        (
            chemical
            for chemical in chemicals()
            if chemical.substance == known.substance and chemical.form is Form.SOLID
        ),
        None,
    )


def _is_kept_solid(entry: StoreEntry, supply: Supply | None) -> bool:
    """Whether its pack is weighed, or, with no pack, it has a formula and no strength."""
    if supply is not None and supply.pack is not None:
        return kind_of(supply.pack.unit) == "mass"
    return entry.formula is not None and (supply is None or supply.strength is None)


def _formula(text: str | None) -> Formula | None:
    """The formula, where it is one; what is wrong with it is another's to say."""
    try:
        return parse_formula(text) if text else None
    except ChemistryError:
        return None
