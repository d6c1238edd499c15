"""Net ionic equations against textbooks (ionic.yaml names the sources).

Equations without an entry there are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import (
    Equation,
    Term,
    is_balanced,
    net_ionic,
    parse_equation,
    same_net_ionic,
)
from manualgen.chemistry.activity import displaces, halogens, metals
from manualgen.chemistry.conservation import scaled

SET = yaml.load(
    Path(__file__).with_name("ionic.yaml").read_text(encoding="utf-8"),
    Loader=yaml.CBaseLoader,
)
ENTRIES = {entry["id"]: entry for entry in SET["entries"]}
REACTIONS = [n for n, e in ENTRIES.items() if e["expected"]["reaction"] == "true"]


def full(name: str) -> Equation:
    stated = ENTRIES[name]["given"]
    return parse_equation(stated.get("equation") or stated["proposed_equation"])


def species(terms: Iterable[Term]) -> dict[str, Fraction]:
    return {term.species: term.amount for term in terms}


@pytest.mark.parametrize("name", ENTRIES)
def test_a_textbooks_equation_has_its_ionic_forms(name: str) -> None:
    expected, derived = ENTRIES[name]["expected"], net_ionic(full(name))
    assert derived.is_reaction == (expected["reaction"] == "true")
    for form, found in (
        ("complete_ionic", derived.complete),
        ("net_ionic", derived.net),
    ):
        if expected.get(form, "null") == "null":
            continue
        stated = parse_equation(expected[form])
        assert found is not None
        assert species(found.reactants) == species(stated.reactants)
        assert species(found.products) == species(stated.products)
    if "spectators" in expected:
        numbers = {s: Fraction(n) for s, n in expected["spectators"].items()}
        assert species(derived.spectators) == numbers


NET = {
    "Zn(s) + H2SO4(aq) -> ZnSO4(aq) + H2(g)": "Zn(s) + 2 H^+(aq) -> Zn^2+(aq) + H2(g)",
    "Fe(s) + CuSO4(aq) -> FeSO4(aq) + Cu(s)": "Fe(s) + Cu^2+(aq) -> Fe^2+(aq) + Cu(s)",
    "ZnSO4(aq) + 2 NaOH(aq) -> Zn(OH)2(s) + Na2SO4(aq)": "Zn^2+(aq) + 2 OH^-(aq) -> Zn(OH)2(s)",
    "Zn(OH)2(s) + 2 NaOH(aq) -> Na2[Zn(OH)4](aq)": "Zn(OH)2(s) + 2 OH^-(aq) -> [Zn(OH)4]^2-(aq)",
    "Zn(OH)2(s) + 2 NaOH(aq) -> Na2ZnO2(aq) + 2 H2O(l)": "Zn(OH)2(s) + 2 OH^-(aq) -> ZnO2^2-(aq) + 2 H2O(l)",
    "ZnSO4(aq) + H2S(g) -> ZnS(s) + H2SO4(aq)": "Zn^2+(aq) + H2S(g) -> ZnS(s) + 2 H^+(aq)",
    "NaOH(aq) + CH3COOH(aq) -> CH3COONa(aq) + H2O(l)": "OH^-(aq) + CH3COOH(aq) -> CH3COO^-(aq) + H2O(l)",
    "CuSO4(aq) + 4 NH3(aq) -> [Cu(NH3)4]SO4(aq)": "Cu^2+(aq) + 4 NH3(aq) -> [Cu(NH3)4]^2+(aq)",
    "AgCl(s) + 2 NH3(aq) -> [Ag(NH3)2]Cl(aq)": "AgCl(s) + 2 NH3(aq) -> [Ag(NH3)2]^+(aq) + Cl^-(aq)",
    "Ca(OH)2(aq) + CO2(g) -> CaCO3(s) + H2O(l)": "Ca^2+(aq) + 2 OH^-(aq) + CO2(g) -> CaCO3(s) + H2O(l)",
    "2 CuSO4(aq) + 4 KI(aq) -> 2 CuI(s) + I2(aq) + 2 K2SO4(aq)": "2 Cu^2+(aq) + 4 I^-(aq) -> 2 CuI(s) + I2(aq)",
    "2 KMnO4(aq) + 10 FeSO4(aq) + 8 H2SO4(aq) -> K2SO4(aq) + 2 MnSO4(aq) + 5 Fe2(SO4)3(aq) + 8 H2O(l)": "MnO4^-(aq) + 5 Fe^2+(aq) + 8 H^+(aq) -> Mn^2+(aq) + 5 Fe^3+(aq) + 4 H2O(l)",
    "2 Na2S2O3(aq) + I2(aq) -> Na2S4O6(aq) + 2 NaI(aq)": "2 S2O3^2-(aq) + I2(aq) -> S4O6^2-(aq) + 2 I^-(aq)",
    "HgCl2(aq) + 2 KI(aq) -> HgI2(s) + 2 KCl(aq)": "HgCl2(aq) + 2 I^-(aq) -> HgI2(s) + 2 Cl^-(aq)",
    "FeCl3(aq) + 3 KSCN(aq) -> Fe(SCN)3(aq) + 3 KCl(aq)": "Fe^3+(aq) + 3 SCN^-(aq) -> Fe(SCN)3(aq)",
    "KHC8H4O4(aq) + NaOH(aq) -> KNaC8H4O4(aq) + H2O(l)": "HC8H4O4^-(aq) + OH^-(aq) -> C8H4O4^2-(aq) + H2O(l)",
    "Cu(s) + 4 HNO3(aq) -> Cu(NO3)2(aq) + 2 NO2(g) + 2 H2O(l)": "Cu(s) + 4 H^+(aq) + 2 NO3^-(aq) -> Cu^2+(aq) + 2 NO2(g) + 2 H2O(l)",
    "BaCl2(aq) + Na2SO4(aq) -> BaSO4(aq) + 2 NaCl(aq)": "Ba^2+(aq) + SO4^2-(aq) -> BaSO4(s)",
    "CuSO4·5H2O(aq) + Zn(s) -> ZnSO4(aq) + Cu(s) + 5 H2O(l)": "Cu^2+(aq) + Zn(s) -> Zn^2+(aq) + Cu(s)",
}
NOTHING = [
    "BaSO4(s) + 2 HCl(aq) -> BaCl2(aq) + H2SO4(aq)",
    "Cu(s) + 2 HCl(aq) -> CuCl2(aq) + H2(g)",
    "I2(aq) + 2 KBr(aq) -> 2 KI(aq) + Br2(aq)",
    "2 NaCl(aq) + K2SO4(aq) -> Na2SO4(aq) + 2 KCl(aq)",
]


@pytest.mark.parametrize("equation", NET)
def test_the_equations_of_practicals_have_their_net_ionic_forms(equation: str) -> None:
    derived = net_ionic(parse_equation(equation)).net
    assert derived is not None
    assert same_net_ionic(derived, parse_equation(NET[equation]))
    assert is_balanced(derived)


@pytest.mark.parametrize("equation", NOTHING)
def test_no_reaction_is_recognised(equation: str) -> None:
    derived = net_ionic(parse_equation(equation))
    assert derived.net is None
    assert derived.message is not None
    assert derived.message.startswith("no reaction")


def test_an_insoluble_salt_may_be_in_equilibrium_with_its_ions() -> None:
    # Solubility product; OpenStax Chemistry 2e, section 15.1.
    assert net_ionic(parse_equation("AgCl(s) <=> Ag^+(aq) + Cl^-(aq)")).is_reaction


def test_a_solid_may_dissolve_and_an_ion_may_lack_its_state() -> None:
    # Common practice, no source.
    dissolving = net_ionic(parse_equation("NaCl(s) -> NaCl(aq)"))
    assert str(dissolving.net) == "NaCl(s) -> Na^+(aq) + Cl^-(aq)"
    decomposed = net_ionic(parse_equation("CaCO3(s) -> CaO(s) + CO2(g)"))
    assert decomposed.is_reaction
    without = net_ionic(parse_equation("Ag^+ + NaCl(aq) -> AgCl(s) + Na^+"))
    assert str(without.net) == "Ag^+(aq) + Cl^-(aq) -> AgCl(s)"
    electrode = net_ionic(parse_equation("Cu^2+(aq) + 2 e- -> Cu(s)"))
    assert str(electrode.net) == "Cu^2+(aq) + 2 e^- -> Cu(s)"


def test_without_states_nothing_is_derived() -> None:
    derived = net_ionic(parse_equation("NaOH + HCl -> NaCl + H2O"))
    assert derived.complete is None
    assert "NaOH, HCl, NaCl, H2O" in str(derived.message)


def test_a_skeleton_is_balanced_first() -> None:
    derived = net_ionic(parse_equation("KI(aq) + Pb(NO3)2(aq) -> PbI2(s) + KNO3(aq)"))
    assert str(derived.net) == "Pb^2+(aq) + 2 I^-(aq) -> PbI2(s)"


def test_what_cannot_be_balanced_has_no_ionic_form() -> None:
    assert net_ionic(parse_equation("NaOH(aq) -> HCl(aq)")).complete is None


@given(st.sampled_from(REACTIONS), st.integers(2, 9), st.randoms())
def test_order_and_a_common_factor_do_not_change_an_equation(
    name: str, factor: int, random: Random
) -> None:
    derived = net_ionic(full(name)).net
    assert derived is not None
    shuffled = Equation(
        tuple(random.sample(derived.reactants, len(derived.reactants))),
        tuple(random.sample(derived.products, len(derived.products))),
        derived.arrow,
    )
    assert same_net_ionic(scaled(shuffled, Fraction(factor)), derived)


SAME = [
    ("H3O^+ + OH^- -> 2 H2O", "H^+(aq) + OH^-(aq) -> H2O(l)"),
    (
        "CaCO3(s) + 2 H3O^+(aq) -> Ca^2+(aq) + CO2(g) + 3 H2O(l)",
        "CaCO3(s) + 2 H^+(aq) -> Ca^2+(aq) + H2O(l) + CO2(g)",
    ),
    (
        "[Cu(H2O)6]^2+ + 4 NH3 -> [Cu(NH3)4]^2+ + 6 H2O",
        "Cu^2+(aq) + 4 NH3(aq) -> [Cu(NH3)4]^2+(aq)",
    ),
    ("NH4OH(aq) + H^+(aq) -> NH4^+(aq) + H2O(l)", "NH3(aq) + H^+(aq) -> NH4^+(aq)"),
    (
        "Zn(OH)2(s) + 2 OH^-(aq) -> [Zn(OH)4]^2-(aq)",
        "Zn(OH)2(s) + 2 OH^-(aq) -> ZnO2^2-(aq) + 2 H2O(l)",
    ),
    ("C2H3O2^-(aq) + H^+(aq) -> HC2H3O2(aq)", "H^+(aq) + CH3COO^-(aq) -> CH3COOH(aq)"),
]
OTHER = [
    ("Ag^+(aq) + Cl^-(aq) -> AgCl(aq)", "Ag^+(aq) + Cl^-(aq) -> AgCl(s)"),
    ("Ag^+(aq) + 2 Cl^-(aq) -> AgCl(s)", "Ag^+(aq) + Cl^-(aq) -> AgCl(s)"),
    ("Na^+ + Cl^- + Ag^+ -> AgCl + Na^+", "Ag^+(aq) + Cl^-(aq) -> AgCl(s)"),
    ("H^+ + OH^- -> H2O", "Ba^2+ + 2 OH^- + 2 H^+ + SO4^2- -> BaSO4 + 2 H2O"),
    ("Zn + Cu^2+ -> Zn^2+ + Cu^2+", "Zn(s) + Cu^2+(aq) -> Zn^2+(aq) + Cu(s)"),
    ("AgCl -> Ag^+ + Cl^-", "Ag^+ + Cl^- -> AgCl"),
]


@pytest.mark.parametrize(("one", "other"), SAME)
def test_writings_that_chemists_change_freely_are_the_same(
    one: str, other: str
) -> None:
    assert same_net_ionic(parse_equation(one), parse_equation(other))
    assert same_net_ionic(parse_equation(other), parse_equation(one))


@pytest.mark.parametrize(("one", "other"), OTHER)
def test_a_spectator_a_state_or_a_number_makes_another_equation(
    one: str, other: str
) -> None:
    assert not same_net_ionic(parse_equation(one), parse_equation(other))


def test_the_activity_series_agrees_with_electrode_potentials() -> None:
    # OpenStax Chemistry 2e, Appendix L. The series puts K, Ba and Ca above Na,
    # all as the potentials do.
    potentials = [rank.potential for rank in metals()]
    assert potentials == sorted(potentials)
    potentials = [rank.potential for rank in halogens()]
    assert potentials == sorted(potentials, reverse=True)


def test_an_element_displaces_those_below_it_in_its_series() -> None:
    # Brown, LeMay, Bursten, Chemistry: The Central Science, section 4.4 (memory).
    assert displaces("Zn", "Cu")
    assert displaces("Pb", "H")
    assert displaces("Cu", "H") is False
    assert displaces("Cl", "I")
    assert displaces("Zn", "Cl") is None
