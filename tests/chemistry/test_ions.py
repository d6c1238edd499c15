"""Compounds taken apart into their ions.

Charges from IUPAC, Nomenclature of Inorganic Chemistry 2005 (from memory); the
formulas are common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.chemistry import charge_fault, density, known_ions, parse_formula
from manualgen.chemistry.splitting import split_ions

IONS = {
    "Na2SO4": {"Na^+": 2, "SO4^2-": 1},
    "MgSO4·7H2O": {"Mg^2+": 1, "SO4^2-": 1},
    "(CH3COO)2Ca": {"CH3COO^-": 2, "Ca^2+": 1},
    "NaC2H3O2": {"Na^+": 1, "CH3COO^-": 1},
    "KHSO4": {"K^+": 1, "HSO4^-": 1},
    "KHC8H4O4": {"K^+": 1, "HC8H4O4^-": 1},
    "H2SO4": {"H^+": 2, "SO4^2-": 1},
    "CH3COOH": {"CH3COO^-": 1, "H^+": 1},
    "Hg2Cl2": {"Hg2^2+": 1, "Cl^-": 2},
    "HgCl2": {"Hg^2+": 1, "Cl^-": 2},
    "NaNO2": {"Na^+": 1, "NO2^-": 1},
    "BaO2": {"Ba^2+": 1, "O2^2-": 1},
    "KO2": {"K^+": 1, "O2^-": 1},
    "TiO2": {"Ti^4+": 1, "O^2-": 2},
    "Fe3O4": {"Fe^2+": 1, "Fe^3+": 2, "O^2-": 4},
    "Pb3O4": {"Pb^2+": 2, "Pb^4+": 1, "O^2-": 4},
    "CuFeS2": {"Cu^+": 1, "Fe^3+": 1, "S^2-": 2},
    "KAl(SO4)2·12H2O": {"K^+": 1, "Al^3+": 1, "SO4^2-": 2},
    "CuCO3·Cu(OH)2": {"Cu^2+": 2, "CO3^2-": 1, "OH^-": 2},
    "CaSO4·½H2O": {"Ca^2+": 1, "SO4^2-": 1},
    "K4Fe(CN)6": {"K^+": 4, "[Fe(CN)6]^4-": 1},
    "Fe4[Fe(CN)6]3": {"Fe^3+": 4, "[Fe(CN)6]^4-": 3},
    "[Cu(NH3)4]SO4": {"[Cu(NH3)4]^2+": 1, "SO4^2-": 1},
    "K3[Fe(C2O4)3]·3H2O": {"K^+": 3, "[Fe(C2O4)3]^3-": 1},
    "[Co(NH3)5Cl]Cl2": {"[Co(NH3)5Cl]^2+": 1, "Cl^-": 2},
    "H2[CoCl4]": {"H^+": 2, "[CoCl4]^2-": 1},
    "OCl^-": {"ClO^-": 1},
}
NONE = [
    *("H2O", "H2O2", "NH3", "NH4OH", "CO2", "C2H5OH", "CH4", "Fe", "ROH", "HIn", "e-"),
    *("CaCl2·6NH3", "CuSO4·½CuCO3", "CO2·CuSO4", "CH2=CH2", "Na-Cl", "[Ni(CO)4]"),
    *("Ne^2+", "(Na2SO4)n", "K2O7", "Na3[Co(NO2)6]2", "KAl3O4", "HO2", "(H)2SO4"),
]


@pytest.mark.parametrize("formula", IONS)
def test_a_compound_is_made_of_its_ions(formula: str) -> None:
    found = split_ions(parse_formula(formula))
    assert {str(ion.formula): number for ion, number in found} == IONS[formula]


@pytest.mark.parametrize("formula", NONE)
def test_what_is_not_made_of_known_ions_has_none(formula: str) -> None:
    assert known_ions(parse_formula(formula)) == ()


def test_an_unknown_complex_is_not_called_impossible() -> None:
    assert charge_fault(parse_formula("K4[Co(CN)6]Cl")) is None
    assert charge_fault(parse_formula("K2[Ni2(CN)6]3")) is None


def test_pure_liquids_have_densities_near_those_of_handbooks() -> None:
    # CRC Handbook of Chemistry and Physics, 20 °C, from memory.
    for formula, handbook in (("C2H5OH", 0.789), ("CH3COOH", 1.049), ("H2O", 0.998)):
        found = density(parse_formula(formula))
        assert float(found or 0) == pytest.approx(handbook, abs=0.005)
    assert density(parse_formula("NaCl")) is None
    assert density(parse_formula("C4H9OH")) is not None
    assert density(parse_formula("C2H6O")) is None
