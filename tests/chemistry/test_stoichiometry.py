"""Amounts: who runs out first, what is formed, how large a gas is.

The problems of OpenStax Chemistry 2e, with the figures that it prints; masses
are turned into amounts here, with the molar masses of this package.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import (
    Equation,
    Formula,
    Outcome,
    count_atoms,
    gas_volume,
    molar_mass,
    outcome,
    parse_equation,
    parse_formula,
)


def amount(mass: str, formula: str) -> Decimal:
    return Decimal(mass) / molar_mass(parse_formula(formula))


def made(equation: str, amounts: dict[str, Decimal | Fraction | int]) -> Outcome:
    found = outcome(
        parse_equation(equation), {parse_formula(f): n for f, n in amounts.items()}
    )
    assert found is not None
    return found


def limiting(found: Outcome) -> list[str]:
    return [str(term.formula) for term in found.limiting]


def test_the_reactant_that_runs_out_first_limits_the_yield() -> None:
    # OpenStax Chemistry 2e, section 4.4, Example 4.12: 0.0237 mol, silicon limits.
    found = made(
        "3 Si + 2 N2 -> Si3N4", {"Si": amount("2.00", "Si"), "N2": amount("1.50", "N2")}
    )
    assert limiting(found) == ["Si"]
    assert float(found.yield_of(parse_formula("Si3N4")) or 0) == pytest.approx(
        0.0237, abs=5e-5
    )
    left = found.left_of(parse_formula("N2"))
    assert left is not None
    assert left > 0


def test_a_percentage_yield_goes_by_the_limiting_reactant() -> None:
    # OpenStax Chemistry 2e, section 4.4, Exercise 4.73: 86.56 %. Water is in plenty.
    oxalate, uranyl, product = "Na2C2O4", "UO2(NO3)2", "UO2(C2O4)·3H2O"
    found = made(
        f"{oxalate} + {uranyl} + 3 H2O -> {product} + 2 NaNO3",
        {oxalate: amount("0.4031", oxalate), uranyl: amount("1.481", uranyl)},
    )
    assert limiting(found) == [oxalate]
    theoretical = found.yield_of(parse_formula(product))
    assert theoretical is not None
    share = Fraction(amount("1.073", product)) / theoretical
    assert float(100 * share) == pytest.approx(86.56, abs=0.01)


def test_a_mass_needed_follows_from_the_coefficients() -> None:
    # OpenStax Chemistry 2e, section 4.3, Example 4.11: 2.46e3 g of oxygen.
    octane, oxygen = parse_formula("C8H18"), parse_formula("O2")
    found = made(
        "25 O2 + 2 C8H18 -> 16 CO2 + 18 H2O", {"C8H18": amount("702", "C8H18")}
    )
    mass = found.extent * 25 * Fraction(molar_mass(oxygen))
    assert limiting(found) == [str(octane)]
    assert float(mass) == pytest.approx(2460, abs=5)


def test_a_gas_has_the_volume_of_an_ideal_one() -> None:
    # OpenStax Chemistry 2e, section 9.3, Example 9.19: 4.94 L, 4.95 L unrounded.
    found = made("2 Ga + 6 HCl -> 2 GaCl3 + 3 H2", {"Ga": amount("8.88", "Ga")})
    hydrogen = found.yield_of(parse_formula("H2"))
    assert hydrogen is not None
    torr = Decimal(101325) / 760
    litres = 1000 * gas_volume(hydrogen, Decimal("300.15"), 723 * torr)
    assert float(litres) == pytest.approx(4.946, abs=0.001)


def test_one_mole_of_gas_fills_22_4_litres_at_the_old_standard_state() -> None:
    # OpenStax Chemistry 2e, section 9.2: 22.4 L at 273.15 K and 1 atm.
    assert float(gas_volume(1, Decimal("273.15"), 101325)) == pytest.approx(
        0.0224, abs=5e-5
    )


def test_reactants_in_proportion_run_out_together() -> None:
    found = made("2 H2 + O2 -> 2 H2O", {"H2": 4, "O2": 2})
    assert limiting(found) == ["H2", "O2"]
    assert [left for _, left in found.remaining] == [0, 0]


def test_a_reactant_is_known_in_any_writing() -> None:
    found = made("CH3COOH + NaOH -> CH3COONa + H2O", {"HC2H3O2": 1})
    assert limiting(found) == ["CH3COOH"]


def test_without_amounts_there_is_no_outcome() -> None:
    equation = parse_equation("2 H2 + O2 -> 2 H2O")
    assert outcome(equation, {}) is None
    assert outcome(equation, {parse_formula("N2"): 1}) is None


def test_what_takes_no_part_has_no_yield() -> None:
    found = made("2 H2 + O2 -> 2 H2O", {"H2": 1})
    assert found.yield_of(parse_formula("N2")) is None
    assert found.left_of(parse_formula("O2")) is None


@given(st.fractions(0, 10), st.fractions(0, 10))
def test_no_atom_is_lost(first: Fraction, second: Fraction) -> None:
    equation: Equation = parse_equation("4 Fe + 3 O2 -> 2 Fe2O3")
    given_amounts: dict[Formula, Fraction] = {
        parse_formula("Fe"): first,
        parse_formula("O2"): second,
    }
    found = outcome(equation, given_amounts)
    assert found is not None
    before = count_atoms(t.times(given_amounts[t.formula]) for t in equation.reactants)
    after = count_atoms(t.times(n) for t, n in (*found.remaining, *found.formed))
    assert before == after
    assert min(n for _, n in found.remaining) == 0
