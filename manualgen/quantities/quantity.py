"""A quantity: a number as it was typed, and its unit.

The value is a `Decimal` that keeps every figure; ranges, half-widths and the
piece of apparatus that a tolerance comes from stand beside it. Reading is in
`quantity_text`, printing in `style`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

from manualgen.quantities import figures
from manualgen.quantities.dimension import Dimension
from manualgen.quantities.errors import QuantityError
from manualgen.quantities.figures import Rounding
from manualgen.quantities.units import Slip, Unit, Verdict


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value with its unit: 25.0 cm³, 20 to 25 °C, (25.00 ± 0.06) cm³."""

    value: Decimal
    unit: Unit
    upper: Decimal | None = None
    """The upper end of a range, whose lower end is the value."""
    half_width: Decimal | None = None
    """What stands after ±, in the same unit."""
    standard: bool = False
    """Whether the half-width is a standard uncertainty already, `(k=1)`."""
    of: str | None = None
    """The listed piece whose tolerance holds: the pipette."""
    power: int | None = field(default=None, compare=False)
    """The power of ten that was typed: -5 for 4.29 × 10⁻⁵, 0 for 0.0000429."""
    sign: str = field(default="", compare=False)
    """`+` where it was typed, `±` where a half-width stands alone."""
    mixed: tuple[Quantity, ...] = field(default=(), compare=False)
    """The terms of `2 min 30 s`; the value is then their sum in the last unit."""
    slips: tuple[Slip, ...] = field(default=(), compare=False)
    """What in the text read the standards would write in another way."""

    @property
    def significant_figures(self) -> int:
        """The figures of the value; noughts that end a whole number count."""
        return figures.significant_figures(self.value)

    @property
    def decimal_places(self) -> int:
        """The figures after the decimal point."""
        return figures.decimal_places(self.value)

    @property
    def dimension(self) -> Dimension:
        """What the quantity measures, in powers of the base quantities."""
        return self.unit.dimension

    @property
    def si_value(self) -> Fraction:
        """The value in the coherent SI unit, exactly; a temperature in kelvin."""
        return self._in_si(self.value)

    @property
    def si_upper(self) -> Fraction | None:
        """The upper end of a range in the coherent SI unit."""
        return None if self.upper is None else self._in_si(self.upper)

    @property
    def si_half_width(self) -> Fraction | None:
        """The half-width in the coherent SI unit; no offset is added to it."""
        if self.half_width is None:
            return None
        return Fraction(self.half_width) * self.unit.factor

    @property
    def verdict(self) -> Verdict:
        """The worst that the standards say of any word in the text."""
        return max((slip.verdict for slip in self.slips), default=Verdict.OK)

    def to(self, unit: Unit, rounding: Rounding = Rounding.UP) -> Quantity:
        """The same quantity in another unit, no figure lost.

        Between units that differ by a power of ten the point moves and the
        figures stay. Otherwise the last place is the nearest power of ten that
        is no coarser than it was, so that the way back leads to the same value.
        Raises `QuantityError` where the units measure different things.
        """
        if unit.dimension != self.unit.dimension:
            message = f"{self.unit} cannot be converted to {unit}"
            raise QuantityError("dimension", message, 0, 0)
        width = self.half_width
        return Quantity(
            self._moved(self.value, unit, rounding),
            unit,
            None if self.upper is None else self._moved(self.upper, unit, rounding),
            None if width is None else self._widened(width, unit, rounding),
            self.standard,
            self.of,
            sign=self.sign,
        )

    def _in_si(self, value: Decimal) -> Fraction:
        offset = self.unit.offset
        number = Fraction(value) + offset if offset else Fraction(value)
        return number * self.unit.factor

    def _moved(self, value: Decimal, unit: Unit, rounding: Rounding) -> Decimal:
        ratio = self.unit.factor / unit.factor
        if self.unit.offset == unit.offset:
            return _scaled(value, ratio, rounding)
        exact = self._in_si(value) / unit.factor - unit.offset
        return figures.rounded_to_place(exact, _new_place(value, ratio), rounding)

    def _widened(self, width: Decimal, unit: Unit, rounding: Rounding) -> Decimal:
        return _scaled(width, self.unit.factor / unit.factor, rounding)


def _scaled(value: Decimal, ratio: Fraction, rounding: Rounding) -> Decimal:
    place = _new_place(value, ratio)
    return figures.rounded_to_place(Fraction(value) * ratio, place, rounding)


def _new_place(value: Decimal, ratio: Fraction) -> int:
    return figures.place(value) + figures.leading_place(ratio)
