"""What is said to be in excess is, and what is issued is enough.

Strengths and amounts are the list's and the steps', from the text.
"""

from __future__ import annotations

import re

import numpy as np
import pytest

from tests.content.again import result
from tests.content.source_text import molar_mass, si, source

GROUPS = 12


def strength(experiment: str, name: str) -> float:
    """In mol/m³."""
    return source(experiment).listed(name)["mol/dm3"]


def volume(experiment: str, name: str) -> float:
    """What a group is given, in m³."""
    return source(experiment).listed(name)["cm3"]


def test_the_acid_outlasts_the_thiosulfate_in_every_run_and_the_stop_bath_the_acid() -> (
    None
):
    one = "thiosulfate-rate"
    acid = strength(one, "hydrochloric acid") * si(2.0, "cm3")
    thiosulfate = strength(one, "sodium thiosulfate")
    most = max(source(one).column("runs", "V_t"))
    assert acid > 2 * thiosulfate * si(most, "cm3")
    bath = strength(one, "sodium carbonate") * si(50, "cm3")
    assert 2 * bath > 13 * acid
    for name, used in (("hydrochloric acid", 13 * 2.0), ("sodium carbonate", 50)):
        assert volume(one, name) >= si(used, "cm3")
    run = 2 * sum(source(one).column("runs", "V_t")) + 4.5
    assert volume(one, "sodium thiosulfate") >= si(run, "cm3")


def test_every_mixture_of_the_rate_series_has_the_same_volume() -> None:
    one = source("thiosulfate-rate")
    total = np.add(one.column("runs", "V_t"), one.column("runs", "V_w")) + 2.0
    assert set(total) == {10.0}


def test_the_acid_is_in_excess_for_both_carbonates() -> None:
    one = "carbonate-hess"
    acid = strength(one, "hydrochloric acid") * si(50, "cm3")
    assert acid > si(5.0, "g") / molar_mass("NaHCO3")
    assert acid > 2 * si(4.0, "g") / molar_mass("Na2CO3")
    assert volume(one, "hydrochloric acid") >= 4 * si(50, "cm3")


def test_the_alkali_is_in_excess_in_the_neutralisation_and_stays_corrosive_at_half() -> (
    None
):
    """Sodium hydroxide corrodes from 2 % (CLP Annex VI, 011-002-00-6)."""
    one = "neutralisation-enthalpy"
    alkali, acid = (strength(one, n) for n in ("sodium hydroxide", "hydrochloric acid"))
    assert alkali > acid
    for part, corrodes in ((1.0, True), (0.5, True), (0.4, False)):
        fraction = part * alkali * molar_mass("NaOH") / si(1.02, "g/cm3")
        assert (fraction >= 0.02) is corrodes
    assert 0.4 * result(one, "deltaT") < 3


def test_alkali_and_acid_are_enough_for_the_foil() -> None:
    """One alkali for each aluminium; the acid takes both up and leaves the sulfate."""
    one = "alum"
    metal = source(one).listed("aluminium foil")["g"] / molar_mass("Al")
    alkali = strength(one, "potassium hydroxide") * volume(one, "potassium hydroxide")
    acid = strength(one, "sulfuric acid") * volume(one, "sulfuric acid")
    assert alkali > metal
    assert 2 * acid > 3 * metal + alkali


def test_ethanoic_acid_is_in_excess_of_the_alcohol() -> None:
    """Densities 1.05 and 0.81 g/cm³: the question's, and a handbook's from memory."""
    one = "fruit-ester"
    acid = volume(one, "ethanoic acid") * si(1.05, "g/cm3") / molar_mass("C2H4O2")
    alcohol = volume(one, "butan-1-ol") * si(0.81, "g/cm3") / molar_mass("C4H10O")
    assert acid > 2 * alcohol
    assert alcohol == pytest.approx(result(one, "n_a"), rel=0.01), "the sample weighing"


def test_the_bucket_of_carbonate_takes_the_acids_of_twelve_groups() -> None:
    """Concentrated sulfuric acid: 18 mol/dm³, from memory."""
    one = "fruit-ester"
    ethanoic = volume(one, "ethanoic acid") * si(1.05, "g/cm3") / molar_mass("C2H4O2")
    sulfuric = si(0.5, "cm3") * si(18, "mol/dm3")
    for needs in (one, "alum"):
        bucket = "sodium carbonate, 0.50 mol/dm3, 2 dm3, 1 per class, for disposal"
        assert bucket in source(needs).prose
    assert 2 * si(2, "dm3") * si(0.5, "mol/dm3") > GROUPS * (ethanoic + 2 * sulfuric)


def test_the_alkali_dissolves_the_aluminium_hydroxide_and_lasts_for_six_tubes() -> None:
    one = "metal-ions"
    added = strength(one, "sodium hydroxide") * si(4, "cm3")
    aluminium = 2 * strength(one, "aluminium sulfate") * si(1, "cm3")
    assert added > 4 * aluminium
    assert volume(one, "sodium hydroxide") >= 6 * si(4 + 1, "cm3")


def test_the_stop_bath_takes_all_halogen_that_two_groups_are_given() -> None:
    """Two thiosulfate ions for a halogen molecule at most."""
    one = "halogen-displacement"
    halogen = sum(
        strength(one, name) * volume(one, name)
        for name in ("chlorine water", "bromine water", "iodine solution")
    )
    bath = strength(one, "sodium thiosulfate") * volume(one, "sodium thiosulfate")
    assert bath > 2 * 2 * halogen


