"""Chemicals by every name that they go by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import TypeAlias

from manualgen.chemistry import Formula
from manualgen.knowledge.chemical import Chemical
from manualgen.knowledge.chemical_table import chemicals
from manualgen.knowledge.names import hydrate_names, key

Index: TypeAlias = Mapping[str, Chemical]


@lru_cache(maxsize=1)
def builtin_index() -> Index:
    """The built-in chemicals by the keys of their names."""
    return index_of(chemicals())


def index_of(listed: Iterable[Chemical]) -> Index:
    """These chemicals by the keys of their names, own names before derived ones."""
    all_listed = tuple(listed)
    found: dict[str, Chemical] = {}
    for chemical in all_listed:
        for name in (chemical.name, *chemical.also):
            found.setdefault(key(name), chemical)
    for chemical in all_listed:
        for name, formula in _hydrates_named(chemical):
            found.setdefault(key(name), replace(chemical, formula=formula))
    return found


def _hydrates_named(chemical: Chemical) -> Iterator[tuple[str, Formula]]:
    """The names that say how much water of crystallisation there is."""
    usual = (chemical.formula,) if chemical.formula else ()
    watery = [f for f in (*usual, *chemical.hydrates) if f.adducts]
    for name in (chemical.name, *chemical.also):
        for formula in watery:
            for hydrate in hydrate_names(name, formula):
                yield hydrate, formula
        if watery:
            yield f"hydrated {name}", watery[0]
        if chemical.formula:
            yield f"anhydrous {name}", chemical.formula.anhydrous
