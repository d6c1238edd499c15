"""What is weighed or measured for a solution, held against independent figures."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from molmass import Formula as Molecule
from pint import UnitRegistry

from manualgen.knowledge import find_chemical
from manualgen.preparation.making import Making, making_of
from manualgen.preparation.needs import Order, Sitting
from manualgen.preparation.plan import plan
from manualgen.quantities import parse_quantity
from manualgen.working.worked import Worked

UNITS: UnitRegistry[float] = UnitRegistry()


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
    molar_mass = Molecule(as_weighed).mass * UNITS.g / UNITS.mol
    strength = float(mol_per_dm3) * UNITS.mol / UNITS.dm**3
    expected = (molar_mass * strength * volume_cm3 * UNITS.cm**3).to("g").magnitude
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
