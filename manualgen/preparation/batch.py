"""One making of a solution, and what goes into it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from manualgen.preparation.sizes import Measured


@dataclass(frozen=True, slots=True)
class Added:
    """Something else that goes into a solution."""

    name: str
    mass: Fraction | None = None
    """In g."""
    volume: Fraction | None = None
    """In cm³."""


@dataclass(frozen=True, slots=True)
class Batch:
    """One making, in one vessel. Volumes are in cm³."""

    volume: Fraction
    in_flask: bool
    """Whether it is made up in a volumetric flask; else in a cylinder."""
    mass: Fraction | None = None
    """What is weighed of a solid, in g, as the balance shows it."""
    finer: bool = False
    """Whether that takes a balance which reads to 0.001 g."""
    stock: Fraction | None = None
    """What of the stock comes to be in it, unrounded."""
    measured: Measured | None = None
    """What is measured: of the stock, or of the last of the first dilutions."""
    dilutions: int = 0
    """How often the stock is first diluted one in ten."""
    strong_for: Fraction | None = None
    """The volume of a stronger solution that a solid is weighed for."""
    is_straight: bool = False
    """Whether the stock is used as it is."""
    also: tuple[Added, ...] = ()
    """What goes in beside it."""
