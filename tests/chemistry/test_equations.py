"""Equations: what parts species, what is a coefficient, what is refused.

The examples are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from manualgen.chemistry import (
    ChemistryError,
    Equation,
    EquationError,
    Term,
    is_equation_like,
    parse_equation,
    parse_formula,
    parse_term,
)


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("2H2O2(aq) → 2H2O(l) + O2(g)", "2 H2O2(aq) -> 2 H2O(l) + O2(g)"),
        ("CaCO3 (s) -> CaO (s) + CO2 (g)", "CaCO3(s) -> CaO(s) + CO2(g)"),
        ("N2 + 3 H2 ⇌ 2 NH3", "N2 + 3 H2 <=> 2 NH3"),
        ("Na+ + Cl- -> NaCl", "Na^+ + Cl^- -> NaCl"),
        ("2Na+Cl2->2NaCl", "2 Na + Cl2 -> 2 NaCl"),
        ("Mg+ 2HCl -> MgCl2 + H2", "Mg + 2 HCl -> MgCl2 + H2"),
        ("H+(aq)+OH-(aq)->H2O(l)", "H^+(aq) + OH^-(aq) -> H2O(l)"),
        ("Ag+ + Cl-->AgCl", "Ag^+ + Cl^- -> AgCl"),
        ("Fe^2++Cl2->Fe^3++Cl^-", "Fe^2+ + Cl2 -> Fe^3+ + Cl^-"),
        ("Zn -> Zn^2+ + 2e-", "Zn -> Zn^2+ + 2 e^-"),
        ("C2H5OH + 2[O] -> CH3COOH + H2O", "C2H5OH + 2 [O] -> CH3COOH + H2O"),
        ("HIn <=> H+ + In-", "HIn <=> H^+ + In^-"),
        ("H2 + 1/2 O2 -> H2O", "H2 + 1/2 O2 -> H2O"),
        ("H2 + ½O2 -> H2O", "H2 + 1/2 O2 -> H2O"),
        ("H2 + 0.5 O2 -> H2O", "H2 + 1/2 O2 -> H2O"),
        ("1½ O2 -> O3", "3/2 O2 -> O3"),
        ("1 1/2 O2 -> O3", "3/2 O2 -> O3"),
        ("1 Mg + 1 Cl2 -> 1 MgCl2", "Mg + Cl2 -> MgCl2"),
        ("MgSO4·xH2O -> MgSO4 + xH2O", "MgSO4·xH2O -> MgSO4 + x H2O"),
        (
            "Na2CO3·xH2O + 2HCl -> 2NaCl + CO2 + (x + 1)H2O",
            "Na2CO3·xH2O + 2 HCl -> 2 NaCl + CO2 + (x+1) H2O",
        ),
        ("nC2H4 -> (C2H4)n", "n C2H4 -> (C2H4)n"),
        ("CH2=CH2 + Br2 -> CH2BrCH2Br", "CH2=CH2 + Br2 -> CH2BrCH2Br"),
        ("Mg(s)+(NH4)2SO4(aq)->MgSO4", "Mg(s) + (NH4)2SO4(aq) -> MgSO4"),
    ],
)
def test_an_equation_is_read_as_it_is_meant(text: str, canonical: str) -> None:
    equation = parse_equation(text)
    assert str(equation) == canonical
    assert parse_equation(canonical) == equation
    assert parse_equation(equation.pretty) == equation


@pytest.mark.parametrize(
    ("text", "pretty"),
    [
        ("2 H2 + O2 -> 2 H2O(l)", "2 H₂ + O₂ → 2 H₂O(l)"),
        ("N2 + 3/2 H2 <=> NH3", "N₂ + 1½ H₂ ⇌ NH₃"),
        ("5/7 H^+ -> 2x H2O", "5/7 H⁺ → 2x H₂O"),
    ],
)
def test_an_equation_is_printed_as_the_trade_prints_it(text: str, pretty: str) -> None:
    assert parse_equation(text).pretty == pretty


@pytest.mark.parametrize(
    ("text", "offending", "suggestion"),
    [
        ("H2 + O2", "H2 + O2", None),
        ("H2 = 2H", "=", "H2 -> 2H"),
        ("H2 --> 2H", "-->", "H2 -> 2H"),
        ("H2 => 2H", "=>", "H2 -> 2H"),
        ("N2O4 ⇄ 2NO2", "⇄", "N2O4 <=> 2NO2"),
        ("C -> CO -> CO2", "->", None),
        ("H2 + -> H2O", " ", None),
        ("H2 + + O2 -> H2O", " ", None),
        (" -> H2O", " ", None),
        ("H2O ->", "", None),
        ("Zn -> Zn2+ + 2e-", "2+", "Zn -> Zn^2+ + 2e-"),
        ("2 H2 + Xy -> H2", "Xy", None),
        ("Na Cl -> NaCl", " ", None),
        ("NaCl(aqu) -> NaCl", "(aqu)", None),
        ("0 H2 -> H2", "0 ", None),
        ("1/0 H2 -> H2", "1/0 ", None),
        ("999999 H2 -> H2", "999999 ", None),
    ],
)
def test_a_faulty_equation_is_refused_at_the_very_letters(
    text: str, offending: str, suggestion: str | None
) -> None:
    with pytest.raises(ChemistryError) as caught:
        parse_equation(text)
    assert text[caught.value.start : caught.value.end] == offending
    assert caught.value.suggestion == suggestion


@pytest.mark.parametrize(
    "text",
    ["H + " * 400 + "-> H", " + ".join(["H2"] * 20) + " -> " + " + ".join("HHHHH")],
)
def test_an_endless_equation_is_refused(text: str) -> None:
    with pytest.raises(EquationError, match="more than"):
        parse_equation(text)


def test_each_term_knows_where_it_stands() -> None:
    text = "2 Na(s)  + Cl2(g)->2NaCl(s)"
    stretches = [text[t.start : t.end] for t in parse_equation(text).terms]
    assert stretches == ["2 Na(s)", "Cl2(g)", "2NaCl(s)"]


def test_a_single_species_may_have_a_coefficient_and_a_state() -> None:
    assert parse_term("2H2O (l)") == Term(Fraction(2), parse_formula("H2O"), "l")
    assert parse_term("Ag+(aq)") == Term(None, parse_formula("Ag^+"), "aq")
    assert parse_term("H2O").amount == 1


def test_an_arrow_of_any_kind_means_an_equation() -> None:
    meant = ["A -> B", "H2 --> H", "N2O4 ⇄ 2NO2", "H2 = 2H"]
    other = ["CH2=CH2", "SO4^2-", "Na+", "2.5 g"]
    assert [t for t in meant + other if is_equation_like(t)] == meant


formulas = st.sampled_from(
    [
        parse_formula(text)
        for text in ("H2O", "Na^+", "SO4^2-", "e^-", "CuSO4·5H2O", "[O]", "In^-")
    ]
)
amounts = st.one_of(
    st.none(),
    st.fractions(Fraction(1, 9), 99, max_denominator=9).filter(lambda f: f != 1),
)
terms = st.builds(Term, amounts, formulas, st.sampled_from((None, "s", "l", "g", "aq")))
sides = st.lists(terms, min_size=1, max_size=5).map(tuple)


@given(st.builds(Equation, sides, sides, st.sampled_from(("->", "<=>"))))
def test_print_then_parse_is_the_identity(equation: Equation) -> None:
    assert parse_equation(str(equation)) == equation
    assert parse_equation(equation.pretty) == equation


@given(st.text(alphabet="HOeClNa()[]+-−>=<^·0123456789½/xn →⇌²⁺aqsg", max_size=50))
@example("1/0H2->H")
@example("->")
@example("(x+1)->H")
def test_any_text_is_an_equation_or_refused_with_a_place_in_it(text: str) -> None:
    fault = _fault_in(text)
    assert fault is None or 0 <= fault.start <= fault.end <= max(len(text), 1)


def _fault_in(text: str) -> ChemistryError | None:
    try:
        parse_equation(text)
    except ChemistryError as error:
        return error
    return None
