"""Molar masses against an independent program and against textbooks.

The formulas come from published thermodynamic tables (their heads name them),
the masses from the PyPI package periodictable; the figures of textbooks from
OpenStax Chemistry 2e, section 3.1.
"""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import periodictable
import pytest

from manualgen.chemistry import (
    FormulaError,
    atomic_weights,
    edition,
    elements,
    mass_fractions,
    molar_mass,
    parse_formula,
)

LISTED = Path(__file__).with_name("formulas.txt").read_text(encoding="utf-8")
FORMULAS = [line for line in LISTED.splitlines() if not line.startswith("#")]


def test_molar_masses_agree_with_an_independent_program() -> None:
    assert len(FORMULAS) > 1000
    far_off = {}
    for text in FORMULAS:
        ours = float(molar_mass(parse_formula(text)))
        theirs = periodictable.formula(text.partition("^")[0]).mass
        if abs(ours - theirs) > 1e-4 * theirs:
            far_off[text] = (ours, theirs)
    assert far_off == {}


def test_every_element_is_there_in_the_order_of_its_number() -> None:
    known = [e for e in periodictable.elements if e.number > 0]
    ours = [(e.atomic_number, e.symbol) for e in elements().values()]
    assert ours == [(e.number, e.symbol) for e in known if e.symbol not in ("D", "T")]


def test_weights_agree_with_an_independent_table_within_their_uncertainty() -> None:
    """The package carries the weights of 2021; zirconium was revised in 2024."""
    for element in elements().values():
        if element.uncertainty is not None and element.symbol != "Zr":
            theirs = getattr(periodictable, element.symbol).mass
            assert float(element.weight) == pytest.approx(
                theirs, abs=float(element.uncertainty) + 1e-4
            )


def test_the_weights_revised_in_2024_are_used_and_the_edition_is_named() -> None:
    """CIAAW 2024: Zr 91.222 ± 0.003, Gd 157.249 ± 0.002, Lu 174.967."""
    assert atomic_weights()["Zr"] == Decimal("91.222")
    assert "2021" in edition()
    assert "2024" in edition()


@pytest.mark.parametrize(
    ("text", "mass"),
    [
        # Added up by hand from CIAAW's abridged weights of 2021.
        ("MgSO4·7H2O", "246.466"),
        ("H2SO4", "98.072"),
        ("Na2CO3·10H2O", "286.138"),
        ("CaSO4·½H2O", "145.1415"),
        ("[Cu(NH3)4]^2+", "131.670"),
        ("TcO4^-", "160.996"),
    ],
)
def test_a_molar_mass_is_the_sum_of_the_atomic_weights(text: str, mass: str) -> None:
    assert molar_mass(parse_formula(text)) == Decimal(mass)


@pytest.mark.parametrize("text", ["MgSO4·xH2O", "(C2H4)n", "HIn", "ROH", "A-"])
def test_what_stands_for_many_substances_has_no_molar_mass(text: str) -> None:
    with pytest.raises(FormulaError, match="no molar mass"):
        molar_mass(parse_formula(text))


def test_mass_fractions_are_those_of_the_textbook() -> None:
    """OpenStax Chemistry 2e, section 3.2, Exercise 3.33: 82.24 % N in ammonia."""
    fractions = mass_fractions(parse_formula("NH3"))
    assert round(100 * fractions["N"], 2) == Decimal("82.24")
    assert sum(fractions.values()) == pytest.approx(Decimal(1))
    assert mass_fractions(parse_formula("e-")) == {}
