"""What the technician weighs and measures for the demonstration, worked out again.

Masses by m = c V M / p and volumes of stock by c₁V₁ = c₂V₂, with molmass's molar
masses; what stands on the suppliers' labels is common practice, no source.
"""

from __future__ import annotations

import json
import re
from contextlib import redirect_stdout
from functools import cache
from io import StringIO

import pytest

from manualgen.cli import main
from tests.content.source_text import CONTENT, molar_mass, si

PURITY = {"sodium hydroxide": 0.98, "potassium hydroxide": 0.85}
"""By mass, as chemicals.yaml says that they are supplied; all else is pure."""
STOCK = {
    "sulfuric acid": ("H2SO4", 0.98, 1.84),
    "hydrochloric acid": ("HCl", 0.36, 1.18),
    "nitric acid": ("HNO3", 0.70, 1.42),
    "aqueous ammonia": ("NH3", 0.35, 0.88),
    "hydrogen peroxide": ("H2O2", 0.30, 1.11),
}
"""Formula, mass fraction and g/cm³ of the concentrated solutions."""


@cache
def solutions() -> list[dict[str, object]]:
    """Every solution of a year of the demonstration."""
    with redirect_stdout(StringIO()) as told:
        assert main(["prepare", "--content", str(CONTENT), "--format", "json"]) == 0
    found = json.loads(told.getvalue())["solutions"]
    assert isinstance(found, list)
    return found


def amount_of(solution: dict[str, object]) -> float | None:
    """How much of the substance the makings hold, in mol."""
    found = re.fullmatch(r"([\d.]+) mol/dm³", str(solution["strength"]))
    made = solution["make_volume"]
    if found is None or not isinstance(made, dict):
        return None
    return si(float(found[1]), "mol/dm3") * si(made["value"], made["unit"])


def test_a_solid_is_weighed_for_the_volume_that_is_made() -> None:
    weighed = 0
    for solution in solutions():
        amount, mass = amount_of(solution), solution["mass"]
        if amount is None or not isinstance(mass, dict) or not solution["formula"]:
            continue
        formula = re.sub(r"·(\d+)H2O", r"(H2O)\1", str(solution["formula"]))
        purity = PURITY.get(str(solution["name"]), 1.0)
        expected = 1000 * amount * molar_mass(formula) / purity
        makings = solution["makings"]
        assert isinstance(makings, list)
        slack = 0.006 * len(makings) + 2e-4 * expected
        assert mass["value"] == pytest.approx(expected, abs=slack), solution["name"]
        weighed += 1
    assert weighed > 15


def test_a_stock_is_measured_for_the_volume_that_is_made() -> None:
    measured = set()
    for solution in solutions():
        amount, volume = amount_of(solution), solution["stock_volume"]
        if amount is None or not isinstance(volume, dict):
            continue
        name = str(solution["name"])
        formula, fraction, density = STOCK[name]
        strong = fraction * si(density, "g/cm3") / molar_mass(formula)
        assert volume["value"] == pytest.approx(1e6 * amount / strong, rel=2e-3), name
        measured.add(name)
    assert measured == set(STOCK)


def test_what_is_made_is_enough_for_twelve_groups_and_a_tenth_more() -> None:
    found = {(s["name"], s["strength"]): s for s in solutions()}
    for name, strength, each in (
        ("potassium manganate(VII)", "0.00500 mol/dm³", 130),
        ("hydrogen peroxide", "0.200 mol/dm³", 100),
        ("sodium hydroxide", "1.10 mol/dm³", 120),
        ("potassium hydroxide", "1.5 mol/dm³", 25),
        ("aqueous ammonia", "2.0 mol/dm³", 10),
    ):
        total, made = (
            found[name, strength][k] for k in ("total_volume", "make_volume")
        )
        assert isinstance(total, dict)
        assert isinstance(made, dict)
        assert si(total["value"], total["unit"]) == pytest.approx(
            si(12 * each * 1.10, "cm3")
        )
        assert si(made["value"], made["unit"]) >= si(12 * each * 1.10, "cm3")
