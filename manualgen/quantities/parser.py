"""Tokens to the tree of an expression, by recursive descent.

    sum      = product { ("+" | "-") product }
    product  = signed { ("*" | "/") signed }
    signed   = "-" signed | power
    power    = atom [ "^" exponent ]          so 2^3^2 is 2^9
    exponent = "-" exponent | power
    atom     = number | measured | symbol | call | "(" sum ")"

Depth is bounded, so no text can exhaust the stack here or in what walks the
tree; a literal exponent is bounded, so none can make a number of a million
digits.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from fractions import Fraction

from manualgen.quantities.errors import QuantityError
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
    operands,
)
from manualgen.quantities.quantity_text import parse_quantity
from manualgen.quantities.tokens import Kind, Token, tokenise

DEEPEST = 64
"""Levels in a tree: brackets in brackets, or terms in one sum."""

LARGEST_EXPONENT = 99
"""Of a number written as an exponent."""


def parse_expression(text: str) -> Expression:
    """Read one expression.

    Raises `ExpressionError` with the offending part of the text.

    >>> from manualgen.quantities.expression import written
    >>> written(parse_expression("c_d × V_f/V_a"))
    'c_d * V_f / V_a'
    """
    if not text.strip():
        raise ExpressionError("there is no expression", 0, len(text))
    parser = _Parser(text)
    expression = parser.sum()
    parser.finish()
    _bound_depth(expression, text)
    return expression


def _bound_depth(expression: Expression, text: str) -> None:
    level: tuple[Expression, ...] = (expression,)
    for _ in range(DEEPEST):
        level = tuple(inner for outer in level for inner in operands(outer))
        if not level:
            return
    raise _too_deep(0, len(text))


def _too_deep(start: int, end: int) -> ExpressionError:
    return ExpressionError(
        f"more than {DEEPEST} levels; part it into lines", start, end
    )


class _Parser:
    """The tokens of one expression and how far they have been read."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens = tokenise(text)
        self.at = 0
        self.depth = 0

    def take(self) -> Token:
        token = self.tokens[self.at]
        self.at += 1
        return token

    def taken(self, *operators: Operator) -> Operator | None:
        token = self.tokens[self.at]
        if token.kind is Kind.OPERATOR and token.text in operators:
            self.at += 1
            return Operator(token.text)
        return None

    def sum(self) -> Expression:
        left = self.product()
        while operator := self.taken(Operator.PLUS, Operator.MINUS):
            left = _joined(operator, left, self.product())
        return left

    def product(self) -> Expression:
        left = self.signed()
        while operator := self.taken(Operator.TIMES, Operator.OVER):
            left = _joined(operator, left, self.signed())
        return left

    def signed(self) -> Expression:
        start = self.tokens[self.at].start
        if not self.taken(Operator.MINUS):
            return self.power()
        with self.deeper():
            operand = self.signed()
        return Negative(operand, start, operand.end)

    def power(self) -> Expression:
        base = self.atom()
        if not self.taken(Operator.POWER):
            return base
        with self.deeper():
            exponent = self.exponent()
        return _joined(Operator.POWER, base, exponent)

    def exponent(self) -> Expression:
        start = self.tokens[self.at].start
        if self.taken(Operator.MINUS):
            with self.deeper():
                operand = self.exponent()
            return Negative(operand, start, operand.end)
        exponent = self.power()
        if isinstance(exponent, Number) and exponent.value > LARGEST_EXPONENT:
            raise ExpressionError(
                f"an exponent of {exponent.text}; at most {LARGEST_EXPONENT}",
                exponent.start,
                exponent.end,
            )
        return exponent

    def atom(self) -> Expression:
        token = self.take()
        match token.kind:
            case Kind.NUMBER:
                return Number(token.text, Fraction(token.text), token.start, token.end)
            case Kind.MEASURED:
                return _measured(token)
            case Kind.CALL:
                return _call(token, self.take())
            case Kind.NAME:
                return self.name(token)
            case Kind.OPEN:
                return self.bracketed(token)
            case _:
                raise self.misplaced(token)

    def name(self, token: Token) -> Expression:
        opened = self.tokens[self.at]
        is_function = token.text in set(Function)
        if opened.kind is not Kind.OPEN:
            if is_function:
                raise ExpressionError(
                    f"{token.text} needs its argument in brackets",
                    token.start,
                    token.end,
                )
            return Symbol(token.text, token.start, token.end)
        if not is_function:
            raise _no_function(token)
        argument = self.bracketed(self.take())
        return Applied(Function(token.text), argument, token.start, argument.end)

    def bracketed(self, opened: Token) -> Expression:
        with self.deeper():
            inside = self.sum()
        if self.tokens[self.at].kind is Kind.END:
            raise ExpressionError(
                "a bracket is not closed",
                opened.start,
                len(self.text),
                f"{self.text[opened.start :]})",
            )
        if self.tokens[self.at].kind is not Kind.CLOSE:
            raise self.misplaced(self.take())
        return replace(inside, start=opened.start, end=self.take().end)

    @contextmanager
    def deeper(self) -> Iterator[None]:
        if self.depth == DEEPEST:
            raise _too_deep(self.tokens[self.at].start, len(self.text))
        self.depth += 1
        yield
        self.depth -= 1

    def finish(self) -> None:
        token = self.take()
        if token.kind is not Kind.END:
            raise self.misplaced(token)

    def misplaced(self, token: Token) -> ExpressionError:
        """Why a token cannot stand where it does."""
        before = self.tokens[max(0, self.at - 2)]
        match token.kind:
            case Kind.END:
                return ExpressionError("the expression breaks off", 0, len(self.text))
            case Kind.CLOSE:
                return ExpressionError(
                    "a bracket is closed that was not opened", token.start, token.end
                )
            case Kind.OPERATOR:
                return ExpressionError(
                    f"{token.text} has nothing on its left", token.start, token.end
                )
            case _:
                return _no_sign_between(before, token)


