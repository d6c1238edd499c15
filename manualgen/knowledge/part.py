"""An ingredient of a mixture with what its hazard data say, and a result."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from manualgen.chemistry import Formula, mass_fractions
from manualgen.knowledge.chemical import HazardData
from manualgen.knowledge.hazard_class import HazardClass


@dataclass(frozen=True, slots=True)
class Part:
    """An ingredient, at so many % w/w."""

    name: str
    hazards: HazardData
    basis: Formula | None
    percent: Decimal

    def counted(self, hazard: HazardClass) -> Decimal:
        """The per cent that a class's limits count: of the metal under Note 1."""
        if hazard.counted_as is None or self.basis is None:
            return self.percent
        return self.percent * mass_fractions(self.basis)[hazard.counted_as]

    def limit(self, statement: str, name: str | None = None) -> Decimal | None:
        """The least specific limit for a statement, of one category or of any."""
        limits = [
            x.percent
            for x in self.hazards.limits
            if x.hazard.statement == statement and name in (None, x.hazard.name)
        ]
        return min(limits, default=None)

    def of_class(
        self, name: str, statement: str | None = None
    ) -> Iterator[HazardClass]:
        """The classes of this name that the ingredient has."""
        for hazard in self.hazards.classes:
            if hazard.name == name and statement in (None, hazard.statement):
                yield hazard


@dataclass(frozen=True, slots=True)
class Reached:
    """A class that the mixture reaches, and why."""

    hazard: HazardClass
    why: str
    names: str = ""
    """The ingredient that the statement names."""
