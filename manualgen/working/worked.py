"""The worked manual: the model, and everything that is computed from it.

Each thing is computed once, in `working`, and read by the checks, the
editions, the preparation and the review alike.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field

from manualgen.chemistry import Balance, Equation
from manualgen.model.experiment import Accept, Experiment
from manualgen.model.fences import EquationBlock
from manualgen.model.manual import Manual, Settings
from manualgen.model.place import Place
from manualgen.working.evolved import Made, Reaction
from manualgen.working.hazards import HazardBox
from manualgen.working.laboratory import Laboratory
from manualgen.working.materials import Materials
from manualgen.working.numbers import Numbers


@dataclass(frozen=True, slots=True)
class WorkedEquation:
    """An equation, in a fence or in the line, and its balance."""

    equation: Equation
    balance: Balance
    place: Place
    block: EquationBlock | None
    """The fence it stands in; None for an equation in the line."""
    net_ionic: Equation | None = None
    """Its net ionic form; None where that is not known or nothing reacts."""
    source: str = ""
    """As it was typed; the terms' bounds count its characters."""


@dataclass(frozen=True, slots=True)
class WorkedExperiment:
    """An experiment and what is computed from it."""

    experiment: Experiment
    number: str | None
    """Its number in the manual; None where the manual does not list it."""
    settings: Settings
    equations: tuple[WorkedEquation, ...] = ()
    numbers: Numbers = field(default_factory=Numbers)
    """Its tables, graphs and calculations, worked out."""
    laboratory: Laboratory = field(default_factory=Laboratory)
    """What is kept here: the built-in tables and the department's own."""
    materials: Materials = field(default_factory=Materials)
    """What is listed and what the Method does with it."""
    reactions: tuple[Reaction, ...] = ()
    """Its full equations with the amounts that the steps put together."""
    made: tuple[Made, ...] = ()
    """What the reactions make, and how much at most."""
    hazards: HazardBox = field(default_factory=HazardBox)
    """What the hazard box says."""
    accepts: tuple[Accept, ...] = ()
    """What is accepted of it, in its own file or for the whole manual."""


@dataclass(frozen=True, slots=True)
class Worked:
    """A manual and what is computed from it."""

    manual: Manual
    experiments: tuple[WorkedExperiment, ...]
    today: datetime.date
    """The date that reviews are held against."""
    laboratory: Laboratory = field(default_factory=Laboratory)
    lines: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """The source text by file, for messages that show the line."""

    def line_of(self, place: Place) -> str:
        """The source line at which a place starts, or nothing if unknown."""
        return place.line_in(self.lines)
