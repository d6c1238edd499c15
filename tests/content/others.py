"""What electrolysis, preparations, chromatography and two instruments come to."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from tests.content.recalculation import (
    BALANCE,
    FLASK_250_B,
    PIPETTE_25_B,
    Array,
    Recalculation,
    Values,
    gradient_and_intercept,
)
from tests.content.source_text import FARADAY, molar_mass, si, source


def electrolysis_stations() -> Recalculation:
    """Two electrons for a chlorine molecule, and for a copper atom."""
    one = Recalculation(source("electrolysis-stations"))
    one.put_given("I", "t", "V_m")
    one.work = _electrolysis_stations
    return one


def _electrolysis_stations(v: Values) -> dict[str, float | Array]:
    charge = float(v["I"][0] * v["t"][0])
    amount = charge / (2 * FARADAY)
    return {
        "Q": charge,
        "n": amount,
        "V_g": amount * float(v["V_m"][0]),
        "m_c": amount * molar_mass("Cu"),
    }


def alum() -> Recalculation:
    """One alum for each aluminium."""
    one = Recalculation(source("alum"))
    for symbol in ("m_f", "m_b", "m_c"):
        one.put_column("masses", symbol, "g", BALANCE)
    one.work = _alum
    return one


def _alum(v: Values) -> dict[str, float | Array]:
    metal = float(v["masses.m_f"][0]) / molar_mass("Al")
    most = metal * molar_mass("KAl(SO4)2(H2O)12")
    crystals = v["masses.m_c"] - v["masses.m_b"]
    return {
        "masses.m": crystals,
        "n_f": metal,
        "n_t": metal,
        "m_t": most,
        "Y": float(crystals[0]) / most,
    }


def fruit_ester() -> Recalculation:
    """One ester for each alcohol, which runs out before the acid."""
    one = Recalculation(source("fruit-ester"))
    for symbol in ("m1", "m2", "m3", "m4"):
        one.put_column("masses", symbol, "g", BALANCE)
    one.work = _fruit_ester
    return one


def _fruit_ester(v: Values) -> dict[str, float | Array]:
    alcohol = float(v["masses.m2"][0] - v["masses.m1"][0])
    ester = float(v["masses.m4"][0] - v["masses.m3"][0])
    amount = alcohol / molar_mass("C4H10O")
    most = amount * molar_mass("C6H12O2")
    return {
        "m_a": alcohol,
        "n_a": amount,
        "m_t": most,
        "m_e": ester,
        "y": ester / most,
    }


def leaf_pigments() -> Recalculation:
    one = Recalculation(source("leaf-pigments"))
    for symbol in ("d", "f"):
        one.put_column("spots", symbol, "mm")
    one.work = lambda v: {"spots.Rf": v["spots.d"] / v["spots.f"]}
    return one


def copper_colorimeter() -> Recalculation:
    """The calibration line, used backwards."""
    one = Recalculation(source("copper-colorimeter"))
    src = one.source
    copper, water = (np.array(src.column("standards", s)) for s in ("V_s", "V_w"))
    concentration = si(0.100, "mol/dm3") * copper / (copper + water)
    one.put_line("line", concentration, np.array(src.column("standards", "A")))
    one.put_column("unknown", "A", "1")
    one.put("standards.c", list(concentration), 0.0)
    one.work = _copper_colorimeter
    return one


def _copper_colorimeter(v: Values) -> dict[str, float | Array]:
    gradient, intercept = gradient_and_intercept(v, "line")
    absorbance = float(np.mean(v["unknown.A"]))
    found = (absorbance - intercept) / gradient
    return {
        "standards.c": v["standards.c"],
        "line.gradient": gradient,
        "line.intercept": intercept,
        "unknown.mean": absorbance,
        "A_x": absorbance,
        "c_x": found,
        "g_x": found * molar_mass("Cu"),
    }


def descaler_conductivity() -> Recalculation:
    """Two lines, parted where they leave the least scatter; one acid for one alkali."""
    one = Recalculation(source("descaler-conductivity"))
    one.put_given("m", "c_b")
    one.put_limits("pipette", 25.00, PIPETTE_25_B, "cm3")
    one.put_limits("flask", 250.0, FLASK_250_B, "cm3")
    volume = np.array(one.source.column("run", "V")) * si(1, "cm3")
    conductivity = np.array(one.source.column("run", "k")) * si(1, "mS/cm")
    corrected = conductivity * (si(100, "cm3") + volume) / si(100, "cm3")
    for name, rows in pairwise_names(best_parting(volume, corrected), len(volume)):
        one.put_line(name, volume[rows], corrected[rows])
    one.put("run.kc", list(corrected), 0.0)
    one.work = _descaler_conductivity
    return one


def _descaler_conductivity(v: Values) -> dict[str, float | Array]:
    (fall, high), (rise, low) = (
        gradient_and_intercept(v, name) for name in ("falling", "rising")
    )
    crossing = (low - high) / (fall - rise)
    alkali = float(v["c_b"][0]) * crossing
    acid = alkali * float(v["flask"][0] / v["pipette"][0])
    mass = acid * molar_mass("NH2SO3H")
    return {
        "run.kc": v["run.kc"],
        "crossing.crossing_x": crossing,
        "crossing.crossing_y": high + fall * crossing,
        "V_e": crossing,
        "V_p": float(v["pipette"][0]),
        "V_f": float(v["flask"][0]),
        "n_b": alkali,
        "n_a": acid,
        "m_a": mass,
        "w": mass / float(v["m"][0]),
    }


def pairwise_names(at: int, rows: int) -> list[tuple[str, slice]]:
    """The rows of the first line and those of the second."""
    parts = [slice(*ends) for ends in pairwise((0, at, rows))]
    return list(zip(("falling", "rising"), parts, strict=True))


def best_parting(x: Array, y: Array) -> int:
    """After how many points the second line begins."""

    def left_over(at: int) -> float:
        return sum(
            float(np.polyfit(x[rows], y[rows], 1, full=True)[1][0])
            for _, rows in pairwise_names(at, len(x))
        )

    return min(range(3, len(x) - 2), key=left_over)
