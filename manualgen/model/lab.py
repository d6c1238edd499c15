"""What an experiment's lists ask for: chemicals and apparatus."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from manualgen.model.place import Place
from manualgen.quantities import Quantity


class StrengthWord(StrEnum):
    """Strengths that are words."""

    CONCENTRATED = "concentrated"
    GLACIAL = "glacial"
    SATURATED = "saturated"


class ShareBy(StrEnum):
    """Who shares a piece that not every group has."""

    CLASS = "per class"
    STATION = "per station"


@dataclass(frozen=True, slots=True)
class Sharing:
    """``2 per class``."""

    number: int
    by: ShareBy


@dataclass(frozen=True, slots=True)
class Strength:
    """How strong a solution is: a quantity or a word, and where it is written."""

    value: Quantity | StrengthWord
    place: Place


@dataclass(frozen=True, slots=True)
class Amount:
    """How much each group is given, and where it is written."""

    value: Quantity
    place: Place


@dataclass(frozen=True, slots=True)
class IdentitySet:
    """``groups 1-4: sodium carbonate``: what an unknown is for some groups."""

    first_group: int
    last_group: int
    name: str
    place: Place
    strength: Strength | None = None
    """Where these groups' solution has one of its own."""


@dataclass(frozen=True, slots=True)
class ListedChemical:
    """A line of ``chemicals:``."""

    name: str
    """What it is; for a `sets` unknown, what students are shown."""
    place: Place
    """The whole entry."""
    name_place: Place
    strength: Strength | None = None
    amount: Amount | None = None
    excess: bool = False
    shared: Sharing | None = None
    for_disposal: bool = False
    for_spills: bool = False
    weighed_out: bool = False
    spare: Quantity | None = None
    """A fraction of 1 in per cent, in place of the manual's."""
    solvent: str | None = None
    solvent_strength: Strength | None = None
    shown: str | None = None
    """All that students see of an unknown."""
    made: Strength | None = None
    """The true strength of a solution that students standardise."""
    sets: tuple[IdentitySet, ...] = ()
    words: tuple[str, ...] = ()
    """Other words about it, for whoever sets the room out: ``powder``."""


class GlassClass(StrEnum):
    """Accuracy class of volumetric glassware (ISO 384)."""

    A = "A"
    B = "B"


@dataclass(frozen=True, slots=True)
class ListedApparatus:
    """A line of ``apparatus:``."""

    name: str
    place: Place
    name_place: Place
    count: int = 1
    capacity: Quantity | None = None
    glass_class: GlassClass | None = None
    resolution: Quantity | None = None
    """From ``reading to 0.01 g``."""
    shared: Sharing | None = None
    words: tuple[str, ...] = ()
    """Other words about it, for whoever sets the room out: ``clean``."""
