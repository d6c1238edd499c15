"""What becomes of values when they are added, multiplied, raised or logged.

Each operation knows its rules for the number, the dimension, the figures and
the sensitivities.  Temperatures in °C may be added up and averaged; they may
stand in no product, ratio, power or function, where only a temperature in
kelvin or a difference has a meaning.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction

from manualgen.quantities.derivative import chained, partials, slope
from manualgen.quantities.dimension import ONE, Dimension, whole
from manualgen.quantities.expression import (
    Applied,
    Binary,
    Expression,
    Function,
    Operator,
    Symbol,
    written,
)
from manualgen.quantities.kinds import si_symbol
from manualgen.quantities.precision import (
    Precision,
    precision_of_exponential,
    precision_of_logarithm,
    precision_of_product,
    precision_of_sum,
)
from manualgen.quantities.refusals import DimensionError, UndefinedError, kind_of
from manualgen.quantities.value import TEMPERATURE, Value

_ZERO_CELSIUS = frozenset(map(Fraction, ("273", "273.1", "273.15", "273.16", "273.2")))
"""0 °C in kelvin, 273.15 K by definition (SI Brochure, 9th ed., 2.3.1), as it is rounded."""
CONCENTRATION = Dimension(amount=1, length=-3)


def added(at: Binary, left: Value, right: Value) -> Value:
    """The sum or the difference of two values."""
    _refuse_second_turning(at, left, right)
    if left.dimension != right.dimension:
        raise _unlike(at, left, right)
    sign = 1 if at.operator is Operator.PLUS else -1
    return Value(
        _bounded(at, left.number + sign * right.number),
        left.dimension,
        precision_of_sum((v.number, v.precision) for v in (left, right)),
        chained(
            partials(at.operator, float(left.number), float(right.number)),
            (left.sensitivities, right.sensitivities),
        ),
        left.celsius + sign * right.celsius,
    )


def _refuse_second_turning(at: Binary, left: Value, right: Value) -> None:
    """Raise `DimensionError` for 273.15 added to °C, which stating it in kelvin does."""
    for value, own, other in ((left, at.left, right), (right, at.right, left)):
        is_bare = other.dimension in (TEMPERATURE, ONE) and not other.celsius
        if value.celsius and is_bare and abs(other.number) in _ZERO_CELSIUS:
            raise DimensionError(
                f"{written(own)} is in °C and is converted by itself where it is stated "
                f"in K; {written(at)} would do that twice",
                at.start,
                at.end,
                written(own),
            )


def multiplied(at: Binary, left: Value, right: Value) -> Value:
    """The product or the ratio of two values."""
    over = at.operator is Operator.OVER
    if over and not right.number:
        raise UndefinedError(
            f"{written(at.right)} is nought, and nothing can be divided by it",
            at.right.start,
            at.right.end,
        )
    number = left.number / right.number if over else left.number * right.number
    bounded = _bounded(at, number)
    by_left, by_right = partials(at.operator, float(left.number), float(right.number))
    return Value(
        bounded,
        left.dimension / right.dimension if over else left.dimension * right.dimension,
        precision_of_product(
            left.number, left.precision, right.number, right.precision
        ),
        chained((by_left, by_right), (left.sensitivities, right.sensitivities)),
        _celsius_of_product(at, left, right),
    )


def _celsius_of_product(at: Binary, left: Value, right: Value) -> Fraction:
    """Temperatures in °C bear a bare number, as in a mean, and nothing else."""
    over = at.operator is Operator.OVER
    if left.celsius and right.is_exact_number and right.number:
        factor = 1 / right.number if over else right.number
        return left.celsius * factor
    if right.celsius and left.is_exact_number and not over:
        return right.celsius * left.number
    for value, operand in ((left, at.left), (right, at.right)):
        refuse_celsius(value, operand, "a ratio" if over else "a product")
    return Fraction(0)


def refuse_celsius(value: Value, at: Expression, where: str) -> None:
    """Raise `DimensionError` for a temperature in °C."""
    if value.celsius:
        raise DimensionError(
            f"{written(at)} is in °C, which has no meaning in {where}; turn it "
            "into kelvin first (a rise or a fall is written in K)",
            at.start,
            at.end,
            _in_kelvin(at),
        )


def _in_kelvin(at: Expression) -> str | None:
    if not isinstance(at, Symbol):
        return None
    return f"{at.name}_K, with {at.name}_K = {at.name} -> K on a line before"


def negated(value: Value) -> Value:
    """The value with its sign turned."""
    return replace(
        value,
        number=-value.number,
        sensitivities=chained((-1.0,), (value.sensitivities,)),
        celsius=-value.celsius,
        absolute=False,
    )


def raised(at: Binary, base: Value, exponent: Value) -> Value:
    """A value to the power of another."""
    refuse_celsius(base, at.left, "a power")
    refuse_celsius(exponent, at.right, "an exponent")
    if not exponent.dimension.is_one:
        raise _has_a_unit(at.right, exponent, "an exponent")
    if not base.dimension.is_one and not exponent.is_exact_number:
        raise DimensionError(
            f"{written(at.left)} has a unit, so its exponent is a bare number",
            at.right.start,
            at.right.end,
        )
    number = _power(at, base.number, exponent.number)
    by_base, by_exponent = _power_partials(base, exponent)
    return Value(
        number,
        _dimension_to(at, base.dimension, exponent.number),
        _precision_of_power(base, exponent),
        chained((by_base, by_exponent), (base.sensitivities, exponent.sensitivities)),
    )


def _dimension_to(at: Binary, dimension: Dimension, power: Fraction) -> Dimension:
    if dimension.is_one:
        return ONE
    if power.denominator > 6:
        raise DimensionError(
            f"{written(at.left)} has a unit, of which there is no power {power}",
            at.right.start,
            at.right.end,
        )
    return dimension ** whole(power)


def _precision_of_power(base: Value, exponent: Value) -> Precision:
    if exponent.precision:
        return precision_of_exponential(exponent.number, exponent.precision)
    return precision_of_product(base.number, base.precision, Fraction(1), None)


def _power_partials(base: Value, exponent: Value) -> tuple[float, float]:
    if not base.number:
        return 0.0, 0.0
    return partials(Operator.POWER, float(base.number), float(exponent.number))


def _power(at: Binary, base: Fraction, exponent: Fraction) -> Fraction:
    if not base and exponent <= 0:
        raise UndefinedError("nought to this power has no value", at.start, at.end)
    if exponent.denominator == 1 and abs(exponent) <= 99:
        return _bounded(at, base**exponent.numerator)
    if base < 0:
        raise UndefinedError(
            f"{written(at.left)} is negative and has no such power", at.start, at.end
        )
    return _from_float(at, lambda: float(base) ** float(exponent))


def applied(at: Applied, argument: Value) -> Value:
    """A function of a value."""
    refuse_celsius(argument, at.argument, "a function")
    if at.function in _OF_PURE_NUMBERS and not argument.dimension.is_one:
        raise _has_a_unit(at.argument, argument, at.function)
    number = _function(at, argument.number)
    steep = number or at.function in (Function.LN, Function.LOG10)
    by_argument = (
        slope(at.function, float(argument.number), float(number)) if steep else 0.0
    )
    half = at.function is Function.SQRT
    return Value(
        number,
        argument.dimension ** Fraction(1, 2) if half else argument.dimension,
        _precision_of_function(at.function, argument),
        chained((by_argument,), (argument.sensitivities,)),
    )


_OF_PURE_NUMBERS = (Function.LN, Function.LOG10, Function.EXP)

_FLOATING: Mapping[Function, Callable[[float], float]] = {
    Function.SQRT: math.sqrt,
    Function.LN: math.log,
    Function.LOG10: math.log10,
    Function.EXP: math.exp,
}


def _function(at: Applied, argument: Fraction) -> Fraction:
    if at.function is Function.ABS:
        return abs(argument)
    return _from_float(at, lambda: _FLOATING[at.function](float(argument)))


def _precision_of_function(function: Function, argument: Value) -> Precision:
    match function:
        case Function.LN | Function.LOG10:
            return precision_of_logarithm(argument.number, argument.precision)
        case Function.EXP:
            return precision_of_exponential(argument.number, argument.precision)
        case Function.SQRT:
            return precision_of_product(
                argument.number, argument.precision, Fraction(1), None
            )
        case Function.ABS:
            return argument.precision


def _from_float(at: Expression, operation: Callable[[], float]) -> Fraction:
    try:
        return _bounded(at, Fraction(operation()))
    except OverflowError:
        raise _out_of_measure(at) from None
    except ValueError:
        raise UndefinedError(f"{written(at)} has no value", at.start, at.end) from None


LARGEST = 10**150
_SMALLEST = Fraction(1, LARGEST)
FINEST_BITS = 1200
"""Beyond these a number is refused or rounded to the machine's precision, so
that no chain of powers can fill the memory.
"""


def _bounded(at: Expression, number: Fraction) -> Fraction:
    if number and not _SMALLEST <= abs(number) <= LARGEST:
        raise _out_of_measure(at)
    if number.denominator.bit_length() > FINEST_BITS:
        return Fraction(float(number))
    return number


def _out_of_measure(at: Expression) -> UndefinedError:
    return UndefinedError(
        f"{written(at)} is a number out of all measure", at.start, at.end
    )


def _unlike(at: Binary, left: Value, right: Value) -> DimensionError:
    verb = "adds" if at.operator is Operator.PLUS else "subtracts"
    return DimensionError(
        f"{written(at)} {verb} unlike things: {written(at.left)} is "
        f"{kind_of(left.dimension)}, {written(at.right)} {kind_of(right.dimension)}",
        at.start,
        at.end,
    )


def _has_a_unit(at: Expression, value: Value, where: str) -> DimensionError:
    unit = "mol/dm3" if value.dimension == CONCENTRATION else si_symbol(value.dimension)
    return DimensionError(
        f"{written(at)} is {kind_of(value.dimension)}; {where} takes a pure "
        "number: divide by the unit first",
        at.start,
        at.end,
        f"{written(at)} / (1 {unit})",
    )
