"""What the calorimeters and the solubility curve come to."""

from __future__ import annotations

from math import sqrt

import numpy as np

from tests.content.recalculation import (
    BALANCE,
    DISPLAY,
    Array,
    Recalculation,
    Values,
    gradient_and_intercept,
    unexplained,
)
from tests.content.source_text import molar_mass, si, source

WATER = si(4.18, "J/g/K")
DENSE = si(1.00, "g/cm3")
"""Of water, as the theory of the practicals says."""


def neutralisation_enthalpy() -> Recalculation:
    """The line of rows 5 to 12 carried back to three minutes."""
    one = Recalculation(source("neutralisation-enthalpy"))
    one.put_given("T_0", "V_a", "V_s", "c_a")
    minutes = np.array(one.source.column("temperatures", "t"))[4:]
    degrees = np.array(one.source.column("temperatures", "T"))[4:]
    one.put_line("cooling", 60 * minutes, degrees)
    one.work = _neutralisation_enthalpy
    return one


def _neutralisation_enthalpy(v: Values) -> dict[str, float | Array]:
    gradient, intercept = gradient_and_intercept(v, "cooling")
    then = intercept + gradient * 180 + 273.15
    rise = then - float(v["T_0"][0])
    mass = float(v["V_s"][0]) * DENSE
    water = float(v["c_a"][0] * v["V_a"][0])
    return {
        "cooling.gradient": gradient,
        "cooling.intercept": intercept + 273.15,
        "T_m": then,
        "deltaT": rise,
        "m_s": mass,
        "q": mass * WATER * rise,
        "n_w": water,
        "deltaH": -mass * WATER * rise / water,
    }


def carbonate_hess() -> Recalculation:
    """The decomposition is the first reaction less half of the second."""
    one = Recalculation(source("carbonate-hess"))
    one.put_given("V")
    for table in ("first", "second"):
        for symbol in ("b_1", "b_2"):
            one.put_column(table, symbol, "g", BALANCE)
        for symbol in ("T_1", "T_2"):
            one.put_column(table, symbol, "°C", DISPLAY)
        change = one.values[f"{table}.T_2"] - one.values[f"{table}.T_1"]
        known = DISPLAY / sqrt(3)
        one.put(f"{table} scatter", 0.0, unexplained(change, known))
        solid = one.values[f"{table}.b_1"] - one.values[f"{table}.b_2"]
        weighed = si(BALANCE, "g") / sqrt(3)
        one.put(f"{table} powder", 0.0, unexplained(solid, weighed))
    one.work = _carbonate_hess
    return one


def _carbonate_hess(v: Values) -> dict[str, float | Array]:
    capacity = float(v["V"][0]) * DENSE * WATER
    out: dict[str, float | Array] = {
        "m_s": float(v["V"][0]) * DENSE,
        "C": capacity,
    }
    for n, table, salt in ((1, "first", "NaHCO3"), (2, "second", "Na2CO3")):
        solid = v[f"{table}.b_1"] - v[f"{table}.b_2"]
        change = v[f"{table}.T_2"] - v[f"{table}.T_1"]
        mean = float(np.mean(change) + v[f"{table} scatter"][0])
        amount = float(np.mean(solid) + v[f"{table} powder"][0]) / molar_mass(salt)
        out |= {
            f"{table}.m": solid,
            f"{table}.D": change,
            f"{table}.mean": mean,
            f"n_{n}": amount,
            f"q_{n}": capacity * mean,
            f"H_{n}": -capacity * mean / amount,
        }
    return out | {"H_3": float(np.subtract(out["H_1"], np.multiply(0.5, out["H_2"])))}


def nitrate_solubility() -> Recalculation:
    """Mass of salt for each hundred grams of water."""
    one = Recalculation(source("nitrate-solubility"))
    one.put_given("V_1", "S_h", "S_c")
    one.put_column("mass", "m_s", "g", BALANCE)
    one.put_column("points", "V", "cm3")
    one.work = _nitrate_solubility
    return one


def _nitrate_solubility(v: Values) -> dict[str, float | Array]:
    salt, water = float(v["mass.m_s"][0]), float(v["V_1"][0]) * DENSE
    return {
        "points.S": salt / (v["points.V"] * DENSE) * 0.1,
        "m": salt,
        "m_w": water,
        "S_1": salt / water * 0.1,
        "m_c": float(v["S_h"][0] - v["S_c"][0]),
    }
