"""What is weighed or measured for a solution, held against independent figures."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.knowledge import StoreEntry, find_chemical, store_of
from manualgen.preparation.making import Making, making_of
from manualgen.preparation.needs import Order, Sitting
from manualgen.preparation.plan import plan
from manualgen.preparation.rules import measures
from manualgen.preparation.sizes import by_cylinder, exactly, makings_for
from manualgen.preparation.volumes import volumes_for
from manualgen.quantities import parse_quantity
from manualgen.working.worked import Worked
from tests.preparation.weighing import grams_of


def making(name: str, strength: str, volume_cm3: int) -> Making:
    chemical = find_chemical(name)
    assert chemical is not None
    return making_of(chemical, parse_quantity(strength), (Fraction(volume_cm3),))


@pytest.mark.parametrize(
    ("name", "as_weighed", "mol_per_dm3", "volume_cm3"),
    [
        ("sodium chloride", "NaCl", "0.500", 1000),
        ("potassium iodide", "KI", "0.200", 500),
        ("potassium nitrate", "KNO3", "1.00", 250),
        ("copper(II) sulfate", "CuSO4(H2O)5", "0.100", 1000),
        ("magnesium sulfate", "MgSO4(H2O)7", "0.100", 500),
        ("silver nitrate", "AgNO3", "0.0500", 250),
        ("sodium thiosulfate", "Na2S2O3(H2O)5", "0.100", 1000),
        ("potassium hydrogenphthalate", "C8H5KO4", "0.100", 250),
        ("sodium hydroxide", "NaOH", "0.100", 1000),
        ("sodium hydroxide", "NaOH", "2.00", 500),
        ("potassium bromide", "KBr", "0.100", 100),
        ("barium chloride", "BaCl2(H2O)2", "0.100", 250),
    ],
)
def test_a_mass_to_weigh_is_what_molmass_and_pint_work_out(
    name: str, as_weighed: str, mol_per_dm3: str, volume_cm3: int
) -> None:
    expected = grams_of(as_weighed, float(mol_per_dm3), volume_cm3)
    found = making(name, f"{mol_per_dm3} mol/dm3", volume_cm3).mass
    assert found is not None
    # A balance shows 0.01 g; molmass has unabridged atomic weights.
    assert float(found) == pytest.approx(expected, abs=0.01 + 2e-4 * expected)


@pytest.mark.parametrize(
    ("name", "strength", "stock_mol_per_dm3"),
    [
        # Common concentrated reagents: Vogel's appendix on concentrated reagents
        # and suppliers' labels, from memory, as mass fraction and density.
        ("sulfuric acid", "1.00", 98 * 1.84 * 10 / 98.08),
        ("sulfuric acid", "0.500", 98 * 1.84 * 10 / 98.08),
        ("hydrochloric acid", "2.00", 36 * 1.18 * 10 / 36.46),
        ("hydrochloric acid", "1.00", 36 * 1.18 * 10 / 36.46),
        ("ethanoic acid", "1.00", 99.5 * 1.05 * 10 / 60.05),
        ("hydrogen peroxide", "0.200", 30 * 1.11 * 10 / 34.01),
    ],
)
def test_a_volume_of_stock_follows_from_c1_v1_is_c2_v2(
    name: str, strength: str, stock_mol_per_dm3: float
) -> None:
    expected = float(strength) * 1000 / stock_mol_per_dm3
    found = making(name, f"{strength} mol/dm3", 1000).stock
    assert found is not None
    assert float(found) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize(
    "name", ["sodium hydroxide", "hydrochloric acid", "sodium thiosulfate"]
)
def test_what_is_no_primary_standard_is_standardised(name: str) -> None:
    # Common practice, no source.
    assert making(name, "0.100 mol/dm3", 1000).standard is not None


def test_a_primary_standard_is_weighed_and_made_up() -> None:
    assert making("potassium hydrogenphthalate", "0.100 mol/dm3", 250).standard is None


def test_the_same_solution_for_two_classes_is_made_once(
    work_out: Callable[..., Worked],
) -> None:
    worked = work_out(
        "---\ntitle: T\nchemicals:\n  - sodium chloride, 0.50 mol/dm3, 20 cm3\n---\n\n"
        "## Method\n\n1. Look at the sodium chloride.\n"
    )
    (work,) = worked.experiments
    made = plan(Order((Sitting(work, 12), Sitting(work, 8)), Fraction(1, 10)))
    (solution,) = made.solutions
    # By hand: 20 groups of 20 cm3 and a tenth more.
    assert solution.total == 440


WORKED = yaml.safe_load((Path(__file__).parent / "worked.yaml").read_text("utf-8"))


@pytest.mark.parametrize("example", WORKED, ids=lambda e: e["source"].split(", ")[2])
def test_a_published_example_is_met_within_its_figures(example: dict[str, Any]) -> None:
    name, strength = example["made"]["name"], example["made"]["strength"]
    entry = StoreEntry(name, supplied=example.get("supplied"))
    chemical = find_chemical(name, store_of([entry]))
    assert chemical is not None
    volume = Fraction(example["made"]["volume"])
    made = making_of(chemical, parse_quantity(strength), (volume,))
    found = made.mass if "mass" in example else made.stock
    assert found is not None
    expected = example["mass" if "mass" in example else "stock"]
    assert float(found) == pytest.approx(expected, abs=example["within"])


@pytest.mark.parametrize(
    ("needed", "made"),
    [
        # The contract's own example, and by hand from flasks of 50, 100, 200, 250, 500,
        # 1000 and 2000 cm³ of which no more than a quarter is left over.
        (1056, [1000, 100]),
        (800, [1000]),
        (749, [500, 250]),
        (37, [50]),
        (30, [50]),
        (2000, [2000]),
        (2112, [2000, 200]),
        (4100, [2000, 2000, 100]),
        (130, [100, 50]),
    ],
)
def test_volumes_are_rounded_up_to_flasks_that_exist(
    needed: int, made: list[int]
) -> None:
    found = makings_for(Fraction(needed))
    assert [int(volume) for volume in found] == made


@given(st.integers(1, 60_000))
def test_what_is_made_is_enough_and_in_flasks_that_exist(needed: int) -> None:
    found = makings_for(Fraction(needed))
    assert sum(found) >= needed
    assert set(found) <= set(measures().makings)


@given(st.integers(1, 60_000))
def test_no_more_than_a_quarter_is_left_over_where_two_flasks_can_help(
    needed: int,
) -> None:
    found = makings_for(Fraction(needed))
    left = (sum(found) - needed) / sum(found)
    smallest = min(measures().makings)
    assert left <= Fraction(1, 4) or sum(found) <= 2 * smallest or needed < 150


@pytest.mark.parametrize(
    ("name", "strength"),
    [("silver nitrate", "0.10 mol/dm3"), ("silver nitrate", "0.100 mol/dm3")],
)
def test_of_silver_hardly_more_is_made_than_is_needed(name: str, strength: str) -> None:
    chemical = find_chemical(name)
    assert chemical is not None
    # By hand: 53 cm³ by cylinder; in flasks 100 cm³ is the least that holds it.
    volumes = volumes_for(chemical, parse_quantity(strength), Fraction(53))
    assert sum(volumes) == (53 if strength.startswith("0.10 ") else 100)


@given(st.integers(1, 1999))
def test_a_cylinder_shows_what_is_read_from_it(tenths: int) -> None:
    (portion,) = by_cylinder(Fraction(tenths, 10)).portions
    assert portion.capacity >= Fraction(tenths, 10)
    # Half a graduation of that size of cylinder, ISO 4788, from memory.
    reads = dict(measures().cylinders)[portion.capacity]
    assert abs(portion.volume - Fraction(tenths, 10)) <= reads / 2


@given(st.integers(20, 40_000))
def test_an_exact_volume_is_what_flasks_pipettes_and_burette_add_up_to(
    twentieths: int,
) -> None:
    volume = Fraction(twentieths, 20)
    assert exactly(volume).total == volume
