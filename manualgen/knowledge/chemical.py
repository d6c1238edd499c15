"""What the tables know of a chemical: its names, its formula, its hazards.

A `Chemical` is a substance, a coarse form of one whose hazards differ
(magnesium powder), or a mixture. Two of one `substance` are the same thing to
somebody who follows a method; `formula` is that of the form that was named.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from manualgen.chemistry import Formula
from manualgen.knowledge.hazard_class import HazardClass, Limit
from manualgen.knowledge.supply import Supply
from manualgen.quantities import Quantity


class Form(StrEnum):
    """How a chemical is usually met."""

    SOLID = "solid"
    LIQUID = "liquid"
    GAS = "gas"
    SOLUTION = "solution"


@dataclass(frozen=True, slots=True)
class HazardData:
    """What a source says of a substance's hazards; no classes is "assessed, none"."""

    classes: tuple[HazardClass, ...]
    source: str
    seen: str = "memory"
    """``stored`` where the source was read, ``memory`` where it is recalled."""
    limits: tuple[Limit, ...] = ()
    """Specific concentration limits, which go before the generic ones."""
    flammable: tuple[Limit, ...] = ()
    """Cautious limits for a solution in water whose flash point is not known."""
    estimates: tuple[tuple[str, Decimal], ...] = ()
    """Acute toxicity estimates by route: oral, dermal, gas, vapour, dust."""
    inhaled: str = "dust"
    m_factors: tuple[Decimal, Decimal] = (Decimal(1), Decimal(1))
    """Acute and chronic."""
    euh: tuple[str, ...] = ()
    """Supplemental statements, ``EUH031 from 5`` with a limit in % w/w."""


@dataclass(frozen=True, slots=True)
class Ingredient:
    """A part of a mixture."""

    name: str
    percent: Decimal
    """Mass fraction, in per cent."""


@dataclass(frozen=True, slots=True)
class StatedHazards:
    """Hazard statements that the store gives for one form or range of strengths."""

    form: str
    """``solid``, ``up to 0.02 mol/dm3``; empty for the form supplied."""
    upper: Quantity | None
    statements: tuple[str, ...]
    signal: str | None
    source: str


@dataclass(frozen=True, slots=True)
class Chemical:
    """A chemical by one of its names."""

    name: str
    substance: str
    also: tuple[str, ...] = ()
    formula: Formula | None = None
    """Of the form that was named; the usual form where none was."""
    basis: Formula | None = None
    """The species of which the hazard data count per cent."""
    hydrates: tuple[Formula, ...] = ()
    form: Form = Form.SOLID
    cas: str | None = None
    hazards: HazardData | None = None
    """None for a mixture, and where nothing is known."""
    ingredients: tuple[Ingredient, ...] = ()
    strength_of: str | None = None
    """The ingredient that a stated strength is of."""
    dissolved: str | None = None
    """The entry that a solution is classified by, where it is another."""
    concentrated: Decimal | None = None
    """Mass fraction of the concentrated solution, in per cent."""
    saturated: Decimal | None = None
    """Mass fraction of the saturated solution at room temperature, in per cent."""
    density: Decimal | None = None
    """Of the pure liquid at 20 °C, in g/cm³."""
    acid_from: Decimal | None = None
    """Per cent w/w from which the pH is 2 or less."""
    alkali_from: Decimal | None = None
    """Per cent w/w from which the pH is 11.5 or more."""
    kin: frozenset[str] = frozenset()
    disposal: str = ""
    """The usual route, or the store's own."""
    note: str = ""
    source: str = ""
    supply: Supply | None = None
    """What the department's store keeps; None where the store has no entry."""
    stated: tuple[StatedHazards, ...] = ()
    """Hazards that the store states in place of the table's."""

    @property
    def is_known(self) -> bool:
        """Whether anything is known of its hazards, be it that it has none."""
        return self.hazards is not None or bool(self.ingredients or self.stated)
