"""A quantity written as it should have been, to be put in place of the slip."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from manualgen.quantities import figures
from manualgen.quantities.quantity import Quantity
from manualgen.quantities.unit_text import parse_unit
from manualgen.quantities.units import Unit, typed_symbol

FEWEST_FIGURES = 3
"""A converted value keeps at least these, so that 1 atm becomes 101 kPa."""

MOST_PLACES = 4
"""Whole numbers with no more noughts than this are written out."""


def mended(quantity: Quantity) -> Quantity:
    """The quantity in the unit that the standards would have, value unchanged.

    A mere writing needs no conversion: the unit of `10 gm` is the gram already.
    """
    targets = [slip.convert_to for slip in quantity.slips if slip.convert_to]
    if not targets or len(quantity.unit.parts) != 1:
        return quantity
    return converted(quantity, parse_unit(targets[0]))


def converted(quantity: Quantity, unit: Unit) -> Quantity:
    """The quantity in another unit, to a number of figures that reads well."""
    moved = quantity.to(unit)
    ratio = quantity.unit.factor / unit.factor
    is_shift = ratio == Fraction(10) ** figures.leading_place(ratio)
    if is_shift or moved.upper is not None:
        return _written_out(moved)
    exact = quantity.si_value / unit.factor - unit.offset
    if quantity.unit.offset:
        value = figures.rounded_to_place(exact, figures.place(quantity.value))
    else:
        enough = max(FEWEST_FIGURES, quantity.significant_figures)
        value = figures.rounded_to_figures(exact, enough)
    return _written_out(replace(moved, value=value))


def _written_out(quantity: Quantity) -> Quantity:
    """5E+1 as 50: noughts that end a whole number have the benefit of the doubt."""
    place = figures.place(quantity.value)
    if not 0 < place <= MOST_PLACES:
        return quantity
    return replace(quantity, value=quantity.value.quantize(Decimal(1)))


def typed(quantity: Quantity) -> str:
    """The quantity as an author types it: `0.1 mol/dm3`, `4.29 × 10^-5 mol`."""
    if quantity.mixed:
        return " ".join(typed(term) for term in quantity.mixed)
    power = quantity.power or 0
    times = f" × 10^{power}" if power else ""
    value, upper, width = (
        None if number is None else format(number.scaleb(-power), "f")
        for number in (quantity.value, quantity.upper, quantity.half_width)
    )
    value = quantity.sign.replace("±", "± ") + (value or "")
    number = f"{value}{times}"
    if upper is not None:
        number += f" to {upper}{times}"
    elif width is not None:
        number = f"({value} ± {width}){times}" if power else f"{value} ± {width}"
    coverage = " (k=1)" if quantity.standard else ""
    piece = f" ({quantity.of})" if quantity.of else ""
    return f"{number}{coverage} {typed_unit(quantity.unit)}{piece}".rstrip()


def typed_unit(unit: Unit) -> str:
    """The unit as an author types it; nothing for a pure number."""
    match unit.parts:
        case ():
            return ""
        case ((named, 1),) if named.is_word:
            return unit.text
        case _:
            return typed_symbol(unit.parts)
