"""Values as they are stated: rounded, in their unit, with their uncertainty."""

from __future__ import annotations

from fractions import Fraction

from manualgen.model.manual import Settings
from manualgen.quantities import Quantity, Unit
from manualgen.quantities.uncertainty import (
    Combination,
    combined_uncertainty,
    rounded_with_uncertainty,
)
from manualgen.quantities.value import Value


def stated(value: Value, unit: Unit, settings: Settings) -> Quantity:
    """The value in a unit, to its uncertainty or else to the figures of its data.

    The manual says how a dropped 5 is rounded and how uncertainties are put
    together.
    """
    width = uncertainty_in(value, unit, settings)
    shown_in = value.unit_for(unit)
    if not width:
        return Quantity(value.rounded_in(unit, settings.rounding), shown_in)
    number, rounded = rounded_with_uncertainty(
        value.in_unit(unit), width, settings.rounding
    )
    is_standard = settings.uncertainty is Combination.QUADRATURE
    return Quantity(number, shown_in, half_width=rounded, standard=is_standard)


def uncertainty_in(value: Value, unit: Unit, settings: Settings) -> Fraction | None:
    """The uncertainty of a value in a unit, unrounded; None where it has none."""
    width = combined_uncertainty(value.sensitivities, settings.uncertainty)
    return None if width is None else Fraction(width) / unit.factor
