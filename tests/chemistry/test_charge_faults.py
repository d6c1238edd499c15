"""Compounds whose ions cannot add up to nothing, and the many that only look so.

The slips and their mends follow from the ions' charges (IUPAC 2005); the sound
formulas are those of formulas.txt, whose head names the published tables, and a
list of our own of the kinds that are easily taken for slips.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import charge_fault, known_ions, parse_formula
from manualgen.chemistry.ions import Ion, anions, cations
from manualgen.chemistry.salts import salt

SLIPS = {
    "MgOH2": ["Mg(OH)2"],
    "NaSO4": ["Na2SO4"],
    "CaCl": ["CaCl2"],
    "NaCl2": ["NaCl"],
    "CaNO32": ["Ca(NO3)2"],
    "AlSO43": ["Al2(SO4)3"],
    "CaHCO32": ["Ca(HCO3)2"],
    "NH42SO4": ["(NH4)2SO4"],
    "NH4SO4": ["(NH4)2SO4"],
    "AlCl2": ["AlCl3"],
    "CuOH2": ["Cu(OH)2"],
    "FeOH3": ["Fe(OH)3"],
    "FeOH2": ["Fe(OH)2"],
    "Na(OH)2": ["NaOH"],
    "CaOH": ["Ca(OH)2"],
    "Mg2O": ["MgO"],
    "AlO": ["Al2O3"],
    "FeO3": ["FeO", "Fe2O3"],
    "CuO2": ["CuO"],
    "AgCl2": ["AgCl"],
    "ZnCl": ["ZnCl2"],
    "KCO3": ["K2CO3"],
    "Na2HCO3": ["NaHCO3"],
    "CaHCO3": ["Ca(HCO3)2"],
    "CaPO4": ["Ca3(PO4)2"],
    "Fe(SO4)3": ["FeSO4", "Fe2(SO4)3"],
    "PbNO3": ["Pb(NO3)2"],
    "Cu(SO4)2·5H2O": ["CuSO4·5H2O"],
    "H2NO3": ["HNO3"],
    "H2Cl": ["HCl"],
    "CH3COOCa": ["(CH3COO)2Ca"],
    "CH3COO2Ca": ["(CH3COO)2Ca"],
    "KNO32": ["KNO3"],
    "NaS": ["Na2S"],
    "BaOH2": ["Ba(OH)2"],
    "ZnNO3": ["Zn(NO3)2"],
}
SOUND = [
    "CO2",
    "SO2",
    "SO3",
    "SF6",
    "PCl5",
    "NH3",
    "CH4",
    "N2O4",
    "P4O10",
    "H2O",
    "H2O2",
    "C2H5OH",
    "CH3COOC2H5",
    "I2",
    "Fe",
    "Fe3O4",
    "Pb3O4",
    "Co3O4",
    "Mn3O4",
    "KAl(SO4)2·12H2O",
    "NH4Fe(SO4)2·12H2O",
    "(NH4)2Fe(SO4)2·6H2O",
    "K2SO4·Al2(SO4)3·24H2O",
    "NaKC4H4O6",
    "MgNH4PO4",
    "CaMg(CO3)2",
    "Cu2(OH)2CO3",
    "CuCO3·Cu(OH)2",
    "BiOCl",
    "Mg(OH)Cl",
    "Fe(OH)SO4",
    "Pb3(CO3)2(OH)2",
    "AlO(OH)",
    "Na2O2",
    "BaO2",
    "KO2",
    "NaHSO4",
    "NaHCO3",
    "Na2HPO4",
    "NaH2PO4",
    "KHC8H4O4",
    "KHC4H4O6",
    "KH(IO3)2",
    "KHF2",
    "[Cu(NH3)4]SO4",
    "Cu(NH3)4SO4",
    "K4[Fe(CN)6]",
    "K3Fe(CN)6",
    "Fe4[Fe(CN)6]3",
    "[Co(NH3)5Cl]Cl2",
    "[CrCl2(H2O)4]Cl·2H2O",
    "Na3[Ag(S2O3)2]",
    "Na2[Zn(OH)4]",
    "Na2ZnO2",
    "NaAlO2",
    "NaAl(OH)4",
    "Ni(CO)4",
    "Fe(C5H5)2",
    "CH3MgBr",
    "LiAlH4",
    "NaBH4",
    "NaH",
    "CaH2",
    "CaC2",
    "Al4C3",
    "Fe3C",
    "Mg2Si",
    "CuFeS2",
    "FeS2",
    "Cu5FeS4",
    "Fe7S8",
    "K2S5",
    "CuZn",
    "Fe4N",
    "MoS2",
    "WC",
    "SiC",
    "AlN",
    "GaAs",
    "TiO2",
    "V2O5",
    "VOSO4",
    "CrO3",
    "Mn2O7",
    "CrO2Cl2",
    "UO2(NO3)2",
    "(NH4)6Mo7O24·4H2O",
    "NH4VO3",
    "BaTiO3",
    "LiCoO2",
    "YBa2Cu3O7",
    "Ca5(PO4)3OH",
    "Ca5(PO4)3F",
    "KAlSi3O8",
    "Mg3Si4O10(OH)2",
    "CaSO4·½H2O",
    "CaOCl2",
    "Ca(OCl)Cl",
    "NaClO",
    "NaOCl",
    "Na2S2O3·5H2O",
    "Na2S2O5",
    "K2S2O8",
    "Na2S4O6",
    "Na2B4O7·10H2O",
    "KI3",
    "Hg2Cl2",
    "HgI2",
    "Hg2(NO3)2",
    "CuI",
    "CuCl",
    "AuCl3",
    "HAuCl4",
    "H2PtCl6",
    "Na3AlF6",
    "K2SiF6",
    "CH3COONa",
    "(CH3COO)2Ca",
    "NaC2H3O2",
    "(COONa)2",
    "Na2C2O4",
    "C17H35COONa",
    "C2H5ONa",
    "NaNH2",
    "NaN3",
    "Mg3N2",
    "K2Cr2O7",
    "KMnO4",
    "K2MnO4",
    "K2FeO4",
    "Na2SiO3",
    "HCOOH",
    "HOCl",
    "H3PO3",
    "HPO3",
    "H3BO3",
    "NH4OH",
    "NH4NO3",
    "CH3NH3Cl",
    "C6H5N2Cl",
    "AgO",
    "Cu2O",
    "PbO2",
    "SnCl4",
    "Al2Cl6",
    "FeOOH",
    "Co(NH3)6Cl3",
    "Na2[Fe(CN)5NO]",
    "NaHS",
    "SO4",
    "NH4",
    "HCO3",
    "MgSO4·xH2O",
    "ROH",
    "CuH",
    "PdH2",
    "Na2CO3·1.5H2O2",
    "CaCl2·6NH3",
    "CuSO4^-",
    "[O]",
]
HERE = Path(__file__).parent
PUBLISHED = [
    line
    for line in (HERE / "formulas.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


@pytest.mark.parametrize("slip", SLIPS)
def test_a_salt_that_cannot_be_neutral_gets_its_formula(slip: str) -> None:
    fault = charge_fault(parse_formula(slip))
    assert fault is not None
    assert list(map(str, fault.suggestions)) == SLIPS[slip]


@pytest.mark.parametrize("formula", SOUND)
def test_what_only_looks_like_a_slip_is_left_alone(formula: str) -> None:
    assert charge_fault(parse_formula(formula)) is None


def test_no_formula_of_published_tables_is_called_impossible() -> None:
    assert len(PUBLISHED) > 1000
    assert [f for f in PUBLISHED if charge_fault(parse_formula(f))] == []


def test_ions_that_go_with_no_salt_are_a_fault_without_a_mend() -> None:
    fault = charge_fault(parse_formula("CuSO4Cl"))
    assert fault is not None
    assert fault.suggestions == ()


@given(st.sampled_from(cations()), st.sampled_from(anions()))
def test_every_salt_made_of_two_ions_is_sound(cation: Ion, anion: Ion) -> None:
    made = salt(cation, anion)
    assert made is None or charge_fault(made) is None


@given(st.text(alphabet="NaMgCuFeSOHCl()[]2345", min_size=1, max_size=14))
def test_any_formula_is_judged_without_harm(text: str) -> None:
    try:
        formula = parse_formula(text)
    except ValueError:
        return
    fault = charge_fault(formula)
    if fault:
        assert known_ions(formula) == ()
        assert all(known_ions(mend) for mend in fault.suggestions)


@pytest.mark.parametrize(
    "formula",
    ["O2" * 30, "Mo" * 12 + "O", "MoWReRuOsNbTaUCrMnVPtO", "NaNO32" * 8, "CN" * 12],
)
def test_a_long_run_of_symbols_does_not_keep_anyone_waiting(formula: str) -> None:
    assert known_ions(parse_formula(formula)) == ()
    fault = charge_fault(parse_formula(formula))
    assert fault is None or fault.formula == parse_formula(formula)
