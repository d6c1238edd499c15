"""Expressions as presentation MathML: the algebra, and the numbers put in.

Both come from one walk over the tree; they differ in what stands for a leaf.
Products stand side by side, ratios become fractions, `m / M / V` becomes one
fraction, and brackets are kept only where the layout does not make them clear.
Only MathML Core is used.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from typing import TypeAlias

from manualgen.quantities.expression import (
    POWER,
    PRODUCT,
    Applied,
    Binary,
    ColumnMean,
    Expression,
    Function,
    Measured,
    MolarMass,
    Negative,
    Number,
    Operator,
    Symbol,
    binding,
)
from manualgen.quantities.symbols import symbol_name

Leaf: TypeAlias = Number | Measured | Symbol | ColumnMean | MolarMass

TIMES = "<mo>×</mo>"
BESIDE = "<mo>\u2062</mo>"
"""The invisible sign of a product, between symbols."""


@dataclass(frozen=True, slots=True)
class Notation:
    """What stands for the leaves of an expression."""

    leaf: Callable[[Leaf], str]
    """The MathML of a leaf."""
    is_word: Callable[[Leaf], bool]
    """Whether a leaf is a number or word, which a × must part from its like."""
    is_negative: Callable[[Leaf], bool] = lambda leaf: False
    """Whether a leaf shows a minus, and so needs brackets."""


def formula_of(expression: Expression, notation: Notation) -> str:
    """The expression from ``<math>`` to ``</math>``."""
    return f'<math displaystyle="true">{_sum(expression, notation)}</math>'


def symbol(name: str) -> str:
    """The MathML of a symbol: ``c_b`` is c with the subscript b, ``V2`` likewise.

    >>> symbol("V2")
    '<msub><mi>V</mi><mn>2</mn></msub>'
    """
    found = symbol_name(name)
    if found is None:
        return word(name)
    base = f"<mi>{found.letter}</mi>"
    if found.is_change:
        base = f'<mrow><mi mathvariant="normal">Δ</mi>{base}</mrow>'
    shown = "".join(map(_subscript, found.below))
    return f"<msub>{base}{_row(shown)}</msub>" if shown else base


def word(text: str) -> str:
    """Words or a quantity within a formula."""
    return f"<mtext>{escape(text)}</mtext>"


def mean_of(name: str) -> str:
    """A symbol with the bar of a mean."""
    return f'<mover accent="true">{symbol(name)}<mo>¯</mo></mover>'


def _subscript(text: str) -> str:
    if text.isdigit():
        return f"<mn>{text}</mn>"
    upright = ' mathvariant="normal"' if len(text) == 1 else ""
    return f"<mi{upright}>{text}</mi>"


def _row(inside: str) -> str:
    return f"<mrow>{inside}</mrow>" if inside.count("<m") > 1 else inside


def _bracketed(inside: str) -> str:
    return f"<mrow><mo>(</mo>{inside}<mo>)</mo></mrow>"


def _sum(expression: Expression, notation: Notation) -> str:
    match expression:
        case Binary(operator=Operator.PLUS | Operator.MINUS):
            sign = "+" if expression.operator is Operator.PLUS else "−"
            left = _sum(expression.left, notation)
            right = _term(expression.right, notation)
            return f"{left}<mo>{sign}</mo>{right}"
        case _:
            return _product(expression, notation)


def _term(expression: Expression, notation: Notation) -> str:
    """What may follow a sign: a product, or a sum or negative in brackets."""
    if binding(expression) < PRODUCT or _shows_minus(expression, notation):
        return _bracketed(_sum(expression, notation))
    return _product(expression, notation)


def _shows_minus(expression: Expression, notation: Notation) -> bool:
    match expression:
        case Negative():
            return True
        case Binary(operator=Operator.TIMES):
            return _shows_minus(expression.left, notation)
        case Binary() | Applied():
            return False
        case _:
            return notation.is_negative(expression)


def _product(expression: Expression, notation: Notation) -> str:
    match expression:
        case Negative():
            return f"<mo>−</mo>{_factor(expression.operand, notation)}"
        case Binary(operator=Operator.TIMES | Operator.OVER):
            above, below = _factors(expression)
            if not below:
                return _side_by_side(above, notation)
            numerator, denominator = (
                _row(_side_by_side(side, notation)) for side in (above, below)
            )
            return f"<mfrac>{numerator}{denominator}</mfrac>"
        case _:
            return _power(expression, notation)


def _factors(expression: Expression) -> tuple[list[Expression], list[Expression]]:
    """What a chain of products and ratios has above and below the line."""
    if not isinstance(expression, Binary):
        return [expression], []
    if expression.operator is Operator.TIMES:
        above, below = _factors(expression.left)
        more, under = _factors(expression.right)
        return above + more, below + under
    if expression.operator is Operator.OVER:
        above, below = _factors(expression.left)
        return above, [*below, expression.right]
    return [expression], []


def _side_by_side(factors: list[Expression], notation: Notation) -> str:
    if len(factors) == 1:
        return _sum(factors[0], notation)
    pieces = [_factor(factors[0], notation, first=True)]
    for before, factor in pairwise(factors):
        leads = isinstance(before, Number)
        apart = _is_word(factor, notation) or (_is_word(before, notation) and not leads)
        pieces += [TIMES if apart else BESIDE, _factor(factor, notation)]
    return "".join(pieces)


def _is_word(expression: Expression, notation: Notation) -> bool:
    match expression:
        case Applied(function=Function.LN | Function.LOG10):
            return True
        case Binary(operator=Operator.POWER):
            return _is_word(expression.left, notation)
        case Negative() | Binary() | Applied():
            return False
        case _:
            return notation.is_word(expression)


def _factor(expression: Expression, notation: Notation, *, first: bool = False) -> str:
    """A factor of a product: sums in brackets, negatives too unless they lead."""
    if first and isinstance(expression, Negative):
        return f"<mo>−</mo>{_factor(expression.operand, notation)}"
    is_ratio = isinstance(expression, Binary) and expression.operator is Operator.OVER
    if binding(expression) < PRODUCT or (
        _shows_minus(expression, notation) and not first
    ):
        return _bracketed(_sum(expression, notation))
    if binding(expression) == PRODUCT and not is_ratio:
        return _bracketed(_product(expression, notation))
    return _product(expression, notation)


def _power(expression: Binary | Applied | Leaf, notation: Notation) -> str:
    match expression:
        case Binary():
            base = _base_of_power(expression.left, notation)
            exponent = _row(_sum(expression.right, notation))
            return f"<msup>{base}{exponent}</msup>"
        case Applied():
            return _applied(expression, notation)
        case _:
            return notation.leaf(expression)


def _base_of_power(base: Expression, notation: Notation) -> str:
    plain = binding(base) > POWER and not _shows_minus(base, notation)
    is_unlike = isinstance(base, Measured | Applied) or (
        not isinstance(base, Number | Binary | Negative | Applied)
        and notation.is_word(base)
    )
    if plain and not is_unlike:
        return _product(base, notation)
    return _bracketed(_sum(base, notation))


_NAMES = {
    Function.LN: "<mi>ln</mi>",
    Function.LOG10: "<msub><mi>log</mi><mn>10</mn></msub>",
}


def _applied(expression: Applied, notation: Notation) -> str:
    inside = _sum(expression.argument, notation)
    match expression.function:
        case Function.SQRT:
            return f"<msqrt>{inside}</msqrt>"
        case Function.ABS:
            return f"<mrow><mo>|</mo>{inside}<mo>|</mo></mrow>"
        case Function.EXP:
            return f'<msup><mi mathvariant="normal">e</mi>{_row(inside)}</msup>'
        case Function.LN | Function.LOG10:
            name = _NAMES[expression.function]
            return f"{name}<mo>\u2061</mo>{_bracketed(inside)}"
