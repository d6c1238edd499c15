"""The tree of an expression, as an author writes one in a calculation.

An expression is never evaluated as Python and never handed to a library as
text: `parser` builds this tree, bounded in size and depth, and everything else
(values, derivatives, typesetting) walks it.  Positions are offsets into the
author's text; they say where a fault lies and do not tell two trees apart.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

from manualgen.quantities.quantity import Quantity


class ExpressionError(ValueError):
    """What is wrong with an expression, where in its text, and the mend.

    Raised by the parser and by evaluation alike; whoever knows the file adds
    the place.
    """

    def __init__(
        self, message: str, start: int, end: int, suggestion: str | None = None
    ) -> None:
        super().__init__(message)
        self.message = message
        self.start = start
        self.end = end
        self.suggestion = suggestion
        """The text to write in place of ``start:end``, where one can be given."""


class Operator(StrEnum):
    """An operation on two operands."""

    PLUS = "+"
    MINUS = "-"
    TIMES = "*"
    OVER = "/"
    POWER = "^"


class Function(StrEnum):
    """A function of one argument."""

    SQRT = "sqrt"
    LN = "ln"
    LOG10 = "log10"
    EXP = "exp"
    ABS = "abs"


@dataclass(frozen=True, slots=True)
class Number:
    """A bare number, which is exact."""

    text: str
    value: Fraction
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Measured:
    """A number with its unit, in brackets: ``(4.18 J/g/K)``."""

    text: str
    """What stands between the brackets."""
    quantity: Quantity
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Symbol:
    """A name, with dots where it belongs to a table or graph: ``titres.mean``."""

    name: str
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Negative:
    """The operand with its sign turned."""

    operand: Expression
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Binary:
    """Two operands and what joins them."""

    operator: Operator
    left: Expression
    right: Expression
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Applied:
    """A function and its argument."""

    function: Function
    argument: Expression
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class ColumnMean:
    """``mean(TABLE.COLUMN)``."""

    table: str
    column: str
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class MolarMass:
    """``M(MgSO4.7H2O)``; the formula stays text, for this leaf knows no chemistry."""

    formula: str
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


Expression: TypeAlias = (
    Number | Measured | Symbol | Negative | Binary | Applied | ColumnMean | MolarMass
)


def operands(expression: Expression) -> tuple[Expression, ...]:
    """The expressions directly inside one, from left to right."""
    match expression:
        case Negative():
            return (expression.operand,)
        case Binary():
            return (expression.left, expression.right)
        case Applied():
            return (expression.argument,)
        case _:
            return ()


def parts(expression: Expression) -> Iterator[Expression]:
    """The expression and everything in it, outer before inner."""
    yield expression
    for operand in operands(expression):
        yield from parts(operand)


def symbols(expression: Expression) -> Iterator[Symbol]:
    """Every symbol in an expression, from left to right."""
    return (part for part in parts(expression) if isinstance(part, Symbol))


SUM, PRODUCT, POWER, ATOM = 1, 2, 3, 4
"""How tightly an expression holds together; the looser one needs brackets."""


def binding(expression: Expression) -> int:
    """How tightly an expression holds together, from `SUM` to `ATOM`."""
    match expression:
        case Binary(operator=Operator.PLUS | Operator.MINUS):
            return SUM
        case Binary(operator=Operator.POWER):
            return POWER
        case Binary() | Negative():
            return PRODUCT
        case _:
            return ATOM


def written(expression: Expression) -> str:
    """The expression in ASCII with the fewest brackets, for messages.

    Reading it again gives the same tree.
    """
    match expression:
        case Number():
            return expression.text
        case Measured():
            return f"({expression.text})"
        case Symbol():
            return expression.name
        case Negative():
            return f"-{_bracketed(expression.operand, POWER)}"
        case Binary():
            return _written_binary(expression)
        case Applied():
            return f"{expression.function}({written(expression.argument)})"
        case ColumnMean():
            return f"mean({expression.table}.{expression.column})"
        case MolarMass():
            return f"M({expression.formula})"


def _written_binary(expression: Binary) -> str:
    if expression.operator is Operator.POWER:
        left = _bracketed(expression.left, ATOM)
        return f"{left}^{_bracketed(expression.right, ATOM)}"
    tightness = binding(expression)
    left = _bracketed(expression.left, tightness)
    right = _bracketed(expression.right, tightness + 1)
    return f"{left} {expression.operator} {right}"


def _bracketed(expression: Expression, at_least: int) -> str:
    text = written(expression)
    return text if binding(expression) >= at_least else f"({text})"
