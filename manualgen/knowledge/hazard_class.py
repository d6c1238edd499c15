"""A hazard class of the CLP Regulation with its category and statement.

The class and category alone do not fix the statement (Acute Tox. 4 is H302,
H312 or H332), nor the statement the category (H314 is 1A, 1B or 1C), so the two
go together, as they stand side by side in Annex VI: ``Skin Corr. 1B H314``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

_WRITTEN = re.compile(
    r"(?P<name>[A-Z].*?\.?(?: \d[ABC]?)?) (?P<statement>H\d{3}[A-Za-z]*)"
    r"(?: \((?P<counted>[A-Z][a-z]?)\))?"
)
_LIMIT = re.compile(r"(?P<hazard>.+) from (?P<percent>[\d.]+)")


@dataclass(frozen=True, slots=True)
class HazardClass:
    """Class and category, and the statement that goes with it."""

    name: str
    """``Skin Corr. 1B``."""
    statement: str
    """``H314``."""
    counted_as: str | None = None
    """The element whose per cent its limits count (Annex VI, Note 1)."""

    def __str__(self) -> str:
        return f"{self.name} {self.statement}"


@dataclass(frozen=True, slots=True)
class Limit:
    """A class that a substance gives a mixture from so many % w/w on."""

    hazard: HazardClass
    percent: Decimal


def parse_class(text: str) -> HazardClass:
    """The class that a table writes.

    Raises ValueError where it is none.

    >>> parse_class("STOT RE 2 H373 (Pb)")
    HazardClass(name='STOT RE 2', statement='H373', counted_as='Pb')
    """
    match = _WRITTEN.fullmatch(text)
    if match is None:
        raise ValueError(f"no hazard class: {text}")
    return HazardClass(match["name"], match["statement"], match["counted"])


def parse_limit(text: str) -> Limit:
    """The specific limit that a table writes: ``Skin Irrit. 2 H315 from 10``."""
    match = _LIMIT.fullmatch(text)
    if match is None:
        raise ValueError(f"no concentration limit: {text}")
    return Limit(parse_class(match["hazard"]), Decimal(match["percent"]))
