"""Bottles: how many, of what size, and what is in each."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from manualgen.preparation.needs import Need
from manualgen.preparation.rules import measures


@dataclass(frozen=True, slots=True)
class Bottles:
    """So many bottles of one size, with so much in each, in cm³."""

    number: int
    capacity: Fraction
    each: Fraction


def bottles_for(need: Need) -> Bottles | None:
    """The bottles that a need is filled into; None where nobody says how much.

    What one portion has that no bottle holds goes into several.
    """
    if need.each is None:
        return None
    m = measures()
    sizes = m.dropping_bottles if need.dropping else m.bottles
    several = max(1, ceil(need.each / sizes[-1]))
    each = need.each / several
    capacity = next(size for size in sizes if size >= each)
    return Bottles(need.portions * several, capacity, each)
