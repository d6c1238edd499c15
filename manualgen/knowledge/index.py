"""Chemicals by every name that they go by."""

from __future__ import annotations

import copyreg
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import fields, replace
from functools import lru_cache
from typing import Any, TypeAlias

from manualgen.chemistry import Formula
from manualgen.knowledge.chemical import Chemical
from manualgen.knowledge.chemical_table import chemicals
from manualgen.knowledge.names import hydrate_names, key

Index: TypeAlias = Mapping[str, Chemical]


@lru_cache(maxsize=1)
def builtin_index() -> Index:
    """The built-in chemicals by the keys of their names."""
    return index_of(chemicals())


@lru_cache(maxsize=1)
def _keys() -> Mapping[int, str]:
    """A key of each built-in chemical, by its identity."""
    return {id(chemical): name for name, chemical in builtin_index().items()}


def _builtin(name: str) -> Chemical:
    return builtin_index()[name]


@lru_cache(maxsize=1024)
def _shared(*values: Any) -> Chemical:
    return Chemical(*values)


def _pickled(chemical: Chemical) -> tuple[Callable[..., Chemical], tuple[object, ...]]:
    """A built-in chemical goes from process to process by its name alone.

    Of the department's own, those that are alike are kept once.
    """
    if name := _keys().get(id(chemical)):
        return _builtin, (name,)
    return _shared, tuple(getattr(chemical, f.name) for f in fields(chemical))


copyreg.pickle(Chemical, _pickled)


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
