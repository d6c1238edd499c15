"""Formulas, equations and units in HTML.

How an ion, a hydrate or an equation is printed: IUPAC, Nomenclature of
Inorganic Chemistry, Recommendations 2005, IR-2.15 and IR-4.4 (from memory).
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from manualgen.chemistry import parse_equation, parse_formula
from manualgen.pages import typeset


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("H2SO4", "H<sub>2</sub>SO<sub>4</sub>"),
        (
            "SO4^2-",
            'SO<sub>4</sub><sup>2<span class="raised">−</span></sup>',
        ),
        ("Na^+", 'Na<sup><span class="raised">+</span></sup>'),
        ("MgSO4.xH2O", "MgSO<sub>4</sub>·<i>x</i>H<sub>2</sub>O"),
        ("Na2CO3.10H2O", "Na<sub>2</sub>CO<sub>3</sub>·10H<sub>2</sub>O"),
        ("Mg(OH)2", "Mg(OH)<sub>2</sub>"),
    ],
)
def test_a_formula_is_set_as_the_trade_prints_it(typed: str, printed: str) -> None:
    assert f">{printed}</span>" in typeset.formula(parse_formula(typed))


@pytest.mark.parametrize(
    ("typed", "spoken"),
    [
        ("SO4^2-", "S O 4 2 minus"),
        ("Na^+", "Na plus"),
        ("CuSO4.5H2O", "Cu S O 4 dot 5 H 2 O"),
        ("e-", "electron"),
    ],
)
def test_a_formula_can_be_spoken(typed: str, spoken: str) -> None:
    assert f'aria-label="{spoken}"' in typeset.formula(parse_formula(typed))


def test_an_equation_is_spoken_with_its_states() -> None:
    equation = parse_equation("2 H2O2(aq) -> 2 H2O(l) + O2(g)")
    assert typeset.spoken_equation(equation) == (
        "2 H 2 O 2 aqueous gives 2 H 2 O liquid plus O 2 gas"
    )


def test_an_equilibrium_has_its_own_arrow() -> None:
    equation = typeset.equation(parse_equation("N2(g) + 3 H2(g) <=> 2 NH3(g)"))
    assert "⇌" in equation
    assert "in equilibrium with" in equation


def test_a_coefficient_is_never_parted_from_its_formula() -> None:
    assert "3\u00a0H<sub>2</sub>" in typeset.side(
        parse_equation("N2 + 3 H2 -> 2 NH3").reactants
    )


@pytest.mark.parametrize(
    ("symbol", "printed"),
    [
        ("V", "<i>V</i>"),
        ("V_1", "<i>V</i><sub>1</sub>"),
        ("V1", "<i>V</i><sub>1</sub>"),
        ("rho", "<i>ρ</i>"),
        ("deltaH", "Δ<i>H</i>"),
        ("c_acid", '<i>c</i><sub class="letter">acid</sub>'),
    ],
)
def test_a_symbol_is_italic_and_what_follows_it_stands_below(
    symbol: str, printed: str
) -> None:
    assert typeset.symbol(symbol) == Markup(printed)


def test_a_word_that_no_column_could_hold_may_be_broken() -> None:
    name = "2,4-dinitrophenylhydrazine-hydrochloride"
    assert typeset.small_figures(name).count("<wbr>") >= 2
    assert "<wbr>" not in typeset.small_figures("sodium hydrogencarbonate solution")


@given(st.text(max_size=60))
def test_text_is_kept_letter_by_letter_and_always_escaped(text: str) -> None:
    marked = typeset.small_figures(text)
    figures = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉₊₋ₓₙ", "0123456789+−0123456789+−xn")
    plain = marked
    for tag in ("sub", "sup", "span"):
        plain = Markup(str(plain).replace(f"</{tag}>", ""))
    for tag in (
        '<span class="raised">',
        '<sub class="letter">',
        "<sub>",
        "<sup>",
        "<wbr>",
    ):
        plain = Markup(str(plain).replace(tag, ""))
    assert "<" not in plain
    marks = str.maketrans("‘’“”′\u00a0", "''\"\"' ")
    expected = text.translate(figures).translate(marks)
    assert plain.unescape().translate(marks) == expected


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ('the bottle "silver residues".', "the bottle “silver residues”."),
        (
            "the tablet's mass, the salts' masses",
            "the tablet’s mass, the salts’ masses",
        ),
        ("a 'dead' stop", "a ‘dead’ stop"),
        ('("silver")', "(“silver”)"),
        ("N,N'-dimethylaniline", "N,N′-dimethylaniline"),
        ("at 50 °C for 3 min", "at 50\u00a0°C for 3\u00a0min"),
        ("Step 3 minds the flask", "Step 3 minds the flask"),
        # a piece of text that goes on behind a formula
        ('" goes into the sink', "” goes into the sink"),
    ],
)
def test_quotation_marks_are_a_printers(typed: str, printed: str) -> None:
    """Common practice of British and American printers, no source."""
    assert typeset.curled(typed) == printed


def test_an_unknown_coefficient_is_in_italics_as_in_the_formula() -> None:
    """Symbols of quantities are italic: ISO 80000-1:2022, 7.1.1 (from memory)."""
    found = typeset.equation(parse_equation("MgSO4·xH2O(s) -> MgSO4(s) + x H2O(g)"))
    assert found.count("<i>x</i>") == 2
    assert "<i>" not in typeset.equation(parse_equation("2 H2 + O2 -> 2 H2O"))