def test_the_acid_for_the_silver_outlasts_the_ammonia_of_twelve_groups() -> None:
    """Concentrated ammonia, 35 % and 0.88 g/cm³: usual labels, from memory."""
    one = "halide-tests"
    strong = si(0.35 * 0.88, "g/cm3") / molar_mass("NH3")
    dilute = strength(one, "aqueous ammonia")
    each = 4 * si(1, "cm3") * dilute + 3 * si(0.5, "cm3") * strong
    acid = si(400, "cm3") * si(2.0, "mol/dm3")
    assert GROUPS * each == pytest.approx(0.5, abs=0.1), "the teacher's half a mole"
    assert acid > 1.5 * GROUPS * each


def test_one_packet_of_tablets_does_for_twelve_groups() -> None:
    assert "one packet of 84" in source("iron-tablet").prose
    assert GROUPS * 5 <= 84


def test_the_gas_of_the_peroxide_fits_the_syringe_and_the_sample_comes_near_it() -> (
    None
):
    one = "peroxide-catalyst"
    expected = result(one, "V_o")
    assert expected < si(100, "cm3")
    last = max(source(one).column("volumes", "Va"))
    assert si(last, "cm3") == pytest.approx(expected, rel=0.05)
    assert last == 2 * max(source(one).column("volumes", "Vb"))


def test_more_carbon_dioxide_comes_than_the_limewater_can_take() -> None:
    """Calcium hydroxide dissolves to 1.7 g/dm³: handbooks, from memory."""
    gas = si(0.5, "g") / molar_mass("NaHCO3") / 2
    lime = si(5, "cm3") * si(1.7, "g/dm3") / molar_mass("Ca(OH)2")
    assert gas > 2 * lime


def test_the_water_in_the_acid_of_the_equilibrium_is_what_the_worksheet_says() -> None:
    """Hydrochloric acid of 2 mol/dm³ has 1.033 g/cm³: handbooks, from memory."""
    one = "ester-equilibrium"
    acid = si(5.00, "cm3") * strength(one, "hydrochloric acid") * molar_mass("HCl")
    water = si(5.00, "cm3") * si(1.033, "g/cm3") - acid
    assert source(one).given("m_w").value == pytest.approx(water, abs=si(0.01, "g"))
    mixed = [
        sum(source(one).column("recipes", s)[row] for s in ("V_c", "V_s", "V_w"))
        for row in range(3)
    ]
    assert mixed == [10.0, 10.0, 10.0]


def test_the_curve_of_potassium_nitrate_is_that_of_the_handbooks() -> None:
    """Solubilities in 100 g of water: handbooks, from memory."""
    src = source("nitrate-solubility")
    degrees, water = (np.array(src.column("points", s)) for s in ("T", "V"))
    solubility = src.column("mass", "m_s")[0] / water * 100
    for at, handbook in ((30, 45.8), (40, 63.9), (50, 85.5)):
        assert np.interp(at, degrees[::-1], solubility[::-1]) == pytest.approx(
            handbook, abs=2
        )
        assert f"`{handbook} g` at {at} °C" in src.prose
    for symbol, at in (("S_h", 50), ("S_c", 30)):
        read = float(np.interp(at, degrees[::-1], solubility[::-1]))
        assert src.given(symbol).value == pytest.approx(si(read, "g"), abs=si(1, "g"))
    sixty = float(np.interp(60, solubility[::-1], degrees[::-1]))
    assert sixty == pytest.approx(38, abs=1)


def test_what_was_made_up_is_what_the_samples_find() -> None:
    found = result("standard-alkali", "c_b")
    assert found == pytest.approx(
        strength("standard-alkali", "sodium hydroxide"), rel=5e-3
    )
    copper = source("copper-colorimeter").listed("copper(II) sulfate", "rinse water X")
    assert result("copper-colorimeter", "c_x") == pytest.approx(
        copper["mol/dm3"], rel=5e-3
    )
    assert result("copper-colorimeter", "g_x") < si(5, "g/dm3"), "the lower rate"
    assert result("vinegar", "g_v") == pytest.approx(si(5 / 100, "g/cm3"), rel=0.02)
    assert result("iron-tablet", "m_f") == pytest.approx(si(65, "mg"), abs=si(1, "mg"))
    assert (
        round(result("epsom-water", "x_g")) == round(result("epsom-water", "x_k")) == 7
    )


def test_masses_within_the_limits_give_the_titres_that_the_teacher_expects() -> None:
    made = strength("standard-alkali", "sodium hydroxide")
    for mass, titre in ((4.9, 25.0), (5.2, 26.5)):
        acid = si(mass, "g") / molar_mass("C8H5KO4") / 10
        assert acid / made == pytest.approx(si(titre, "cm3"), abs=si(0.05, "cm3"))


def test_every_spot_lies_in_the_range_of_its_pigment() -> None:
    src = source("leaf-pigments")
    ranges = [
        (float(a), float(b))
        for a, b in re.findall(r"\| (0\.\d+) to (0\.\d+)", src.text)
    ]
    factors = np.divide(src.column("spots", "d"), src.column("spots", "f"))
    for (low, high), factor in zip(ranges, factors, strict=True):
        assert low <= round(float(factor), 2) <= high
