"""What a manual's department has: its store and its vocabulary of apparatus."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from manualgen.knowledge import (
    NO_STORE,
    Piece,
    StatedHazards,
    Store,
    StoreEntry,
    Vocabulary,
    builtin_vocabulary,
    store_of,
)
from manualgen.model.manual import Manual, StoredApparatus, StoredChemical


@dataclass(frozen=True, slots=True, eq=False)
class Laboratory:
    """The tables in which chemicals and apparatus are looked up."""

    store: Store = NO_STORE
    vocabulary: Vocabulary = field(default_factory=builtin_vocabulary)


def laboratory_of(manual: Manual) -> Laboratory:
    """The laboratory that a manual is for."""
    store = store_of(map(_entry, manual.chemicals)) if manual.chemicals else NO_STORE
    if not manual.apparatus:
        return Laboratory(store)
    return Laboratory(store, Vocabulary(map(_piece, manual.apparatus)))


def _entry(stored: StoredChemical) -> StoreEntry:
    return StoreEntry(
        stored.name,
        stored.formula,
        stored.supplied,
        stored.also,
        tuple(_stated(stored)),
        stored.source,
        stored.disposal,
    )


def _stated(stored: StoredChemical) -> Iterator[StatedHazards]:
    for form in stored.hazards or ():
        yield StatedHazards(
            form.form,
            form.upper,
            form.hazards,
            stored.signal if form.hazards else None,
            stored.source or "",
        )


def _piece(stored: StoredApparatus) -> Piece:
    return Piece(
        stored.name,
        stored.also,
        capacities=stored.capacities,
        resolution=stored.resolution,
        consumable=stored.consumable,
    )
