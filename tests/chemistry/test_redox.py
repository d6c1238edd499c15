"""What is oxidised, what is reduced, and the half-equations.

The equations are those of practicals, the halves those of standard electrode
tables: common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import (
    Equation,
    is_balanced,
    parse_equation,
    redox,
    redox_halves,
    total_charge,
)

SET = yaml.load(
    Path(__file__).with_name("balancing.yaml").read_text(encoding="utf-8"),
    Loader=yaml.CBaseLoader,
)


@pytest.mark.parametrize(
    ("text", "oxidised", "reduced"),
    [
        ("2 Mg + O2 -> 2 MgO", "Mg", "O2"),
        ("Mg + 2 HCl -> MgCl2 + H2", "Mg", "HCl"),
        ("Zn + CuSO4 -> ZnSO4 + Cu", "Zn", "CuSO4"),
        ("3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 4 H2O + 2 NO", "Cu", "HNO3"),
        ("MnO2 + 4 HCl -> MnCl2 + Cl2 + 2 H2O", "HCl", "MnO2"),
        ("Cl2 + 2 NaOH -> NaCl + NaClO + H2O", "Cl2", "Cl2"),
        ("2 H2O2 -> 2 H2O + O2", "H2O2", "H2O2"),
        ("2 S2O3^2- + I2 -> S4O6^2- + 2 I^-", "S2O3^2-", "I2"),
        ("IO3^- + 5 I^- + 6 H^+ -> 3 I2 + 3 H2O", "I^-", "IO3^-"),
        ("C2H5OH + 2 [O] -> CH3COOH + H2O", "C2H5OH", "[O]"),
        ("CH4 + 2 O2 -> CO2 + 2 H2O", "CH4", "O2"),
        ("(NH4)2Cr2O7 -> N2 + 4 H2O + Cr2O3", "(NH4)2Cr2O7", "(NH4)2Cr2O7"),
        ("NH4NO3 -> N2O + 2 H2O", "NH4NO3", "NH4NO3"),
        ("2 Al + 2 NaOH + 6 H2O -> 2 Na[Al(OH)4] + 3 H2", "Al", "H2O"),
        ("4 KO2 + 2 H2O -> 4 KOH + 3 O2", "KO2", "KO2"),
        ("S2O3^2- + 2 H^+ -> S + SO2 + H2O", "S2O3^2-", "S2O3^2-"),
        ("CH2=CH2 + Br2 -> CH2BrCH2Br", "CH2=CH2", "Br2"),
        ("2 Cu^2+ + 4 I^- -> 2 CuI + I2", "I^-", "Cu^2+"),
        ("Zn -> Zn^2+ + 2 e^-", "Zn", ""),
        ("2 H2O2 + MnO2 -> 2 H2O + O2 + MnO2", "H2O2", "H2O2"),
        ("2 C2H6 + 2 CO2 + O2 -> 3 CH3COOH", "C2H6", "O2"),
        ("CaOCl2 + 2 HCl -> CaCl2 + Cl2 + H2O", "HCl", "CaOCl2"),
    ],
)
def test_a_redox_equation_names_what_is_oxidised_and_reduced(
    text: str, oxidised: str, reduced: str
) -> None:
    found = redox(parse_equation(text))
    assert [str(f) for f in found.oxidised] == oxidised.split()
    assert [str(f) for f in found.reduced] == reduced.split()
    assert found.is_certain


@pytest.mark.parametrize(
    "text",
    [
        "NaOH + HCl -> NaCl + H2O",
        "CaCO3 -> CaO + CO2",
        "Ba^2+ + SO4^2- -> BaSO4",
        "CH3COOH + C2H5OH -> CH3COOC2H5 + H2O",
        "CuSO4·5H2O -> CuSO4 + 5 H2O",
        "2 CrO4^2- + 2 H^+ -> Cr2O7^2- + H2O",
        "Fe3O4 + 8 HCl -> FeCl2 + 2 FeCl3 + 4 H2O",
        "BaO2 + H2SO4 -> BaSO4 + H2O2",
        "Cr2O7^2- + 4 H2O2 + 2 H^+ -> 2 CrO5 + 5 H2O",
        "I2 + I^- -> I3^-",
        "2 NO2 -> N2O4",
        "[Cu(H2O)6]^2+ + 4 NH3 -> [Cu(NH3)4(H2O)2]^2+ + 4 H2O",
    ],
)
def test_where_no_electron_moves_nothing_is_oxidised(text: str) -> None:
    found = redox(parse_equation(text))
    assert found.changes == ()
    assert redox_halves(parse_equation(text)) == ()


def test_a_species_without_numbers_makes_the_finding_uncertain() -> None:
    equation = parse_equation("Fe + [Fe(H2O)5(NO)]^2+ -> 2 Fe^2+ + NO + 5 H2O + 2 e^-")
    assert not redox(equation).is_certain


@pytest.mark.parametrize(
    ("text", "oxidation", "reduction"),
    [
        (
            "Zn(s) + CuSO4(aq) -> ZnSO4(aq) + Cu(s)",
            "Zn(s) -> Zn^2+(aq) + 2 e^-",
            "Cu^2+(aq) + 2 e^- -> Cu(s)",
        ),
        (
            "2 Mg(s) + O2(g) -> 2 MgO(s)",
            "Mg -> Mg^2+ + 2 e^-",
            "O2 + 4 e^- -> 2 O^2-",
        ),
        (
            "MnO2(s) + 4 HCl(aq) -> MnCl2(aq) + Cl2(g) + 2 H2O(l)",
            "2 Cl^-(aq) -> Cl2(g) + 2 e^-",
            "MnO2(s) + 4 H^+(aq) + 2 e^- -> Mn^2+(aq) + 2 H2O(l)",
        ),
        (
            "2 KMnO4 + 3 H2SO4 + 5 H2O2 -> K2SO4 + 2 MnSO4 + 5 O2 + 8 H2O",
            "H2O2 -> O2 + 2 H^+ + 2 e^-",
            "MnO4^- + 8 H^+ + 5 e^- -> Mn^2+ + 4 H2O",
        ),
        (
            "Cl2(g) + 2 NaOH(aq) -> NaCl(aq) + NaClO(aq) + H2O(l)",
            "Cl2(g) + 4 OH^-(aq) -> 2 ClO^-(aq) + 2 H2O(l) + 2 e^-",
            "Cl2(g) + 2 e^- -> 2 Cl^-(aq)",
        ),
        (
            "2 Al + 2 NaOH + 6 H2O -> 2 Na[Al(OH)4] + 3 H2",
            "Al + 4 OH^- -> [Al(OH)4]^- + 3 e^-",
            "2 H2O + 2 e^- -> H2 + 2 OH^-",
        ),
        (
            "4 Fe(OH)2 + O2 + 2 H2O -> 4 Fe(OH)3",
            "Fe^2+ -> Fe^3+ + e^-",
            "O2 + 2 H2O + 4 e^- -> 4 OH^-",
        ),
        (
            "Pb + PbO2 + 2 H2SO4 -> 2 PbSO4 + 2 H2O",
            "Pb -> Pb^2+ + 2 e^-",
            "PbO2 + 4 H^+ + 2 e^- -> Pb^2+ + 2 H2O",
        ),
        (
            "3 CH3CH2OH + 2 Cr2O7^2- + 16 H^+ -> 3 CH3COOH + 4 Cr^3+ + 11 H2O",
            "CH3CH2OH + H2O -> CH3COOH + 4 H^+ + 4 e^-",
            "Cr2O7^2- + 14 H^+ + 6 e^- -> 2 Cr^3+ + 7 H2O",
        ),
        (
            "NH4NO3 -> N2O + 2 H2O",
            "2 NH4^+ + H2O -> N2O + 10 H^+ + 8 e^-",
            "2 NO3^- + 10 H^+ + 8 e^- -> N2O + 5 H2O",
        ),
    ],
)
def test_a_redox_equation_falls_into_its_two_halves(
    text: str, oxidation: str, reduction: str
) -> None:
    halves = redox_halves(parse_equation(text))
    assert [str(half) for half in halves] == [oxidation, reduction]


def test_an_equation_with_electrons_is_a_half_already() -> None:
    assert redox_halves(parse_equation("Zn -> Zn^2+ + 2 e^-")) == ()


equations = st.sampled_from(
    [parse_equation(entry["expected"]["equation"]) for entry in SET["entries"]]
)


@given(equations)
def test_halves_are_balanced_and_carry_electrons_on_the_right_side(
    equation: Equation,
) -> None:
    for half, side in zip(
        redox_halves(equation), ("products", "reactants"), strict=False
    ):
        assert is_balanced(half)
        assert total_charge(half.reactants) == total_charge(half.products)
        assert any(t.formula.is_electron for t in getattr(half, side))


@given(equations)
def test_reversing_an_equation_exchanges_oxidation_and_reduction(
    equation: Equation,
) -> None:
    """A disproportionation turned round is a comproportionation, so kinds are compared."""
    turned = Equation(equation.products, equation.reactants)
    forward, back = redox(equation), redox(turned)
    assert bool(forward.changes) == bool(back.changes)
