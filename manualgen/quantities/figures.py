"""Significant figures, decimal places and rounding, each decided in one place.

A `Decimal` remembers the noughts that were typed, so the figures of a value
are the value's own. The *place* of a value is the power of ten of its last
figure: -2 for 25.00. Whole numbers that end in 0 get the benefit of the doubt,
all their figures count; `2.5e2` says that the last one does not.
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from fractions import Fraction


class Rounding(StrEnum):
    """What becomes of a dropped 5 with nothing after it."""

    UP = "up"
    """Away from nought, as most schools teach."""
    EVEN = "even"
    """To the even figure, as most calculators of uncertainty do."""


def place(value: Decimal) -> int:
    """The power of ten of the last figure: -2 for 25.00, 0 for 250."""
    exponent = value.as_tuple().exponent
    if not isinstance(exponent, int):
        raise TypeError(f"{value} has no figures")
    return exponent


def decimal_places(value: Decimal) -> int:
    """The number of figures after the decimal point."""
    return max(0, -place(value))


def significant_figures(value: Decimal) -> int:
    """The number of figures from the first that is not 0; nought has one.

    >>> significant_figures(Decimal("0.0250"))
    3
    """
    return len(value.as_tuple().digits) if value else 1


def rounded_to_place(
    value: Decimal | Fraction, last: int, rounding: Rounding = Rounding.UP
) -> Decimal:
    """The value whose last figure stands at the given power of ten.

    Exact: a fraction is never turned into binary on the way.
    """
    exact = Fraction(value)
    numerator, denominator = _scaled(abs(exact), last)
    whole, rest = divmod(numerator, denominator)
    twice = 2 * rest
    is_tie = twice == denominator
    goes_up = twice > denominator or (
        is_tie and (rounding is Rounding.UP or whole % 2 == 1)
    )
    counted = whole + goes_up
    digits = tuple(int(figure) for figure in str(counted))
    return Decimal((int(exact < 0 < counted), digits, last))


def rounded_to_figures(
    value: Decimal | Fraction, figures: int, rounding: Rounding = Rounding.UP
) -> Decimal:
    """The value to so many significant figures, its noughts kept.

    >>> rounded_to_figures(Decimal("9.996"), 3)
    Decimal('10.0')
    """
    exact = Fraction(value)
    if not exact:
        return rounded_to_place(exact, 1 - figures)
    last = leading_place(exact) - figures + 1
    rounded = rounded_to_place(exact, last, rounding)
    if significant_figures(rounded) > figures:
        return rounded_to_place(rounded, last + 1, rounding)
    return rounded


def leading_place(value: Decimal | Fraction) -> int:
    """The power of ten of the first figure: 1 for 25.00, -3 for 0.0043."""
    exact = abs(Fraction(value))
    if not exact:
        raise ValueError("nought has no first figure")
    guess = len(str(exact.numerator)) - len(str(exact.denominator))
    numerator, denominator = _scaled(exact, guess)
    return guess if numerator >= denominator else guess - 1


def _scaled(value: Fraction, place: int) -> tuple[int, int]:
    """The value over a power of ten; whole numbers, for this is done very often."""
    if place >= 0:
        return value.numerator, value.denominator * 10**place
    return value.numerator * 10**-place, value.denominator
