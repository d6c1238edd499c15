"""Expressions read from text: what they mean, and what is refused and where."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.quantities import parse_quantity
from manualgen.quantities.expression import (
    Applied,
    Binary,
    ColumnMean,
    Expression,
    ExpressionError,
    Function,
    Measured,
    MolarMass,
    Negative,
    Number,
    Operator,
    Symbol,
    symbols,
    written,
)
from manualgen.quantities.parser import DEEPEST, parse_expression
from manualgen.quantities.tokens import LONGEST

NAMES = st.sampled_from(["c_b", "V2", "titres.mean", "cooling.crossing_x", "ΔT", "R"])
BARE = st.sampled_from(["2", "0.5", "99", "6.02e1", "1.0E-3"])
UNITED = st.sampled_from(["4.18 J/g/K", "25.00 ± 0.06 cm3", "-75 kJ/mol", "5 %"])


def leaves() -> st.SearchStrategy[Expression]:
    return st.one_of(
        NAMES.map(Symbol),
        BARE.map(lambda text: Number(text, Fraction(text))),
        UNITED.map(lambda text: Measured(text, parse_quantity(text))),
        st.just(ColumnMean("titres", "Vt")),
        st.sampled_from(["MgSO4.7H2O", "Ca(OH)2"]).map(MolarMass),
    )


def grown(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    return st.one_of(
        inner.map(Negative),
        st.builds(Binary, st.sampled_from(Operator), inner, inner),
        st.builds(Applied, st.sampled_from(Function), inner),
    )


EXPRESSIONS = st.recursive(leaves(), grown, max_leaves=12)


@given(EXPRESSIONS)
def test_an_expression_written_out_reads_as_the_same_tree(tree: Expression) -> None:
    assert parse_expression(written(tree)) == tree


@given(st.text(alphabet="ab2.5 ()+-*/^×²eM°C,%~$", max_size=60))
def test_any_text_is_an_expression_or_a_fault_within_the_text(text: str) -> None:
    fault = fault_of(text)
    if fault:
        assert 0 <= fault.start <= fault.end <= len(text)
        assert fault.message


def fault_of(text: str) -> ExpressionError | None:
    try:
        parse_expression(text)
    except ExpressionError as error:
        return error
    return None


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("a − b × c ÷ d", "a - b * c / d"),
        ("a · b", "a * b"),
        ("-x^2", "-x^2"),
        ("(-x)^2", "(-x)^2"),
        ("x²", "x^2"),
        ("x⁻¹", "x^(-1)"),
        ("x ** 2", "x^2"),
        ("2^3^2", "2^(3^2)"),
        ("a - b - c", "a - b - c"),
        ("a - (b - c)", "a - (b - c)"),
        ("a / b * c", "a / b * c"),
        ("10^-pH", "10^(-pH)"),
        ("(4.18 J/(g K)) * m", "(4.18 J/(g K)) * m"),
        ("( 1.5 × 10^-3 mol )", "(1.5 × 10^-3 mol)"),
        ("mean( titres . Vt )", "mean(titres.Vt)"),
        ("M(Ca(OH)2)", "M(Ca(OH)2)"),
        ("M * x", "M * x"),
        ("4.29 × 10^-5", "4.29 * 10^(-5)"),
        ("π*r", "pi * r"),
    ],
)
def test_signs_may_be_typed_or_typeset(text: str, plain: str) -> None:
    assert written(parse_expression(text)) == plain


def test_a_bare_number_keeps_its_value_exactly() -> None:
    assert parse_expression("0.1") == Number("0.1", Fraction(1, 10))


def test_the_symbols_of_an_expression_come_in_reading_order() -> None:
    tree = parse_expression("-c_d * sqrt(V_f) / (V_a - cooling.gradient)")
    assert [s.name for s in symbols(tree)] == ["c_d", "V_f", "V_a", "cooling.gradient"]


def test_every_part_knows_where_it_stands() -> None:
    text = "n + (V_a - V_b) * 2"
    tree = parse_expression(text)
    assert isinstance(tree, Binary)
    assert isinstance(tree.right, Binary)
    difference = tree.right.left
    assert text[difference.start : difference.end] == "(V_a - V_b)"


@pytest.mark.parametrize(
    ("text", "words", "suggestion"),
    [
        ("0,5 * c", "0,5", "0.5"),
        ("2.5 g / M(NaCl)", "2.5 g", "(2.5 g)"),
        ("V * 5 %", "5 %", "(5 %)"),
        ("2V", "2V", "2 * V"),
        ("c_b V_b", "c_b V_b", "c_b * V_b"),
        ("2 * (c_b V_b)", "c_b V_b", "c_b * V_b"),
        ("log(c)", "log", "log10"),
        ("squrt(c)", "squrt", "sqrt"),
        ("n(V_a + V_b)", "n", "n *"),
        ("(V_a + V_b", "(V_a + V_b", "(V_a + V_b)"),
        ("M(NaCl", "(NaCl", "(NaCl)"),
        ("a)", ")", None),
        ("a * * b", "*", None),
        ("a +", "a +", None),
        ("sqrt", "sqrt", None),
        ("mean(titres)", "mean(titres)", None),
        ("M()", "M()", None),
        ("c; import os", ";", None),
        ("x^100", "100", None),
        ("10^-400", "400", None),
        ("1e9999 * x", "1e9999", None),
        ("   ", "   ", None),
    ],
)
def test_what_is_no_expression_is_refused_where_it_goes_wrong(
    text: str, words: str, suggestion: str | None
) -> None:
    with pytest.raises(ExpressionError) as caught:
        parse_expression(text)
    assert text[caught.value.start : caught.value.end] == words
    assert caught.value.suggestion == suggestion


def test_a_unit_that_is_none_is_pointed_at_inside_its_brackets() -> None:
    text = "m * (4.18 joules/g/K)"
    with pytest.raises(ExpressionError) as caught:
        parse_expression(text.replace("joules", "jules"))
    assert text.index("joules") == caught.value.start


@pytest.mark.parametrize(
    "text",
    [
        "(" * (DEEPEST + 1) + "a" + ")" * (DEEPEST + 1),
        "-" * (DEEPEST + 1) + "a",
        "a^" * (DEEPEST + 1) + "a",
        "+".join("a" * (DEEPEST + 2)),
        "a" * (LONGEST + 1),
        "(" * LONGEST,
    ],
)
def test_a_hostile_text_is_a_fault_and_not_a_crash(text: str) -> None:
    with pytest.raises(ExpressionError):
        parse_expression(text)


def test_brackets_nest_as_deep_as_anyone_needs() -> None:
    assert parse_expression("(" * 20 + "a" + ")" * 20) == Symbol("a")
