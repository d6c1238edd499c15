"""From a strength as it is stated to the mass fraction that limits are set in.

w = c M / ρ, with ρ from the density table, found by repetition since ρ depends
on w. Without a table ρ is that of water's 1.00 g/cm³, which makes a salt's
per cent a little too high and so errs to the cautious side.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Final

from manualgen.chemistry import ChemistryError, Formula, molar_mass, parse_formula
from manualgen.knowledge.chemical import Chemical, Form
from manualgen.knowledge.densities import Points, density_at, density_points
from manualgen.quantities import Quantity

_HUNDRED: Final = Decimal(100)
_ROUNDS: Final = 30
_CLOSE: Final = Decimal("0.000001")
_OXYGEN_PER_VOLUME: Final = Decimal("11.2")
"""dm³ of oxygen at 0 °C and 101.325 kPa from 1 dm³ of 1 mol/dm³ hydrogen peroxide
(molar volume 22.4 dm³/mol, two moles of peroxide to one of oxygen).
"""


class StrengthError(ValueError):
    """A strength that cannot be a strength of the chemical."""


def percent_ww(chemical: Chemical, strength: Quantity | str | None) -> Decimal | None:
    """The mass fraction in per cent, of the species that the limits count.

    A range counts at its upper end. None where no strength is stated, or a
    word that the table has no number for. Raises `StrengthError` where the
    quantity is no strength, or needs a formula that the chemical does not have.
    """
    if strength is None:
        return None
    if isinstance(strength, str):
        is_saturated = strength == "saturated"
        return chemical.saturated if is_saturated else _concentrated(chemical, strength)
    value = strength.value if strength.upper is None else strength.upper
    symbol = strength.unit.symbol
    if symbol in ("% w/w", "%"):
        return value
    if symbol == "ppm":
        return value / 10_000
    if symbol == "vol":
        return _percent(chemical, _mass_of_peroxide(chemical, value))
    if symbol == "% v/v":
        return _percent(chemical, value * _pure_density(chemical) * 10)
    return _percent(chemical, _grams_per_litre(chemical, strength, value))


def _concentrated(chemical: Chemical, word: str) -> Decimal | None:
    return chemical.concentrated if word in ("concentrated", "glacial") else None


def grams_per_litre(chemical: Chemical, percent: Decimal) -> Decimal:
    """The mass concentration, in g/dm³, of a solution of a mass fraction in per cent."""
    points, factor = _points_of(chemical)
    density = density_at(points, percent * factor) if points else Decimal(1)
    return percent * density * 10


def _grams_per_litre(chemical: Chemical, strength: Quantity, value: Decimal) -> Decimal:
    in_si = value * strength.unit.factor.numerator / strength.unit.factor.denominator
    match strength.dimension.stated():
        case {"length": -3, "amount": 1, **rest} if not rest:
            return in_si / 1000 * _molar_mass(chemical)
        case {"length": -3, "mass": 1, **rest} if not rest:
            return in_si
        case _:
            raise StrengthError(f"{strength.unit} is no unit of strength")


def _percent(chemical: Chemical, grams_per_litre: Decimal) -> Decimal:
    points, factor = _points_of(chemical)
    first = grams_per_litre / 10
    if points is None:
        return min(first, _HUNDRED)
    table, share = points, factor
    return min(
        _settled(first, lambda w: first / density_at(table, w * share)), _HUNDRED
    )


def _settled(first: Decimal, step: Callable[[Decimal], Decimal]) -> Decimal:
    """What the repetition of a step comes to rest at."""
    value = first
    for _ in range(_ROUNDS):
        following = step(min(value, _HUNDRED))
        if abs(following - value) < _CLOSE:
            return following
        value = following
    return value


def _points_of(chemical: Chemical) -> tuple[Points | None, Decimal]:
    """The density table, and its species' share of the mass of what limits count."""
    basis = chemical.basis
    points = density_points(basis) if basis else None
    if basis is None or points is None:
        return None, Decimal(1)
    return points, molar_mass(basis.anhydrous) / molar_mass(basis)


def _molar_mass(chemical: Chemical) -> Decimal:
    if chemical.basis is None:
        raise StrengthError(f"{chemical.name} has no formula to reckon mol/dm³ with")
    try:
        return molar_mass(chemical.basis)
    except ChemistryError as error:
        raise StrengthError(str(error)) from error


def _mass_of_peroxide(chemical: Chemical, volumes: Decimal) -> Decimal:
    peroxide = _peroxide()
    if chemical.basis != peroxide:
        raise StrengthError(
            f"vol is a strength of hydrogen peroxide, not of {chemical.name}"
        )
    return volumes / _OXYGEN_PER_VOLUME * molar_mass(peroxide)


def _peroxide() -> Formula:
    return parse_formula("H2O2")


def _pure_density(chemical: Chemical) -> Decimal:
    if chemical.density is not None:
        return chemical.density
    if chemical.form is Form.LIQUID or chemical.ingredients:
        return Decimal(1)
    raise StrengthError(
        f"% v/v is no strength of a {chemical.form} such as {chemical.name}"
    )
