"""A computed value: its number, and everything that is known about it.

Numbers are exact fractions in the coherent SI unit; only roots, logarithms and
exponentials are rounded, to the precision of the machine.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction
from math import sqrt

from manualgen.quantities.dimension import ONE, Dimension
from manualgen.quantities.figures import Rounding
from manualgen.quantities.precision import (
    LastPlace,
    Precision,
    last_place,
    precision_as_typed,
    rounded,
)
from manualgen.quantities.quantity import Quantity
from manualgen.quantities.uncertainty import Input
from manualgen.quantities.units import PURE_NUMBER, Unit

TEMPERATURE = Dimension(temperature=1)


@dataclass(frozen=True, slots=True)
class Value:
    """A value with its dimension, precision and dependence on what was measured."""

    number: Fraction
    """In the coherent SI unit; for a temperature in °C, in kelvin."""
    dimension: Dimension = ONE
    precision: Precision = None
    """None for an exact value."""
    sensitivities: Mapping[Input, float] = field(default_factory=dict)
    celsius: Fraction = Fraction(0)
    """How many temperatures in °C are added up in it: 1 in a temperature, 0 in a
    difference of two and in whatever has nothing to do with °C.
    """
    absolute: bool = False
    """Whether it is a temperature in kelvin rather than a difference."""

    @property
    def is_exact_number(self) -> bool:
        """Whether it is a bare number, which has neither unit nor doubt."""
        return self.precision is None and self.dimension.is_one

    def unit_for(self, unit: Unit) -> Unit:
        """The unit to state it in: for a difference, one without an offset."""
        return unit if self.celsius or self.absolute else unit.difference

    def in_unit(self, unit: Unit) -> Fraction:
        """The unrounded number in a unit of its dimension."""
        stated = self.unit_for(unit)
        return self.number / stated.factor - stated.offset

    def rounded_in(self, unit: Unit, rounding: Rounding = Rounding.UP) -> Decimal:
        """The number in a unit, to the figures that its data allow."""
        precision = self.precision
        if precision and self.unit_for(unit).offset:
            precision = LastPlace(last_place(self.number, precision))
        return rounded(self.in_unit(unit), self.number, precision, unit, rounding)


def exact(number: Fraction | int) -> Value:
    """A bare number."""
    return Value(Fraction(number))


def constant(quantity: Quantity) -> Value:
    """A quantity that is nobody's datum: it limits figures, not uncertainty.

    One of a power of ten of some unit, such as ``(1 mol/dm3)`` or ``(100 g)``,
    is the unit itself and exact.
    """
    name = f"{quantity.value} {quantity.unit.text}"
    known = {stated_input(name, quantity): 1.0} if quantity.half_width else {}
    value = _of(quantity, known)
    if _is_whole(quantity) and quantity.value.normalize().as_tuple().digits == (1,):
        return replace(value, precision=None)
    return value


def datum(name: str, quantity: Quantity) -> Value:
    """A measured or stated quantity, known by its name from then on.

    A whole pure number, such as a coefficient, is a count and exact.  A range
    stands for its middle, anywhere between its ends.
    """
    if quantity.upper is not None:
        middle = (quantity.value + quantity.upper) / 2
        width = (quantity.upper - quantity.value) / 2
        quantity = replace(quantity, value=middle, upper=None, half_width=width)
    if quantity.unit == PURE_NUMBER and _is_whole(quantity):
        return exact(Fraction(quantity.value))
    return _of(quantity, {stated_input(name, quantity): 1.0})


def stated_input(name: str, quantity: Quantity) -> Input:
    """The quantity as an input, with the uncertainty that it states.

    A ± is the half-width of a rectangular distribution, whose standard
    uncertainty is a/√3 (GUM 4.3.7), unless it says ``(k=1)``.
    """
    if quantity.si_half_width is None:
        return Input(name)
    width = float(quantity.si_half_width)
    if quantity.standard:
        return Input(name, width)
    return Input(name, width / sqrt(3), width)


def _of(quantity: Quantity, sensitivities: dict[Input, float]) -> Value:
    unit = quantity.unit
    return Value(
        quantity.si_value,
        unit.dimension,
        precision_as_typed(quantity.value, unit),
        sensitivities,
        Fraction(1 if unit.offset else 0),
        unit.dimension == TEMPERATURE and not unit.offset,
    )


def _is_whole(quantity: Quantity) -> bool:
    return quantity.value.as_tuple().exponent == 0 and not quantity.half_width
