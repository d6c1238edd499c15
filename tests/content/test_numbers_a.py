"""The numbers of eight practicals, worked out a second time without manualgen.

The readings are copied by hand from the tables of the experiments. Units are
pint's, molar masses molmass's, lines numpy's. molmass does not use the abridged
atomic weights, so that results agree to 0.02 % and not to the last figure.
Solubilities of potassium nitrate: handbook values, from memory.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable
from functools import cache
from math import sqrt
from pathlib import Path

import numpy as np
import pint
import pytest
from molmass import Formula

from manualgen.build import read_and_work
from manualgen.working.numbers import Numbers

CONTENT = Path(__file__).parents[2] / "content"
CLOSE = 2e-4
"""Between two tables of atomic weights."""
UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


def of(number: float, unit: str) -> float:
    """A value in the coherent SI unit; a mass of readings too."""
    return float(UNITS.Quantity(number, unit).to_base_units().magnitude)


def molar_mass(formula: str) -> float:
    """In kg/mol."""
    return of(float(Formula(formula).mass), "g/mol")


@cache
def numbers(experiment: str) -> Numbers:
    worked = read_and_work(CONTENT, None, datetime.date(2026, 9, 1))
    return next(e.numbers for e in worked.experiments if e.experiment.id == experiment)


def computed(experiment: str, name: str) -> float:
    """In the coherent SI unit; a temperature in kelvin."""
    return float(numbers(experiment).scope.values[name].number)


def printed_uncertainty(experiment: str, name: str) -> float:
    """The standard uncertainty as it is printed, in the unit that is printed."""
    stated = numbers(experiment).stated[name]
    assert stated.half_width is not None
    assert stated.standard
    return float(stated.half_width)


def propagated(
    result: Callable[[np.ndarray], float], at: list[float], doubts: list[float]
) -> float:
    """The law of propagation for independent inputs, JCGM 100:2008, 5.1.2."""
    point, total = np.array(at), 0.0
    for n, doubt in enumerate(doubts):
        step = np.zeros(len(at))
        step[n] = doubt
        total += ((result(point + step) - result(point - step)) / 2) ** 2
    return sqrt(total)


def test_the_alkali_has_the_strength_that_its_titration_gives() -> None:
    titre = np.mean([26.20 - 0.10, 26.10 - 0.05, 26.25 - 0.20])
    acid = of(17.68 - 12.57, "g") / molar_mass("C8H5KO4") / of(250.0, "cm^3")
    alkali = acid * of(25.00, "cm^3") / of(float(titre), "cm^3")
    assert computed("standard-alkali", "c_s") == pytest.approx(acid, rel=CLOSE)
    assert computed("standard-alkali", "c_b") == pytest.approx(alkali, rel=CLOSE)
    assert alkali == pytest.approx(of(0.0960, "mol/dm^3"), rel=2e-3), "as made up"


def test_the_alkali_is_as_uncertain_as_balance_and_glassware_make_it() -> None:
    """Class B glassware: ISO 385, 648 and 1042, limits as on the worksheet."""

    def strength(x: np.ndarray) -> float:
        first, last, flask, pipette, burette, *readings = x
        ends, starts = np.array(readings[:3]), np.array(readings[3:])
        titre = float(np.mean(ends - starts)) + burette
        return float((first - last) / 204.222 / flask * pipette / titre * 1000)

    at = [17.68, 12.57, 250.0, 25.00, 0.0, 26.20, 26.10, 26.25, 0.10, 0.05, 0.20]
    limits = [0.005, 0.005, 0.3, 0.06, 0.1, *6 * [0.05]]
    doubt = propagated(strength, at, [limit / sqrt(3) for limit in limits])
    assert printed_uncertainty("standard-alkali", "c_b") == pytest.approx(
        doubt, abs=5e-6
    )


def test_a_tablet_holds_the_iron_that_manganate_finds() -> None:
    titre = of(float(np.mean([23.00, 22.95, 23.00])), "cm^3")
    in_flask = 5 * of(0.00500, "mol/dm^3") * titre
    tablet = in_flask * 10 * molar_mass("Fe") / 5
    assert computed("iron-tablet", "m_f") == pytest.approx(tablet, rel=CLOSE)
    part = 5 * tablet / of(1.71, "g")
    assert computed("iron-tablet", "w_f") == pytest.approx(part, rel=CLOSE)


def test_epsom_salts_hold_nearly_seven_waters_by_one_crucible_and_by_the_class() -> (
    None
):
    ratio = molar_mass("MgSO4") / molar_mass("H2O")
    own = (24.35 - 22.83) / (22.83 - 21.36) * ratio
    powder = [0.74, 0.98, 1.24, 1.47, 1.72, 1.96]
    water = [0.76, 1.03, 1.28, 1.52, 1.77, 2.03]
    gradient, intercept = np.polyfit(powder, water, 1)
    assert computed("epsom-water", "x_g") == pytest.approx(own, rel=CLOSE)
    assert computed("epsom-water", "k") == pytest.approx(gradient, rel=1e-9)
    assert computed("epsom-water", "x_k") == pytest.approx(gradient * ratio, rel=CLOSE)
    assert round(own) == round(gradient * ratio) == 7
    assert abs(intercept) < 0.02


def test_the_heat_of_neutralisation_follows_from_the_line_carried_back() -> None:
    minutes = [5, 6, 7, 8, 9, 10, 11, 12]
    degrees = [26.7, 26.6, 26.5, 26.3, 26.2, 26.1, 26.0, 25.8]
    gradient, intercept = np.polyfit(minutes, degrees, 1)
    rise = intercept + 3 * gradient - 20.4
    heat = of(100 * 1.00 * 4.18 * rise, "J")
    enthalpy = -heat / (of(1.00, "mol/dm^3") * of(50.0, "cm^3"))
    assert computed("neutralisation-enthalpy", "dT") == pytest.approx(rise, rel=1e-9)
    assert computed("neutralisation-enthalpy", "q") == pytest.approx(heat, rel=1e-9)
    assert computed("neutralisation-enthalpy", "dH") == pytest.approx(
        enthalpy, rel=1e-9
    )


def test_the_uncertainty_of_the_rise_knows_that_gradient_and_intercept_go_together() -> (
    None
):
    minutes = np.array([5, 6, 7, 8, 9, 10, 11, 12])
    degrees = np.array([26.7, 26.6, 26.5, 26.3, 26.2, 26.1, 26.0, 25.8])
    _, covariance = np.polyfit(minutes, degrees, 1, cov=True)
    back = np.array([3.0, 1.0])
    doubt = sqrt(float(back @ covariance @ back) + (0.1 / sqrt(3)) ** 2)
    printed = printed_uncertainty("neutralisation-enthalpy", "dT")
    assert printed == pytest.approx(doubt, abs=0.005)


def test_the_decomposition_follows_from_the_two_reactions_in_the_cup() -> None:
    capacity = of(50.0 * 1.00 * 4.18, "J/K")
    first = np.mean([6.83 - 1.81, 6.79 - 1.80]), np.mean([12.3 - 20.6, 12.4 - 20.5])
    second = np.mean([5.84 - 1.82, 5.79 - 1.79]), np.mean([25.4 - 20.5, 25.5 - 20.6])

    def enthalpy(mass: float, change: float, formula: str) -> float:
        return -capacity * change / (of(mass, "g") / molar_mass(formula))

    one = enthalpy(float(first[0]), float(first[1]), "NaHCO3")
    two = enthalpy(float(second[0]), float(second[1]), "Na2CO3")
    assert computed("carbonate-hess", "H_1") == pytest.approx(one, rel=CLOSE)
    assert computed("carbonate-hess", "H_2") == pytest.approx(two, rel=CLOSE)
    assert computed("carbonate-hess", "H_3") == pytest.approx(one - two / 2, rel=CLOSE)


def test_the_yield_of_alum_is_reckoned_from_the_foil() -> None:
    most = of(0.52, "g") / molar_mass("Al") * molar_mass("KAl(SO4)2(H2O)12")
    assert computed("alum", "m_t") == pytest.approx(most, rel=CLOSE)
    percentage = of(8.22 - 1.83, "g") / most
    assert computed("alum", "Y") == pytest.approx(percentage, rel=CLOSE)


def test_the_solubility_of_potassium_nitrate_is_mass_over_water() -> None:
    water = np.array([8.00, 10.00, 12.00, 14.00, 17.00, 20.00])
    solubility = 7.96 / water * 100
    by_mean = numbers("nitrate-solubility").stated["mean(points.S)"]
    assert float(by_mean.value) == pytest.approx(float(np.mean(solubility)), abs=0.05)
    first = computed("nitrate-solubility", "S_1")
    assert first == pytest.approx(of(float(solubility[0]), "g"), rel=1e-9)


def test_the_curve_of_potassium_nitrate_is_that_of_the_handbooks() -> None:
    degrees = np.array([26.6, 31.1, 37.0, 41.5, 47.6, 55.8])
    solubility = 7.96 / np.array([20, 17, 14, 12, 10, 8]) * 100
    for at, handbook in ((30, 45.8), (40, 63.9), (50, 85.5)):
        assert np.interp(at, degrees, solubility) == pytest.approx(handbook, abs=2)
    hot, cold = (float(np.interp(at, degrees, solubility)) for at in (50, 30))
    for name, read in (("S_h", hot), ("S_c", cold), ("m_c", hot - cold)):
        value = computed("nitrate-solubility", name)
        assert value == pytest.approx(of(read, "g"), abs=of(1, "g")), name


def test_the_acid_for_the_silver_outlasts_the_ammonia_of_twelve_groups() -> None:
    """Concentrated ammonia, 35 % and 0.88 g/cm3: usual suppliers' labels, from memory."""
    strong = of(0.35 * 0.88, "g/cm^3") / molar_mass("NH3")
    each = 4 * of(1, "cm^3") * of(2.0, "mol/dm^3") + 3 * of(0.5, "cm^3") * strong
    acid = of(400, "cm^3") * of(2.0, "mol/dm^3")
    assert 12 * each == pytest.approx(0.5, abs=0.1), "the teacher's half a mole"
    assert acid > 1.5 * 12 * each
