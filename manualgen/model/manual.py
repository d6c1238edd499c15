"""The manual: its settings, its order and the department's own tables."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from manualgen.model.experiment import Accept, Experiment
from manualgen.model.finding import Noted
from manualgen.model.place import Place
from manualgen.quantities import HouseStyle, Quantity, Rounding, parse_quantity
from manualgen.quantities.uncertainty import Combination


class Paper(StrEnum):
    """Paper sizes."""

    A4 = "A4"
    LETTER = "Letter"


class SulfurSpelling(StrEnum):
    """``f`` is IUPAC's spelling of sulfur and its compounds."""

    F = "f"
    PH = "ph"


@dataclass(frozen=True, slots=True)
class Entry:
    """An experiment's place in the manual."""

    experiment: str
    number: str
    """``4`` by position, or one that the author keeps, such as ``4a``."""
    place: Place


@dataclass(frozen=True, slots=True)
class ManualPart:
    """A part of the manual."""

    title: str
    entries: tuple[Entry, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class StoredForm:
    """Hazards of one form or range of strengths that the store states."""

    form: str
    """``solid``, ``up to 0.02 mol/dm3`` …; empty for the form supplied."""
    upper: Quantity | None
    hazards: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StoredChemical:
    """An entry of chemicals.yaml."""

    name: str
    place: Place
    formula: str | None = None
    formula_place: Place | None = None
    supplied: str | None = None
    supplied_place: Place | None = None
    also: tuple[str, ...] = ()
    hazards: tuple[StoredForm, ...] | None = None
    """None where the built-in hazards stand."""
    signal: str | None = None
    source: str | None = None
    disposal: str | None = None
    more: tuple[tuple[str, str], ...] = ()
    """Other keys of the stock list, such as shelf and reorder level."""


@dataclass(frozen=True, slots=True)
class StoredApparatus:
    """An entry of apparatus.yaml."""

    name: str
    place: Place
    also: tuple[str, ...] = ()
    capacities: tuple[Quantity, ...] = ()
    resolution: Quantity | None = None
    consumable: bool = False


@dataclass(frozen=True, slots=True)
class OwnLabel:
    """An entry of labels.yaml."""

    language: str
    key: str
    words: str
    place: Place
    """Of the key."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What manual.yaml says, with the format's defaults."""

    title: str = "Practical chemistry"
    institution: str = ""
    edition: str = ""
    language: str = "en-GB"
    paper: Paper = Paper.A4
    groups: int = 12
    spare: Quantity = field(default_factory=lambda: parse_quantity("10 %"))
    temperature: Quantity = field(default_factory=lambda: parse_quantity("20 °C"))
    pressure: Quantity = field(default_factory=lambda: parse_quantity("101 kPa"))
    uncertainty: Combination = Combination.QUADRATURE
    burette: Quantity = field(default_factory=lambda: parse_quantity("0.05 cm3"))
    rounding: Rounding = Rounding.UP
    duplex: bool = False
    house: HouseStyle = field(default_factory=HouseStyle)
    sulfur: SulfurSpelling = SulfurSpelling.F
    standing_controls: tuple[str, ...] = ()
    labels: tuple[tuple[str, str, str], ...] = ()
    """The department's own words for the tool's: language, key and words."""


@dataclass(frozen=True, slots=True)
class Manual:
    """Everything that the content folder says."""

    file: str
    settings: Settings
    parts: tuple[ManualPart, ...] = ()
    experiments: tuple[Experiment, ...] = ()
    """Those that could be read at all, in the manual's order; those that the
    manual does not list come last, by file.
    """
    chemicals: tuple[StoredChemical, ...] = ()
    apparatus: tuple[StoredApparatus, ...] = ()
    labels: tuple[OwnLabel, ...] = ()
    accepts: tuple[Accept, ...] = ()
    noted: tuple[Noted, ...] = ()
    """What reading found wrong in the manual's own files."""

    def entries(self) -> tuple[Entry, ...]:
        """The experiments' places, through all parts."""
        return tuple(e for p in self.parts for e in p.entries)

    def number_of(self, experiment: str) -> str | None:
        """The number under which an experiment is printed."""
        found = (e.number for e in self.entries() if e.experiment == experiment)
        return next(found, None)
