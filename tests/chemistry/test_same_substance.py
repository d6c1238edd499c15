"""Whether a name and a formula side by side are one substance.

Common practice, no source, but for the names and formulas of CLP's Annex VI.
"""

from __future__ import annotations

import pytest

from manualgen.chemistry import parse_formula, same_substance, without_form

SAME = [
    ("copper(II) sulfate", "CuSO4·5H2O"),
    ("copper(II) sulfate", "Cu^2+"),
    ("copper(II) sulfate solution", "SO4^2-"),
    ("hydrated copper(II) sulfate", "CuSO4·5H2O"),
    ("Copper(II) sulphate-5-water", "CuSO4·5H2O"),
    ("copper(II) ions", "[Cu(H2O)6]^2+"),
    ("copper ions", "Cu^+"),
    ("iron", "Fe^2+"),
    ("iron(III) chloride", "FeCl3·6H2O"),
    ("iron(III) chloride", "Fe2Cl6"),
    ("iron chloride", "FeCl2"),
    ("zinc ions", "ZnSO4"),
    ("dilute sulfuric acid", "H2SO4"),
    ("sulfuric acid", "H^+"),
    ("hydrochloric acid", "H3O^+"),
    ("hydrogen ions", "H3O^+"),
    ("ethanoic acid", "CH3COO^-"),
    ("glacial ethanoic acid", "HC2H3O2"),
    ("ammonia solution", "NH4OH"),
    ("aqueous ammonia", "NH3"),
    ("ammonium hydroxide", "NH3"),
    ("limewater", "Ca(OH)2"),
    ("sulfur", "S8"),
    ("oxygen", "O"),
    ("iodine solution", "I3^-"),
    ("magnesium ribbon", "Mg"),
    ("magnesium (powder or turnings)", "Mg"),
    ("magnesium sulfate crystals", "MgSO4·7H2O"),
    ("magnesium sulfate", "MgSO4·xH2O"),
    ("anhydrous sodium carbonate", "Na2CO3"),
    ("sodium carbonate (anhydrous)", "Na2CO3"),
    ("potassium hexacyanoferrate(III)", "K3Fe(CN)6"),
    ("copper(II) carbonate", "CuCO3·Cu(OH)2"),
    ("basic copper carbonate", "Cu2(OH)2CO3"),
    ("phosphorus pentoxide", "P2O5"),
    ("ethanol", "CH3CH2OH"),
    ("propanone", "(CH3)2CO"),
    ("propanol", "C3H7OH"),
    ("sulfate", "SO4"),
    ("iron(II)", "[Fe(NO)(H2O)5]^2+"),
    ("ammonia", "[Cu(NH3)4]^2+"),
    ("the chloride", "PCl5"),
]
DIFFERENT = [
    ("copper(II) sulfate", "CuSO3"),
    ("copper(II) sulfate", "ZnSO4"),
    ("anhydrous copper(II) sulfate", "CuSO4·5H2O"),
    ("sodium carbonate (anhydrous)", "Na2CO3·10H2O"),
    ("copper(II) sulfate pentahydrate", "CuSO4"),
    ("copper(II) sulfate pentahydrate", "CuSO4·7H2O"),
    ("hydrated copper(II) sulfate", "CuSO4"),
    ("iron(III)", "Fe^2+"),
    ("iron(II) ions", "Fe^3+"),
    ("iron(II) chloride", "FeCl3"),
    ("chlorine", "Cl^-"),
    ("chloride ions", "Cl2"),
    ("carbon dioxide", "CO"),
    ("sulfur dioxide", "SO3"),
    ("sulfite", "SO4^2-"),
    ("sodium sulfate", "Na2SO3"),
    ("zinc sulfide", "ZnSO4"),
    ("ammonia", "NH4^+"),
    ("magnesium oxide", "Mg(OH)2"),
    ("magnesium hydroxide", "MgO"),
    ("potassium manganate(VII)", "K2MnO4"),
    ("manganate(VII)", "MnO4^2-"),
    ("nitric acid", "HNO2"),
    ("hydrochloric acid", "H2SO4"),
    ("calcium chloride", "CaCO3"),
    ("mercury(II) chloride", "Hg2Cl2"),
    ("ethanol", "CH3OH"),
    ("zinc", "[Cu(NH3)4]^2+"),
    ("the sulfate", "BaCO3"),
]
UNKNOWN = [
    ("a white solid", "NaCl"),
    ("the alcohol", "C3H7OH"),
    ("the metal", "Mg"),
    ("halogenoalkane", "C4H9Br"),
    ("indicator", "HIn"),
    ("methyl orange", "HIn"),
    ("oxygen", "[O]"),
    ("sodium", "e-"),
    ("starch", "C6H10O5"),
]


@pytest.mark.parametrize(("name", "formula"), SAME)
def test_what_people_write_side_by_side_is_one_substance(
    name: str, formula: str
) -> None:
    assert same_substance(name, parse_formula(formula)) is True


@pytest.mark.parametrize(("name", "formula"), DIFFERENT)
def test_another_substances_formula_is_told_apart(name: str, formula: str) -> None:
    assert same_substance(name, parse_formula(formula)) is False


@pytest.mark.parametrize(("name", "formula"), UNKNOWN)
def test_of_what_is_no_name_or_no_substance_nothing_is_said(
    name: str, formula: str
) -> None:
    assert same_substance(name, parse_formula(formula)) is None


def test_words_for_the_form_are_no_part_of_the_name() -> None:
    assert without_form("Concentrated Sulphuric acid") == ("sulfuric acid", None)
    assert without_form("zinc (powder, stabilised)") == ("zinc", None)
    assert without_form("iron filings") == ("iron", None)
    assert without_form("hydrated iron(II) sulfate") == ("iron(ii) sulfate", True)
