"""The department's own store, which adds to and overrides the built-in table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from manualgen.chemistry import ChemistryError, Formula, parse_formula
from manualgen.knowledge.chemical import Chemical, StatedHazards
from manualgen.knowledge.index import Index, builtin_index, index_of
from manualgen.knowledge.names import key
from manualgen.knowledge.supply import parse_supply


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
    known = next(
        (
            builtin_index()[k]
            for n in (entry.name, *entry.also)
            if (k := key(n)) in builtin_index()
        ),
        Chemical(entry.name, entry.name),
    )
    supply = parse_supply(entry.supplied) if entry.supplied else None
    formula = _formula(entry.formula) or known.formula
    supplied = supply.formula if supply else None
    return replace(
        known,
        name=entry.name,
        also=(*known.also, *entry.also, known.name),
        formula=formula,
        basis=known.basis or formula,
        hydrates=(*known.hydrates, *([supplied] if supplied else [])),
        supply=supply,
        stated=entry.hazards,
        disposal=entry.disposal or known.disposal,
        source=entry.source or known.source,
    )


def _formula(text: str | None) -> Formula | None:
    """The formula, where it is one; what is wrong with it is another's to say."""
    try:
        return parse_formula(text) if text else None
    except ChemistryError:
        return None