def _joined(operator: Operator, left: Expression, right: Expression) -> Expression:
    return Binary(operator, left, right, left.start, right.end)


def _measured(token: Token) -> Expression:
    try:
        quantity = parse_quantity(token.text)
    except QuantityError as error:
        inside = token.start + 1
        raise ExpressionError(
            error.message,
            inside + error.start,
            inside + max(error.end, error.start + 1),
            error.suggestion,
        ) from None
    return Measured(token.text.strip(), quantity, token.start, token.end)


def _call(name: Token, argument: Token) -> Expression:
    inside = argument.text.strip()
    if not inside:
        raise ExpressionError(f"{name.text}() names nothing", name.start, argument.end)
    if name.text == "M":
        return MolarMass(inside, name.start, argument.end)
    match = re.fullmatch(r"(\w+)\s*\.\s*(\w+)", inside)
    if not match:
        raise ExpressionError(
            "a mean is of a table's column: mean(TABLE.COLUMN)",
            name.start,
            argument.end,
        )
    return ColumnMean(match[1], match[2], name.start, argument.end)


def _no_function(token: Token) -> ExpressionError:
    known = [*Function, "mean", "M"]
    if token.text == "log":
        near = ["log10"]
    else:
        near = difflib.get_close_matches(token.text, known, 1, 0.7)
    if near:
        message = f"{token.text}(…) is no function here; the nearest is {near[0]}"
        return ExpressionError(message, token.start, token.end, near[0])
    return ExpressionError(
        f"{token.text}( is no function; a product needs its sign",
        token.start,
        token.end,
        f"{token.text} *",
    )


def _no_sign_between(before: Token, token: Token) -> ExpressionError:
    if before.kind is Kind.NUMBER and token.kind is Kind.NAME:
        if token.text == "K" and before.text.startswith("273"):
            return ExpressionError(
                f"{before.text} K: a temperature in °C is converted by itself where it "
                "is stated in K, and nothing is added to it; any other number with its "
                "unit stands in brackets",
                before.start,
                token.end,
            )
        return ExpressionError(
            f"{before.text} {token.text}: a number with its unit stands in "
            "brackets, and a product needs its sign",
            before.start,
            token.end,
            f"({before.text} {token.text})",
        )
    return ExpressionError(
        f"between {before.text} and {token.text} a sign is missing",
        before.start,
        token.end,
        f"{before.text} * {token.text}",
    )
