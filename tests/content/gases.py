"""What the practicals with gases, rates and weighings to constant mass come to."""

from __future__ import annotations

import numpy as np

from tests.content.recalculation import (
    BALANCE,
    Array,
    Recalculation,
    Values,
    gradient_and_intercept,
)
from tests.content.source_text import GAS_CONSTANT, molar_mass, si, source


def peroxide_catalyst() -> Recalculation:
    """Two hydrogen peroxide molecules for one of oxygen; tangents by `touching`."""
    one = Recalculation(source("peroxide-catalyst"))
    one.put_given("c", "V", "T", "p")
    one.put_column("volumes", "t", "s")
    for symbol in ("Va", "Vb"):
        one.put_column("volumes", symbol, "cm3")
    one.work = _peroxide_catalyst
    return one


def _peroxide_catalyst(v: Values) -> dict[str, float | Array]:
    peroxide = float(v["c"][0] * v["V"][0])
    molar_volume = GAS_CONSTANT * float(v["T"][0] / v["p"][0])
    fast = touching(v["volumes.t"], v["volumes.Va"])
    slow = touching(v["volumes.t"], v["volumes.Vb"])
    return {
        "rate.tangent": fast,
        "slower.tangent": slow,
        "n_p": peroxide,
        "n_o": peroxide / 2,
        "T_a": float(v["T"][0]),
        "V_m": molar_volume,
        "V_o": peroxide / 2 * molar_volume,
        "r_a": fast,
        "r_b": slow,
        "q": fast / slow,
    }


def touching(x: Array, y: Array) -> float:
    """The gradient at the first reading of the parabola through those about it.

    Cleveland's locally weighted regression (J. Am. Stat. Assoc. 74 (1979) 829)
    with tricube weights; five readings, and a tenth past the fifth, are this
    manual's own choice.
    """
    distance = (x - x[0]) / (1.1 * (x[4] - x[0]))
    near = distance < 1
    weights = (1 - distance[near] ** 3) ** 3
    parabola = np.polyfit(x[near] - x[0], y[near], 2, w=np.sqrt(weights))
    return float(parabola[1])


def thiosulfate_rate() -> Recalculation:
    one = Recalculation(source("thiosulfate-rate"))
    one.put_given("c_p", "t_m")
    src = one.source
    concentration = si(0.100, "mol/dm3") * np.array(src.column("runs", "V_t")) / 10.0
    times = np.array([src.column("runs", "t1"), src.column("runs", "t2")])
    rate = 1 / np.mean(times, axis=0)
    one.put_line("rate", concentration, rate)
    one.put("runs.c", list(concentration), 0.0)
    one.put("runs.r", list(rate), 0.0)
    one.work = _thiosulfate_rate
    return one


def _thiosulfate_rate(v: Values) -> dict[str, float | Array]:
    gradient, intercept = gradient_and_intercept(v, "rate")
    expected = gradient * float(v["c_p"][0]) + intercept
    return {
        "runs.c": v["runs.c"],
        "runs.r": v["runs.r"],
        "rate.gradient": gradient,
        "rate.intercept": intercept,
        "r_p": expected,
        "t_p": 1 / expected,
        "d": (float(v["t_m"][0]) - 1 / expected) * expected,
    }


def baking_soda() -> Recalculation:
    """Losses that three equations predict, beside the loss found."""
    one = Recalculation(source("baking-soda"))
    one.put_given("m_e")
    for symbol in ("m1", "m2"):
        one.put_column("masses", symbol, "g", BALANCE)
    one.work = _baking_soda
    return one


def _baking_soda(v: Values) -> dict[str, float | Array]:
    soda, water, gas = (molar_mass(f) for f in ("NaHCO3", "H2O", "CO2"))
    taken = float(v["masses.m2"][0] - v["masses.m1"][0])
    lost = float(v["masses.m2"][0] - v["m_e"][0])
    return {
        "m_a": taken,
        "m_b": lost,
        "loss": lost / taken,
        "p_1": gas / soda,
        "p_2": (water + gas) / (2 * soda),
        "p_3": (water + 2 * gas) / (2 * soda),
    }


def epsom_water() -> Recalculation:
    """Water for each magnesium sulfate, by one crucible and by the class's line."""
    one = Recalculation(source("epsom-water"))
    one.put_given("m_e")
    for symbol in ("m_1", "m_2"):
        one.put_column("own", symbol, "g", BALANCE)
    powder, lost = (np.array(one.source.column("class", s)) for s in ("m_p", "m_w"))
    one.put_line("line", si(1, "g") * powder, si(1, "g") * lost)
    one.work = _epsom_water
    return one


def _epsom_water(v: Values) -> dict[str, float | Array]:
    water = float(v["own.m_2"][0] - v["m_e"][0])
    rest = float(v["m_e"][0] - v["own.m_1"][0])
    gradient, intercept = gradient_and_intercept(v, "line")
    ratio = molar_mass("MgSO4") / molar_mass("H2O")
    return {
        "line.gradient": gradient,
        "line.intercept": intercept,
        "m_0": float(v["own.m_1"][0]),
        "m_l": water,
        "m_r": rest,
        "n_w": water / molar_mass("H2O"),
        "n_r": rest / molar_mass("MgSO4"),
        "x_g": water / rest * ratio,
        "k": gradient,
        "x_k": gradient * ratio,
    }
