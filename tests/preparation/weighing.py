"""What is weighed for a solution, by general libraries that know nothing of ours."""

from __future__ import annotations

from molmass import Formula as Molecule
from pint import UnitRegistry

UNITS: UnitRegistry[float] = UnitRegistry()


def grams_of(as_weighed: str, mol_per_dm3: float, cm3: float) -> float:
    """The mass of what is weighed, by molmass and pint: m = c V M."""
    molar_mass = Molecule(as_weighed).mass * UNITS.g / UNITS.mol
    strength = mol_per_dm3 * UNITS.mol / UNITS.dm**3
    grams = (molar_mass * strength * cm3 * UNITS.cm**3).to("g").magnitude
    return float(grams)
