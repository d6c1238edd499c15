"""The chemicals of an experiment's list, looked up, with every name they go by.

A step seldom says *sodium thiosulfate solution* twice: it says *the
thiosulfate*. So each entry is known by its own name, by the names of what it
is, by what students are shown, and by the words that can mean it where one
entry only can be meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from manualgen.chemistry import Formula, density, formula_of
from manualgen.knowledge import (
    Chemical,
    Classification,
    Form,
    StrengthError,
    classify,
    find_chemical,
)
from manualgen.knowledge.names import key
from manualgen.knowledge.phrases import Phrasebook
from manualgen.knowledge.plurals import plural_of
from manualgen.model.experiment import Experiment
from manualgen.model.lab import ListedChemical, Strength
from manualgen.model.place import Place
from manualgen.quantities import Quantity
from manualgen.working.laboratory import Laboratory

_CALLED_BY_KIN = {
    "acids": ("acid",),
    "alkalis": ("alkali",),
    "carbonates": ("carbonate",),
    "indicators": ("indicator",),
    "metal oxides": ("oxide",),
    "metals": ("metal",),
    "reactive metals": ("metal",),
    "alcohols": ("alcohol",),
    "peroxides": ("peroxide", "bleach"),
    "halogens": ("halogen",),
    "halogenated solvents": ("halogenoalkane", "haloalkane"),
    "ketones": ("ketone",),
    "esters": ("ester",),
    "chlorides": ("halide",),
    "bromides": ("halide",),
    "iodides": ("halide",),
}
_TOO_GENERAL = frozenset(
    {"acid", "solution", "water", "powder", "salt", "solid", "reagent", "oil", "gas"}
    | {
        "indicator",
        "red",
        "paper",
        "liquid",
        "juice",
        "tablet",
        "hydrate",
        "b",
        "a",
        "1",
        "2",
    }
)
_NUMERAL = re.compile(r"\((?:0|[IVX]+)\)")
_IN_BRACKETS = re.compile(r"(?P<name>.+?)\s+\((?P<said>[^\d\s]\D*)\)")
"""*Marble chips (small)*, *indigestion tablets (calcium carbonate)*; a strength in
figures is no part of a name.
"""


@dataclass(frozen=True, slots=True)
class Identity:
    """What a listed chemical is, or for some groups may be, at its strength."""

    name: str
    place: Place
    chemical: Chemical | None
    """None where neither table knows it."""
    strength: Quantity | str | None
    classification: Classification | None
    """Its hazards at this strength; None where nothing is known of them."""


@dataclass(frozen=True, slots=True)
class Resolved:
    """A line of the list with what it is."""

    listed: ListedChemical
    identities: tuple[Identity, ...]
    """One, but for an unknown that differs from group to group."""
    solvent: Identity | None = None

    @property
    def chemical(self) -> Chemical | None:
        """What it is, where it is one thing that a table knows."""
        return self.identities[0].chemical if len(self.identities) == 1 else None

    @property
    def strength(self) -> Quantity | str | None:
        """The true strength."""
        return self.identities[0].strength

    @property
    def in_use(self) -> bool:
        """Whether a step is meant to use it."""
        return not (self.listed.for_disposal or self.listed.for_spills)


@dataclass(frozen=True, slots=True, eq=False)
class Lineup:
    """All listed chemicals, and a book of the words that mean them."""

    entries: tuple[Resolved, ...]
    names: Phrasebook[tuple[int, ...]]
    """Full names: the entries that each means."""
    short: Phrasebook[tuple[int, ...]]
    """Short names such as *the acid*: the entries that each can mean."""

    def of_substance(self, substance: str) -> tuple[int, ...]:
        """The entries that are, or may be, a substance."""
        return tuple(
            n
            for n, entry in enumerate(self.entries)
            for identity in (*entry.identities, entry.solvent)
            if identity
            and identity.chemical
            and identity.chemical.substance == substance
        )


def line_up(experiment: Experiment, laboratory: Laboratory) -> Lineup:
    """The listed chemicals of an experiment, looked up."""
    entries = tuple(_resolved(c, laboratory) for c in experiment.chemicals)
    return Lineup(
        entries,
        Phrasebook(_grouped(_full_names(entries))),
        Phrasebook(_grouped(_short_names(entries))),
    )


def look_up(name: str, laboratory: Laboratory) -> Chemical | None:
    """A chemical that a table knows, or that its systematic name tells.

    Where none does, brackets behind the name say of what kind it is, or what it is.
    """
    for written in (name, *_without_brackets(name)):
        found = find_chemical(written, laboratory.store)
        if found is not None:
            return found
        formula = formula_of(written)
        if formula is not None:
            return _told_by_name(written, formula)
    return None


def _without_brackets(name: str) -> tuple[str, ...]:
    """The ways to write a name that has brackets behind it.

    >>> _without_brackets("benzoic acid (impure)")
    ('impure benzoic acid', 'benzoic acid', 'impure')
    >>> _without_brackets("iron (III)")
    ()
    """
    match = _IN_BRACKETS.fullmatch(name)
    if match is None or _NUMERAL.fullmatch(f"({match['said']})"):
        return ()
    return f"{match['said']} {match['name']}", match["name"], match["said"]


def _told_by_name(name: str, formula: Formula) -> Chemical:
    """What a systematic name tells: a formula, and of a pure liquid its density."""
    weight = density(formula)
    form = Form.SOLID if weight is None else Form.LIQUID
    return Chemical(
        name, key(name), formula=formula, basis=formula, form=form, density=weight
    )


def _resolved(listed: ListedChemical, laboratory: Laboratory) -> Resolved:
    solvent = None
    if listed.solvent:
        solvent = _identity(
            listed.solvent, listed.place, listed.solvent_strength, laboratory
        )
    if listed.sets:
        each = tuple(
            _identity(s.name, s.place, s.strength or listed.strength, laboratory)
            for s in listed.sets
        )
        return Resolved(listed, each, solvent)
    strength = listed.made or listed.strength
    identity = _identity(listed.name, listed.name_place, strength, laboratory)
    return Resolved(listed, (identity,), solvent)


def _identity(
    name: str, place: Place, strength: Strength | None, laboratory: Laboratory
) -> Identity:
    value = strength.value if strength else _strength_in(name)
    chemical, classification = _known_of(name, value, laboratory)
    return Identity(name, place, chemical, value, classification)


@lru_cache(maxsize=1024)
def _known_of(
    name: str, strength: Quantity | str | None, laboratory: Laboratory
) -> tuple[Chemical | None, Classification | None]:
    chemical = look_up(name, laboratory)
    if chemical is None:
        return None, None
    try:
        return chemical, classify(chemical, strength)
    except StrengthError:
        return chemical, classify(chemical)


def _before_brackets(name: str) -> str:
    match = _IN_BRACKETS.fullmatch(name)
    return match["name"] if match else name


def _strength_in(name: str) -> str | None:
    """``concentrated hydrochloric acid``: the strength said with the name."""
    match = _IN_BRACKETS.fullmatch(name)
    said = {name.split(" ", 1)[0].casefold(), match["said"].casefold() if match else ""}
    strengths = ("concentrated", "glacial", "saturated")
    return next((word for word in strengths if word in said), None)


def _full_names(entries: Sequence[Resolved]) -> Iterator[tuple[str, int]]:
    for n, entry in enumerate(entries):
        listed = entry.listed
        for name in dict.fromkeys((listed.name, _before_brackets(listed.name))):
            yield name, n
            yield plural_of(name), n
        if listed.shown:
            yield listed.shown, n
            yield plural_of(listed.shown), n
            continue
        for identity in entry.identities:
            if identity.chemical:
                yield identity.chemical.name, n
                yield from ((also, n) for also in identity.chemical.also)


def _short_names(entries: Sequence[Resolved]) -> Iterator[tuple[str, int]]:
    """What may mean an entry: *the acid*, *the thiosulfate*, *the tablets*."""
    for n, entry in enumerate(entries):
        if not entry.listed.shown:
            for word in dict.fromkeys(_words_for(entry)):
                yield word, n
                yield (
                    (word.removesuffix("s") if word.endswith("s") else plural_of(word)),
                    n,
                )


def _words_for(entry: Resolved) -> Iterator[str]:
    chemical = entry.chemical
    own = _before_brackets(entry.listed.name)
    for name in (own, chemical.name if chemical else ""):
        bare = _NUMERAL.sub("", name)
        words = re.findall(r"[^\W\d_]{3,}", bare)
        if words[1:] and words[-1].casefold() in ("solution", "liquid", "mixture"):
            yield from (f"{words[0]} {w}" for w in ("solution", "liquid", "mixture"))
        yield from (w for w in words[-1:] if w.casefold() not in _TOO_GENERAL)
    for kin in chemical.kin if chemical else ():
        yield from _CALLED_BY_KIN.get(kin, ())
    yield from _by_its_name(own.casefold())
    if entry.strength is not None:
        yield "solution"
    elif chemical is None or chemical.form is Form.SOLID:
        yield "solid"


def _by_its_name(name: str) -> Iterator[str]:
    if name.endswith(" acid"):
        yield "acid"
    if name.startswith("buffer "):
        yield "buffer"
    if name.endswith(("hydrate", "-water")) or name.startswith("hydrated "):
        yield "hydrate"


def _grouped(names: Iterator[tuple[str, int]]) -> Iterator[tuple[str, tuple[int, ...]]]:
    found: dict[str, dict[int, None]] = {}
    for name, n in names:
        found.setdefault(key(name), {})[n] = None
    for name, entries in found.items():
        yield name, tuple(entries)
