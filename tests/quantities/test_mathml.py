"""Typeset expressions, read back: the layout means what the author wrote."""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from manualgen.quantities.evaluate import Scope, evaluate
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
)
from manualgen.quantities.mathml import (
    Leaf,
    Notation,
    formula_of,
    mean_of,
    symbol,
    word,
)
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.value import Value

AT = {
    "x": Value(Fraction(13, 10)),
    "y": Value(Fraction(7, 10)),
    "z": Value(Fraction(-21, 10)),
}


def shown(leaf: Leaf) -> str:
    match leaf:
        case Number():
            return f"<mn>{leaf.text}</mn>"
        case Measured():
            return word(leaf.text)
        case Symbol():
            return symbol(leaf.name)
        case ColumnMean():
            return mean_of(leaf.column)
        case MolarMass():
            return word(f"M({leaf.formula})")


def put_in(leaf: Leaf) -> str:
    """The numbers in place of the symbols."""
    if isinstance(leaf, Symbol):
        return word(str(float(AT[leaf.name].number)).replace("-", "−"))
    return shown(leaf)


ALGEBRA = Notation(shown, lambda leaf: not isinstance(leaf, Symbol))
NUMBERS = Notation(
    put_in,
    lambda leaf: True,
    lambda leaf: isinstance(leaf, Symbol) and AT[leaf.name].number < 0,
)

SIGNS = {"−": "-", "×": "*", "\u2062": "*", "\u2061": "", "|": "|"}


def read_back(element: ElementTree.Element) -> str:
    """The author's text for a piece of MathML."""
    parts = [read_back(child) for child in element]
    text = element.text or ""
    match element.tag:
        case "mfrac":
            return f"(({parts[0]})/({parts[1]}))"
        case "msup" if parts[0] == "e":
            return f"exp({parts[1]})"
        case "msup":
            return f"{parts[0]}^({parts[1]})"
        case "msqrt":
            return f"sqrt({''.join(parts)})"
        case "msub":
            return "".join(parts)
        case "mo":
            return SIGNS.get(text, text)
        case "mrow" if parts and parts[0] == "|":
            return f"abs({''.join(parts[1:-1])})"
        case _:
            return text.replace("−", "-") + "".join(parts)


LEAVES = st.one_of(
    st.sampled_from("xyz").map(Symbol),
    st.integers(1, 4).map(lambda n: Number(str(n), Fraction(n))),
)
TREES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        inner.map(Negative),
        st.builds(Binary, st.sampled_from(list(Operator)[:4]), inner, inner),
        st.builds(
            Binary,
            st.just(Operator.POWER),
            inner,
            st.integers(1, 3).map(lambda n: Number(str(n), Fraction(n))),
        ),
        st.builds(Applied, st.sampled_from([Function.ABS, Function.EXP]), inner),
        st.builds(Applied, st.just(Function.SQRT), inner),
        st.builds(Applied, st.sampled_from([Function.LN, Function.LOG10]), inner),
    ),
    max_leaves=8,
)


@settings(max_examples=300, deadline=None)
@given(TREES, st.sampled_from([ALGEBRA, NUMBERS]))
def test_what_is_set_means_what_was_written(
    tree: Expression, notation: Notation
) -> None:
    expected = value_of(tree)
    assume(expected is not None)
    text = read_back(ElementTree.fromstring(formula_of(tree, notation)))
    found = value_of(parse_expression(text))
    assert found == pytest.approx(expected, rel=1e-9, abs=1e-12)


def value_of(tree: Expression) -> float | None:
    try:
        return float(evaluate(tree, Scope(AT)).number)
    except ExpressionError:
        return None


def inside(text: str, notation: Notation = ALGEBRA) -> str:
    whole = formula_of(parse_expression(text), notation)
    return whole.removeprefix('<math displaystyle="true">').removesuffix("</math>")


def test_a_chain_of_divisions_is_one_fraction() -> None:
    assert inside("x / y / z") == (
        "<mfrac><mi>x</mi><mrow><mi>y</mi><mo>\u2062</mo><mi>z</mi></mrow></mfrac>"
    )


def test_numbers_are_parted_by_a_sign_and_symbols_are_not() -> None:
    assert inside("x * y") == "<mi>x</mi><mo>\u2062</mo><mi>y</mi>"
    assert inside("ln(x) * y").count("<mo>×</mo>") == 1
    assert inside("2 * x") == "<mn>2</mn><mo>\u2062</mo><mi>x</mi>"
    assert inside("x * (4.18 J/g/K)") == (
        "<mi>x</mi><mo>×</mo><mtext>4.18 J/g/K</mtext>"
    )


def test_a_quantity_to_a_power_stands_in_brackets() -> None:
    assert inside("(2 cm)^2") == (
        "<msup><mrow><mo>(</mo><mtext>2 cm</mtext><mo>)</mo></mrow><mn>2</mn></msup>"
    )


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("V", "<mi>V</mi>"),
        ("V2", "<msub><mi>V</mi><mn>2</mn></msub>"),
        ("c_b", '<msub><mi>c</mi><mi mathvariant="normal">b</mi></msub>'),
        ("V_end", "<msub><mi>V</mi><mi>end</mi></msub>"),
        ("pH", "<mi>pH</mi>"),
        ("theta", "<mi>θ</mi>"),
        ("λ_max", "<msub><mi>λ</mi><mi>max</mi></msub>"),
        ("ΔT", '<mrow><mi mathvariant="normal">Δ</mi><mi>T</mi></mrow>'),
        ("DeltaH", '<mrow><mi mathvariant="normal">Δ</mi><mi>H</mi></mrow>'),
        ("titres.mean", "<mtext>titres.mean</mtext>"),
    ],
)
def test_symbols_have_their_subscripts_and_letters(name: str, expected: str) -> None:
    assert symbol(name) == expected


def test_a_mean_has_a_bar() -> None:
    assert inside("mean(titres.V)") == (
        '<mover accent="true"><mi>V</mi><mo>¯</mo></mover>'
    )


@given(st.text(max_size=20))
def test_words_cannot_break_the_markup(text: str) -> None:
    allowed = "".join(c for c in text if c.isprintable())
    assert ElementTree.fromstring(word(allowed)).text in (allowed, None)


def test_constants_and_molar_masses_are_leaves_like_others() -> None:
    tree = parse_expression("x / M(NaCl)")
    seen: list[Leaf] = []

    def note(leaf: Leaf) -> str:
        seen.append(leaf)
        return shown(leaf)

    formula_of(tree, Notation(note, lambda leaf: False))
    assert seen == [Symbol("x"), MolarMass("NaCl")]
