"""How far a computed value can be trusted, by the usual rules of figures.

Sums keep decimal places, products keep significant figures, a logarithm has as
many decimal places as its argument has figures and a power of ten or e as many
figures as its exponent has decimal places.  So a precision is either a last
place or a number of figures; which of the two, depends on the last operation,
and the other follows from the value.  Places are sizes in the coherent SI unit
(6 s for the last figure of 12.5 min), so that they outlive a conversion.  An
exact value has no precision: None.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

from manualgen.quantities.figures import (
    Rounding,
    leading_place,
    place,
    rounded_to_figures,
    rounded_to_place,
)
from manualgen.quantities.units import Unit


@dataclass(frozen=True, slots=True)
class Figures:
    """So many significant figures."""

    count: int


@dataclass(frozen=True, slots=True)
class LastPlace:
    """The size of one in the last place, in the coherent SI unit."""

    size: Fraction


Precision: TypeAlias = Figures | LastPlace | None


def precision_as_typed(value: Decimal, unit: Unit) -> LastPlace:
    """The precision of a number as it was typed, in its unit."""
    return LastPlace(Fraction(10) ** place(value) * unit.factor)


def figure_count(number: Fraction, precision: Figures | LastPlace) -> int:
    """The significant figures of a number of this precision; at least one."""
    if isinstance(precision, Figures):
        return max(1, precision.count)
    steps = rounded_to_place(number / precision.size, 0)
    return leading_place(steps) + 1 if steps else 1


def last_place(number: Fraction, precision: Figures | LastPlace) -> Fraction:
    """The size of one in the last place; nought for a nought with so many figures."""
    if isinstance(precision, LastPlace):
        return precision.size
    if not number:
        return Fraction(0)
    return Fraction(10) ** (leading_place(number) - max(1, precision.count) + 1)


def precision_of_sum(terms: Iterable[tuple[Fraction, Precision]]) -> Precision:
    """Of a sum, a difference or a mean: the coarsest last place.

    A product that is nought has figures and no last place, and counts for nothing.
    """
    known = [(number, precision) for number, precision in terms if precision]
    sizes = [size for each in known if (size := last_place(*each))]
    if sizes:
        return LastPlace(max(sizes))
    return known[0][1] if known else None


def precision_of_product(
    left: Fraction, of_left: Precision, right: Fraction, of_right: Precision
) -> Precision:
    """Of a product or ratio: the fewer figures."""
    counts = [
        figure_count(number, precision)
        for number, precision in ((left, of_left), (right, of_right))
        if precision
    ]
    return Figures(min(counts)) if counts else None


def precision_of_logarithm(argument: Fraction, precision: Precision) -> Precision:
    """Of ln or log10: decimal places, as many as the argument has figures."""
    if not precision:
        return None
    return LastPlace(Fraction(1, 10 ** figure_count(argument, precision)))


def precision_of_exponential(exponent: Fraction, precision: Precision) -> Precision:
    """Of exp or a power of an exact number: as many figures as decimal places."""
    if not precision:
        return None
    return Figures(
        max(1, -leading_place(last_place(exponent, precision) or Fraction(1)))
    )


EXACT_FIGURES = 4
"""Figures of an exact number that no few decimals can write, such as 1/3."""


def rounded(
    in_unit: Fraction,
    number: Fraction,
    precision: Precision,
    unit: Unit,
    rounding: Rounding,
) -> Decimal:
    """A number in a unit, to the last figure that its precision allows.

    ``number`` is the same in the coherent SI unit.
    """
    if precision is None:
        return _exact(in_unit, rounding)
    if isinstance(precision, LastPlace):
        power = _power_of_ten(precision.size / unit.factor)
        if power is not None:
            return rounded_to_place(in_unit, power, rounding)
    return rounded_to_figures(in_unit, figure_count(number, precision), rounding)


def _exact(number: Fraction, rounding: Rounding) -> Decimal:
    for places in range(7):
        if (number * 10**places).denominator == 1:
            return rounded_to_place(number, -places, rounding)
    return rounded_to_figures(number, EXACT_FIGURES, rounding)


def _power_of_ten(size: Fraction) -> int | None:
    power = leading_place(size)
    return power if Fraction(10) ** power == size else None
