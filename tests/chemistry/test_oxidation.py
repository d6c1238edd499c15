"""Oxidation numbers against the entries of oxidation.yaml, sources named there.

The further species are worked out by hand from the recommendations of 2016 (the
structures from memory).
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import oxidation_numbers, parse_formula, signed

SET = yaml.load(
    Path(__file__).with_name("oxidation.yaml").read_text(encoding="utf-8"),
    Loader=yaml.CBaseLoader,
)
ENTRIES = {entry["id"]: entry for entry in SET["entries"]}
LISTED = Path(__file__).with_name("formulas.txt").read_text(encoding="utf-8")
FORMULAS = [line for line in LISTED.splitlines() if not line.startswith("#")]


def numbers(text: str) -> dict[str, str]:
    found = oxidation_numbers(parse_formula(text)).averages
    return {symbol: signed(number) for symbol, number in found.items()}


@pytest.mark.parametrize("name", ENTRIES)
def test_a_species_of_the_set_has_its_published_numbers(name: str) -> None:
    entry = ENTRIES[name]
    assert numbers(entry["given"]["species"]) == entry["expected"]["average"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("H2O", {"H": "+1", "O": "-2"}),
        ("O3", {"O": "0"}),
        ("H^-", {"H": "-1"}),
        ("[O]", {"O": "0"}),
        ("O2F2", {"O": "+1", "F": "-1"}),
        ("HOF", {"H": "+1", "O": "0", "F": "-1"}),
        ("CrO5", {"Cr": "+6", "O": "-6/5"}),
        ("KO2", {"K": "+1", "O": "-1/2"}),
        ("ICl", {"I": "+1", "Cl": "-1"}),
        ("NCl3", {"N": "-3", "Cl": "+1"}),
        ("NOCl", {"N": "+3", "O": "-2", "Cl": "-1"}),
        ("POCl3", {"P": "+5", "O": "-2", "Cl": "-1"}),
        ("B2H6", {"B": "+3", "H": "-1"}),
        ("LiAlH4", {"Li": "+1", "Al": "+3", "H": "-1"}),
        ("NH2OH", {"N": "-1", "H": "+1", "O": "-2"}),
        ("FeS2", {"Fe": "+2", "S": "-1"}),
        ("CaOCl2", {"Ca": "+2", "O": "-2", "Cl": "0"}),
        ("Ni(CO)4", {"Ni": "0", "C": "+2", "O": "-2"}),
        ("[Cu(NH3)4]SO4", {"Cu": "+2", "N": "-3", "H": "+1", "S": "+6", "O": "-2"}),
        ("[FeSCN]^2+", {"Fe": "+3", "S": "-2", "C": "+4", "N": "-3"}),
        ("[Ag(S2O3)2]^3-", {"Ag": "+1", "S": "+2", "O": "-2"}),
        ("[Fe(SCN)2]^+", {"Fe": "+3", "S": "-2", "C": "+4", "N": "-3"}),
        ("Na2[Co(SCN)4]", {"Na": "+1", "Co": "+2", "S": "-2", "C": "+4", "N": "-3"}),
        ("[Cr(H2O)4Cl2]Cl", {"Cr": "+3", "H": "+1", "O": "-2", "Cl": "-1"}),
        ("MgSO4·xH2O", {"Mg": "+2", "S": "+6", "O": "-2", "H": "+1"}),
        ("(C2H4)n", {"C": "-2", "H": "+1"}),
        ("Cu(CH3COO)2", {"Cu": "+2", "C": "0", "H": "+1", "O": "-2"}),
        ("VO^2+", {"V": "+4", "O": "-2"}),
        ("PbO2", {"Pb": "+4", "O": "-2"}),
        ("CH2=CH2", {"C": "-2", "H": "+1"}),
        ("e^-", {}),
        ("(NH3)(H2O)", {"N": "-3", "H": "+1", "O": "-2"}),
    ],
)
def test_rarer_bonds_have_the_numbers_worked_out_by_hand(
    text: str, expected: dict[str, str]
) -> None:
    assert numbers(text) == expected


@pytest.mark.parametrize(
    ("text", "sites"),
    [
        ("NH4NO3", {("N", 1, "-3"), ("H", 4, "+1"), ("N", 1, "+5"), ("O", 3, "-2")}),
        ("S2O8^2-", {("S", 2, "+6"), ("O", 2, "-1"), ("O", 6, "-2")}),
        ("Fe3O4", {("Fe", 1, "+2"), ("Fe", 2, "+3"), ("O", 4, "-2")}),
    ],
)
def test_atoms_of_one_element_keep_their_different_numbers(
    text: str, sites: set[tuple[str, int, str]]
) -> None:
    """The sites of OX-31, OX-28 and OX-24."""
    found = oxidation_numbers(parse_formula(text)).sites
    assert {(s.symbol, s.count, signed(s.number)) for s in found} == sites


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[Fe(H2O)5(NO)]^2+", "NO ligand"),
        ("[Fe(CN)5NO]^2-", "NO ligand"),
        ("Cu3Sn", "two elements"),
        ("C6H5NO2", "structure"),
        ("(CH3)2SO", "structure"),
        ("HIn", "many substances"),
        ("ROH", "many substances"),
        ("NaF2", "Na cannot be +2"),
        ("(NH3)(H2O)^+", "do not add up"),
    ],
)
def test_what_a_formula_does_not_tell_is_left_open_with_the_reason(
    text: str, words: str
) -> None:
    found = oxidation_numbers(parse_formula(text))
    assert found.averages == {}
    assert words in str(found.remark)


def test_conventions_that_differ_are_remarked_on() -> None:
    """OX-V1: schools give phosphane P -3, the Allen scale +3."""
    assert numbers("PH3") == {"P": "-3", "H": "+1"}
    assert "convention" in str(oxidation_numbers(parse_formula("PH3")).remark)
    assert oxidation_numbers(parse_formula("NH3")).remark is None


@given(st.sampled_from(FORMULAS))
def test_numbers_add_up_to_the_charge(text: str) -> None:
    formula = parse_formula(text)
    sites = oxidation_numbers(formula).sites
    total = sum((s.number * s.count for s in sites), Fraction(0))
    assert not sites or total == formula.charge
    assert not sites or {s.symbol for s in sites} == set(formula.atoms)
