"""Solubility rules against a textbook's table, and the states that contradict them.

solubility.yaml names the sources; the equations are common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from manualgen.chemistry import (
    parse_equation,
    parse_formula,
    solubility,
    solubility_of,
    wrong_states,
)
from manualgen.chemistry._tables import read_rows

SET = yaml.load(
    Path(__file__).with_name("solubility.yaml").read_text(encoding="utf-8"),
    Loader=yaml.CBaseLoader,
)
ENTRIES = {entry["id"]: entry for entry in SET["entries"]}


@pytest.mark.parametrize("name", ENTRIES)
def test_a_salt_has_the_state_that_the_rules_give_it(name: str) -> None:
    entry = ENTRIES[name]
    ions = entry["given"]
    found = solubility(parse_formula(ions["cation"]), parse_formula(ions["anion"]))
    assert found is not None
    assert (found.state, found.rule) == (
        entry["expected"]["state"],
        entry["expected"]["rule"],
    )
    if "borderline" in entry:
        assert found.borderline
    assert solubility_of(parse_formula(entry["expected"]["formula"])) == found


@pytest.mark.parametrize(
    "formula", ["Sr(OH)2", "Ca(OH)2", "BaS", "CaS", "MgS", "SrS", "CH3COOAg"]
)
def test_a_salt_on_which_books_differ_is_on_the_border(formula: str) -> None:
    # The conflicts SOL-C1, SOL-C2, SOL-C3 and SOL-C5 of solubility.yaml.
    found = solubility_of(parse_formula(formula))
    assert found is not None
    assert found.borderline


def test_every_salt_on_the_border_has_a_rule_as_well() -> None:
    rows = read_rows("solubility", "borderline")
    for row in rows:
        ions = parse_formula(row["cation"]), parse_formula(row["anion"])
        found = solubility(*ions)
        assert found is not None
        assert found.borderline == row["why"]


def test_ammonium_hydroxide_is_no_salt() -> None:
    # SOL-C4.
    assert solubility_of(parse_formula("NH4OH")) is None


@pytest.mark.parametrize("formula", ["HCl", "CO2", "C2H5OH", "H2O", "Fe", "CrO3"])
def test_of_what_is_no_salt_nothing_is_said(formula: str) -> None:
    assert solubility_of(parse_formula(formula)) is None


def test_a_salt_of_several_ions_dissolves_where_every_pair_does() -> None:
    # Common practice, no source.
    alum = solubility_of(parse_formula("KAl(SO4)2·12H2O"))
    assert alum is not None
    assert alum.state == "aq"
    assert solubility_of(parse_formula("KCa(SO4)Cl")) is None
    assert solubility_of(parse_formula("C17H35COONa")) is None
    assert solubility_of(parse_formula("Al(C6H5O7)")) is None
    citrate = solubility_of(parse_formula("K2[PtCl6]"))
    assert citrate is not None
    assert citrate.borderline


WRONG = {
    "BaCl2(aq) + Na2SO4(aq) -> BaSO4(aq) + 2 NaCl(aq)": {"BaSO4(aq)": "s"},
    "NaOH(aq) + HCl(aq) -> NaCl(s) + H2O(l)": {"NaCl(s)": "aq"},
    "CuO(s) + H2SO4(aq) -> CuSO4(s) + H2O(l)": {"CuSO4(s)": "aq"},
    "ZnSO4(aq) + 2 NaOH(aq) -> Zn(OH)2(aq) + Na2SO4(s)": {
        "Zn(OH)2(aq)": "s",
        "Na2SO4(s)": "aq",
    },
    "Fe(s) + CuSO4(aq) -> FeSO4(aq) + Cu(aq)": {"Cu(aq)": "s"},
    "NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(aq)": {"H2O(aq)": "l"},
    "CuO(aq) + 2 HCl(aq) -> CuCl2(aq) + H2O(l)": {"CuO(aq)": "s"},
    "Mg(s) + 2 HCl(aq) -> MgCl2(s) + H2(g)": {"MgCl2(s)": "aq"},
}
RIGHT = [
    "NaCl(aq) -> NaCl(s)",
    "Na^+(aq) + Cl^-(aq) -> NaCl(s)",
    "CuSO4(aq) + 5 H2O(l) -> CuSO4·5H2O(s)",
    "CuSO4(s) + 5 H2O(l) -> CuSO4·5H2O(s)",
    "CuSO4·5H2O(s) <=> CuSO4(s) + 5 H2O(g)",
    "KAl(SO4)2(aq) + 12 H2O(l) -> KAl(SO4)2·12H2O(s)",
    "NaCl(aq) + NH3(aq) + CO2(g) + H2O(l) -> NaHCO3(s) + NH4Cl(aq)",
    "C17H35COO^-(aq) + Na^+(aq) -> C17H35COONa(s)",
    "CH3COOC2H5(l) + NaOH(aq) -> CH3COONa(aq) + C2H5OH(aq)",
    "(C17H35COO)3C3H5(l) + 3 NaOH(aq) -> 3 C17H35COONa(s) + C3H8O3(aq)",
    "Ca(OH)2(s) -> Ca(OH)2(aq)",
    "Ca(OH)2(aq) + CO2(g) -> CaCO3(s) + H2O(l)",
    "Pb(NO3)2(aq) + 2 NaCl(aq) -> PbCl2(s) + 2 NaNO3(aq)",
    "PbCl2(s) -> PbCl2(aq)",
    "CaCO3(s) + H2SO4(aq) -> CaSO4(aq) + CO2(g) + H2O(l)",
    "NH3(g) + HCl(g) -> NH4Cl(s)",
    "2 Na(s) + Cl2(g) -> 2 NaCl(s)",
    "NaCl(s) + H2SO4(l) -> NaHSO4(s) + HCl(g)",
    "2 NaHCO3(s) -> Na2CO3(s) + H2O(g) + CO2(g)",
    "CuSO4(aq) + 2 NaOH(aq) -> Cu(OH)2(s) + Na2SO4(aq)",
    "2 AgNO3(aq) + Cu(s) -> Cu(NO3)2(aq) + 2 Ag(s)",
    "2 CuSO4(aq) + 4 KI(aq) -> 2 CuI(s) + I2(aq) + 2 K2SO4(aq)",
    "2 KClO3(s) -> 2 KCl(s) + 3 O2(g)",
    "3 Br2(l) + 6 KOH(aq) -> KBrO3(aq) + 5 KBr(aq) + 3 H2O(l)",
    "H^+(aq) + OH^-(aq) -> H2O(l)",
    "NaOH + HCl -> NaCl + H2O",
    "Zn^2+(aq) + 2 e- -> Zn(s)",
    "2 H2O2(aq) -> 2 H2O(l) + O2(g)",
]


@pytest.mark.parametrize("equation", WRONG)
def test_a_state_that_the_rules_contradict_is_found(equation: str) -> None:
    found = wrong_states(parse_equation(equation))
    assert {wrong.term.species: wrong.state for wrong in found} == WRONG[equation]


@pytest.mark.parametrize("equation", RIGHT)
def test_sound_states_are_left_alone(equation: str) -> None:
    assert wrong_states(parse_equation(equation)) == ()
