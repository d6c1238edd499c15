"""How far substances fall apart in water, and how their ions behave there.

The strong acids are those of OpenStax Chemistry 2e, section 4.2 (table of strong
acids); the rest is common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.chemistry import electrolyte, parse_formula
from manualgen.chemistry.dissociation import dissociated
from manualgen.chemistry.equation_text import parse_term
from manualgen.chemistry.ions import anions, ions

STRONG = ["HCl", "HBr", "HI", "HNO3", "HClO4", "H2SO4"]


@pytest.mark.parametrize("acid", STRONG)
def test_the_strong_acids_ionise_wholly(acid: str) -> None:
    assert electrolyte(parse_formula(acid)) == "strong"


@pytest.mark.parametrize(
    ("formula", "strength"),
    [
        ("CH3COOH", "weak"),
        ("HF", "weak"),
        ("H3PO4", "weak"),
        ("H2CO3", "weak"),
        ("HNO2", "weak"),
        ("NH3", "weak"),
        ("NH4OH", "weak"),
        ("NaOH", "strong"),
        ("Ca(OH)2", "strong"),
        ("CuSO4·5H2O", "strong"),
        ("NH4Cl", "strong"),
        ("H2[CoCl4]", "strong"),
        ("C12H22O11", "none"),
        ("CO2", "none"),
        ("HgCl2", "none"),
        ("BaSO4", None),
        ("CrO3", None),
        ("Fe", None),
    ],
)
def test_electrolytes_are_told_by_kind(formula: str, strength: str | None) -> None:
    assert electrolyte(parse_formula(formula)) == strength


def test_a_hydrate_in_solution_gives_up_its_water() -> None:
    parts = dissociated(parse_term("2 CuSO4·5H2O(aq)"))
    assert list(map(str, parts)) == ["2 Cu^2+(aq)", "2 SO4^2-(aq)", "10 H2O(l)"]


def test_the_base_of_a_strong_acid_is_no_base_in_water() -> None:
    # Brønsted: the stronger the acid, the weaker its base. The sulfate ion is
    # the exception, the base of hydrogensulfate and not of sulfuric acid.
    for ion in anions():
        if ion.acid and str(ion.formula) != "SO4^2-":
            assert ion.acid.is_strong <= (ion.role == "neutral"), ion.name


def test_every_ion_has_a_role_in_water() -> None:
    roles = {"acid", "base", "amphiprotic", "neutral"}
    assert all(ion.role in roles for ion in ions().values())
    amphiprotic = {str(i.formula) for i in anions() if i.role == "amphiprotic"}
    assert {"HCO3^-", "HPO4^2-", "H2PO4^-"} <= amphiprotic
