"""What the titrations come to, from their burette readings and weighings."""

from __future__ import annotations

from math import sqrt

import numpy as np

from tests.content.recalculation import (
    BALANCE,
    BURETTE_B,
    FLASK_250_B,
    PIPETTE_1_B,
    PIPETTE_25_B,
    READ,
    Array,
    Recalculation,
    Values,
)
from tests.content.source_text import molar_mass, si, source


def standard_alkali() -> Recalculation:
    one = Recalculation(source("standard-alkali"))
    for symbol in ("m_1", "m_2"):
        one.put_column("weighings", symbol, "g", BALANCE)
    _put_titration(one, ("titres", "V_1", "V_2"))
    one.put_limits("pipette", 25.00, PIPETTE_25_B, "cm3")
    one.put_limits("flask", 250.0, FLASK_250_B, "cm3")
    one.work = _standard_alkali
    return one


def _standard_alkali(v: Values) -> dict[str, float | Array]:
    solid = v["weighings.m_1"] - v["weighings.m_2"]
    phthalate = float(solid[0]) / molar_mass("C8H5KO4")
    standard = phthalate / float(v["flask"][0])
    acid = standard * float(v["pipette"][0])
    titre = _titre(v, "titres", "V_1", "V_2", rows=(1, 2, 3))
    return {
        "weighings.m": solid,
        "titres.V_t": v["titres.V_2"] - v["titres.V_1"],
        "titres.mean": titre,
        "m_s": float(solid[0]),
        "V_f": float(v["flask"][0]),
        "V_p": float(v["pipette"][0]),
        "V_b": titre,
        "n_s": phthalate,
        "c_s": standard,
        "n_a": acid,
        "n_b": acid,
        "c_b": acid / titre,
    }


def vinegar() -> Recalculation:
    one = Recalculation(source("vinegar"))
    one.put_given("c_b")
    _put_titration(one, ("titres", "V1", "V2"))
    one.put_limits("pipette", 25.00, PIPETTE_25_B, "cm3")
    one.put_limits("flask", 250.0, FLASK_250_B, "cm3")
    one.work = _vinegar
    return one


def _vinegar(v: Values) -> dict[str, float | Array]:
    titre = _titre(v, "titres", "V1", "V2", rows=(1, 2, 3))
    pipette, flask = float(v["pipette"][0]), float(v["flask"][0])
    alkali = float(v["c_b"][0]) * titre
    diluted = alkali / pipette
    whole = diluted * flask / pipette
    return {
        "titres.Vt": v["titres.V2"] - v["titres.V1"],
        "titres.mean": titre,
        "V_b": titre,
        "V_a": pipette,
        "V_f": flask,
        "n_b": alkali,
        "n_a": alkali,
        "c_d": diluted,
        "c_v": whole,
        "g_v": whole * molar_mass("C2H4O2"),
    }


def iron_tablet() -> Recalculation:
    """Five iron(II) ions give their electrons to one manganate(VII) ion."""
    one = Recalculation(source("iron-tablet"))
    one.put_given("c_m")
    one.put_column("weighing", "m_5", "g", BALANCE)
    _put_titration(one, ("titres", "V_1", "V_2"))
    one.put_limits("pipette", 25.00, PIPETTE_25_B, "cm3")
    one.put_limits("flask", 250.0, FLASK_250_B, "cm3")
    one.work = _iron_tablet
    return one


def _iron_tablet(v: Values) -> dict[str, float | Array]:
    titre = _titre(v, "titres", "V_1", "V_2", rows=(1, 2, 3))
    manganate = float(v["c_m"][0]) * titre
    in_flask = 5 * manganate * float(v["flask"][0]) / float(v["pipette"][0])
    in_tablet = in_flask * molar_mass("Fe") / 5
    return {
        "titres.V_t": v["titres.V_2"] - v["titres.V_1"],
        "titres.mean": titre,
        "V_p": float(v["pipette"][0]),
        "V_f": float(v["flask"][0]),
        "V_m": titre,
        "n_m": manganate,
        "n_p": 5 * manganate,
        "n_f": in_flask,
        "m_f": in_tablet,
        "w_f": in_tablet / (float(v["weighing.m_5"][0]) / 5),
    }


def ester_equilibrium() -> Recalculation:
    """As much ethanol as ethanoic acid; as much of both as ester and water went."""
    one = Recalculation(source("ester-equilibrium"))
    one.put_given("c_b", "V", "V_e", "m_w", "d_e")
    _put_titration(one, ("blank", "V1", "V2"), ("mixture", "V1", "V2"))
    one.put_limits("pipette", 1.00, PIPETTE_1_B, "cm3")
    one.work = _ester_equilibrium
    return one


def _ester_equilibrium(v: Values) -> dict[str, float | Array]:
    whole = float(v["c_b"][0] * v["V"][0] / v["pipette"][0])
    blank = _titre(v, "blank", "V1", "V2", rows=(0, 1))
    mixture = _titre(v, "mixture", "V1", "V2", rows=(0, 1))
    acid = whole * (mixture - blank)
    start = float(v["d_e"][0] * v["V_e"][0]) / molar_mass("C4H8O2")
    ester, water = start - acid, float(v["m_w"][0]) / molar_mass("H2O") - acid
    return {
        "blank.Vt": v["blank.V2"] - v["blank.V1"],
        "blank.mean": blank,
        "mixture.Vt": v["mixture.V2"] - v["mixture.V1"],
        "mixture.mean": mixture,
        "V_p": float(v["pipette"][0]),
        "n_c": whole * blank,
        "n_t": whole * mixture,
        "n_a": acid,
        "n_0": start,
        "n_e": ester,
        "n_w": water,
        "K": acid * acid / (ester * water),
    }


def _put_titration(one: Recalculation, *tables: tuple[str, str, str]) -> None:
    for table, *columns in tables:
        for symbol in columns:
            one.put_column(table, symbol, "cm3", READ)
    one.put("burette", 0.0, si(BURETTE_B, "cm3") / sqrt(3))


def _titre(
    v: Values, table: str, first: str, last: str, rows: tuple[int, ...]
) -> float:
    """The mean of the rows, and the burette's own error once."""
    titres = (v[f"{table}.{last}"] - v[f"{table}.{first}"])[list(rows)]
    return float(np.mean(titres) + v["burette"][0])
