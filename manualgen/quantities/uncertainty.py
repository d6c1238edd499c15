"""Standard uncertainties of computed values, to first order (GUM clause 5).

Every value remembers how strongly it depends on each input, so inputs shared
by several symbols are counted once.  Inputs may be correlated, as gradient and
intercept of one line are.  A course may instead add its half-widths up, which
gives the largest error that they allow (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from math import fsum, sqrt

from manualgen.quantities.figures import (
    Rounding,
    leading_place,
    place,
    rounded_to_figures,
    rounded_to_place,
)


class Combination(StrEnum):
    """How the uncertainties of several inputs become one."""

    QUADRATURE = "quadrature"
    """The root of the sum of squares: a standard uncertainty."""
    SUM = "sum"
    """The sum of half-widths, which for a product adds percentages."""


@dataclass(frozen=True, slots=True)
class Input:
    """A measured datum; two of the same name are the same datum."""

    name: str
    standard: float | None = field(default=None, compare=False)
    """Its standard uncertainty in the coherent SI unit; None where unknown."""
    half_width: float | None = field(default=None, compare=False)
    """Its limits in the coherent SI unit, where it is given by limits."""
    correlations: tuple[tuple[str, float], ...] = field(default=(), compare=False)
    """The coefficients with other inputs, by their names."""
    tabulated: bool = field(default=False, compare=False)
    """Whether it is a constant out of a table, which adds to the uncertainty of
    what was measured and has none to state without that.
    """

    def width(self, combination: Combination) -> float | None:
        """What a combination adds up: u, or the half-width where there is one."""
        if combination is Combination.SUM and self.half_width is not None:
            return self.half_width
        return self.standard


LARGEST = 1e150
"""Beyond this a contribution is nonsense, and its square no number."""

Sensitivities = Mapping[Input, float]
"""The derivative of a value by each of its inputs, all in SI units."""


def contributions(
    sensitivities: Sensitivities, combination: Combination = Combination.QUADRATURE
) -> dict[Input, float] | None:
    """What each input adds to the uncertainty of a value, with its sign.

    None where an input's uncertainty is not known: nobody can then say that of
    the value.
    """
    found: dict[Input, float] = {}
    for datum, sensitivity in sensitivities.items():
        width = datum.width(combination)
        if width is None:
            return None
        found[datum] = sensitivity * width
    return found


def combined_uncertainty(
    sensitivities: Sensitivities, combination: Combination = Combination.QUADRATURE
) -> float | None:
    """The uncertainty of a value in the coherent SI unit.

    None for a value in which nothing was measured, or something whose
    uncertainty is not known.
    """
    parts = contributions(sensitivities, combination)
    if not parts or all(datum.tabulated for datum in parts):
        return None
    if max(abs(part) for part in parts.values()) > LARGEST:
        return None
    if combination is Combination.SUM:
        return fsum(abs(part) for part in parts.values())
    squares = fsum(part * part for part in parts.values())
    return sqrt(max(0.0, squares + _from_correlations(parts)))


def _from_correlations(parts: Mapping[Input, float]) -> float:
    by_name = {datum.name: part for datum, part in parts.items()}
    return fsum(
        part * coefficient * by_name.get(other, 0.0)
        for datum, part in parts.items()
        for other, coefficient in datum.correlations
    )


def correlated(
    uncertainties: Mapping[str, float], coefficients: Iterable[tuple[str, str, float]]
) -> dict[str, Input]:
    """Inputs by name, each knowing its correlations with the others."""
    pairs = [(a, b, r) for a, b, r in coefficients]
    pairs += [(b, a, r) for a, b, r in pairs]
    return {
        name: Input(name, u, None, tuple((b, r) for a, b, r in pairs if a == name))
        for name, u in uncertainties.items()
    }


def rounded_uncertainty(uncertainty: Fraction | float) -> Decimal:
    """To one significant figure, or two where the first is 1 or 2.

    GUM 7.2.6 allows at most two; dropping the second of 0.14 would be off by
    nearly a third (common practice, no source).
    """
    exact = Fraction(uncertainty)
    two = rounded_to_figures(exact, 2)
    if not two or two.as_tuple().digits[0] <= 2:
        return two
    return rounded_to_place(exact, leading_place(two))


def rounded_with_uncertainty(
    value: Fraction, uncertainty: Fraction | float, rounding: Rounding = Rounding.UP
) -> tuple[Decimal, Decimal]:
    """A value and its uncertainty, both to the last place of the uncertainty."""
    width = rounded_uncertainty(uncertainty)
    return rounded_to_place(value, place(width), rounding), width
