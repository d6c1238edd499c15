"""Derivatives carried forward, held against SymPy's own differentiation."""

from __future__ import annotations

from fractions import Fraction

import pytest
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.expression import (
    Applied,
    Binary,
    Expression,
    ExpressionError,
    Function,
    Negative,
    Number,
    Operator,
    Symbol,
)
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.uncertainty import Input
from manualgen.quantities.value import Value

AT = {"x": Fraction(13, 10), "y": Fraction(7, 10), "z": Fraction(21, 10)}


def as_sympy(tree: Expression) -> sympy.Expr:
    """Our tree as SymPy's, node by node."""
    match tree:
        case Number():
            return sympy.Rational(tree.value.numerator, tree.value.denominator)
        case Symbol():
            return sympy.Symbol(tree.name, positive=True)
        case Negative():
            return -as_sympy(tree.operand)
        case Applied():
            argument = as_sympy(tree.argument)
            functions = {
                Function.SQRT: sympy.sqrt,
                Function.LN: sympy.log,
                Function.LOG10: lambda x: sympy.log(x, 10),
                Function.EXP: sympy.exp,
                Function.ABS: sympy.Abs,
            }
            return functions[tree.function](argument)
        case Binary():
            left, right = as_sympy(tree.left), as_sympy(tree.right)
            operations = {
                Operator.PLUS: lambda: left + right,
                Operator.MINUS: lambda: left - right,
                Operator.TIMES: lambda: left * right,
                Operator.OVER: lambda: left / right,
                Operator.POWER: lambda: left**right,
            }
            return operations[tree.operator]()
        case _:
            raise AssertionError(tree)


def compare(tree: Expression, at: dict[str, Fraction]) -> None:
    values = {n: Value(x, sensitivities={Input(n): 1.0}) for n, x in at.items()}
    found = evaluate(tree, Scope(values))
    theirs = as_sympy(tree)
    point = {sympy.Symbol(n, positive=True): sympy.Rational(x) for n, x in at.items()}
    ours = {datum.name: d for datum, d in found.sensitivities.items()}
    for symbol in point:
        expected = complex(theirs.diff(symbol).subs(point).evalf(20))
        scale = 1 + sum(abs(d) for d in ours.values())
        assert abs(ours.get(symbol.name, 0.0) - expected) < 1e-9 * scale


@pytest.mark.parametrize(
    "text",
    [
        "x + y - z",
        "x * y / z",
        "x * y / y * z",
        "(x + y) * (x - y)",
        "x^3 * y^-2",
        "sqrt(x * y)",
        "-log10(x / z)",
        "10^(-x)",
        "x^y",
        "exp(-x * y) * ln(z)",
        "abs(y - x) / x",
        "(x * y - y * z) / (x - z)",
        "2 * x / (3 + x / (1 + x))",
    ],
)
def test_derivatives_are_those_of_the_algebra(text: str) -> None:
    compare(parse_expression(text), AT)


LEAVES = st.one_of(
    st.sampled_from("xyz").map(Symbol),
    st.integers(1, 5).map(lambda n: Number(str(n), Fraction(n))),
)
SMOOTH = st.sampled_from([Function.SQRT, Function.LN, Function.EXP, Function.LOG10])
TREES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        inner.map(Negative),
        st.builds(Binary, st.sampled_from(list(Operator)[:4]), inner, inner),
        st.builds(Applied, SMOOTH, inner),
    ),
    max_leaves=6,
)


@settings(max_examples=60, deadline=None)
@given(TREES)
def test_any_expression_has_the_derivatives_of_its_algebra(tree: Expression) -> None:
    try:
        compare(tree, AT)
    except (ExpressionError, ZeroDivisionError):
        assume(False)
