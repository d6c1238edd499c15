"""The house style: one source, printed as each department writes.

`printed` gives Unicode text for a page, its blanks no-break; `typed` gives the
same quantity as an author would type it, for a mend. Neither changes a value:
cm³ and mL, dm³ and L, mm³ and µL are equal, so the house's volume is a matter
of symbols, and every figure that was typed is printed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from manualgen.quantities import figures
from manualgen.quantities.dimension import whole
from manualgen.quantities.quantity import Quantity
from manualgen.quantities.unit_text import parse_unit
from manualgen.quantities.units import NamedUnit, Part, Unit, raised, superscript

NO_BREAK = "\u00a0"
"""The no-break space: nothing in a quantity may be parted at a line's end."""


class Volume(StrEnum):
    """Which symbols volumes are printed in."""

    CM3 = "cm3"
    ML = "mL"
    TYPED = "typed"


class Units(StrEnum):
    """How units below a solidus are printed."""

    INDEX = "index"
    SOLIDUS = "solidus"


class DecimalMark(StrEnum):
    """What stands before the decimals."""

    POINT = "point"
    COMMA = "comma"


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """How quantities are printed in one manual."""

    volume: Volume = Volume.CM3
    units: Units = Units.INDEX
    decimal: DecimalMark = DecimalMark.POINT
    to: str = "to"
    """The word between the ends of a range, in the manual's language."""


MOST_PLACES = 4
"""A computed value with more noughts than this is printed with a power of ten."""

AS_TYPED = HouseStyle(volume=Volume.TYPED)
"""The standards' writing of whatever volume the author chose."""


def printed(quantity: Quantity, style: HouseStyle) -> str:
    """The quantity in the house style, never to be broken across lines."""
    if quantity.mixed:
        return NO_BREAK.join(printed(term, style) for term in quantity.mixed)
    number, unit = printed_value(quantity, style), printed_unit(quantity.unit, style)
    coverage = " (k = 1)" if quantity.standard else ""
    gap = "" if unit in ("", "°") else " "
    return _unbroken(f"{number}{gap}{unit}{coverage}")


def printed_value(quantity: Quantity, style: HouseStyle) -> str:
    """The number alone: `25.0`, `20 to 25`, `(25.00 ± 0.06)`, `4.29 × 10⁻⁵`."""
    power = _power_shown(quantity)
    times = f" × 10{superscript(power)}" if power else ""
    sign = quantity.sign.replace("±", "± ")
    value = sign + printed_number(quantity.value, style, power)
    if quantity.upper is not None:
        upper = printed_number(quantity.upper, style, power)
        return _unbroken(f"{value}{times} {style.to} {upper}{times}")
    if quantity.half_width is not None:
        width = printed_number(quantity.half_width, style, power)
        return _unbroken(f"({value} ± {width}){times}")
    return _unbroken(value + times)


def printed_number(value: Decimal, style: HouseStyle, power: int = 0) -> str:
    """A number without its power of ten, every figure written out."""
    plain = format(value.scaleb(-power), "f").replace("-", "−")
    return plain.replace(".", ",") if style.decimal is DecimalMark.COMMA else plain


def printed_unit(unit: Unit, style: HouseStyle) -> str:
    """The unit alone, for the head of a column or an axis: `mol dm⁻³`.

    Empty for a pure number.
    """
    parts = house_parts(unit, style)
    match parts:
        case ((named, 1),) if named.is_word:
            return _unbroken(unit.text)
    below = [(named, -power) for named, power in parts if power < 0]
    above = [(named, power) for named, power in parts if power > 0]
    if style.units is Units.INDEX or not below or not above:
        return _unbroken(_product(parts))
    under = _product(below)
    under = f"({under})" if len(below) > 1 else under
    return _unbroken(f"{_product(above)}/{under}")


def house_parts(unit: Unit, style: HouseStyle) -> tuple[Part, ...]:
    """The parts of a unit with volumes in the symbols of the house."""
    return tuple(_house_part(part, style.volume) for part in unit.parts)


_LITRES = {"cm": "mL", "dm": "L", "mm": "µL"}
_CUBES = {litres: length for length, litres in _LITRES.items()}


def _house_part(part: Part, volume: Volume) -> Part:
    """cm³ as mL or mL as cm³; a factor of one in size, whatever the power."""
    named, power = part
    if volume is Volume.ML and named.symbol in _LITRES and power % 3 == 0:
        return _named(_LITRES[named.symbol]), whole(Fraction(power) / 3)
    if volume is Volume.CM3 and named.symbol in _CUBES:
        return _named(_CUBES[named.symbol]), power * 3
    return part


def _named(symbol: str) -> NamedUnit:
    ((named, _),) = parse_unit(symbol).parts
    return named


def _product(parts: Iterable[Part]) -> str:
    return " ".join(raised(named.symbol, power) for named, power in parts)


def _unbroken(text: str) -> str:
    return text.replace(" ", NO_BREAK)


def _power_shown(quantity: Quantity) -> int:
    """The power of ten to print: the one typed, or one that saves noughts."""
    value = quantity.value
    if quantity.power is not None or not value:
        return quantity.power or 0
    leading = figures.leading_place(value)
    is_long = leading > MOST_PLACES if figures.place(value) > 0 else False
    return leading if is_long or leading < -MOST_PLACES else 0
