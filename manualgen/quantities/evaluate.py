"""The value of an expression: number, dimension, figures, sensitivities.

One walk over the tree gathers all four.  A fault is raised with the exact part
of the expression in which it lies: `UnknownNameError` for a name that nothing
defines, `UndefinedError` for an operation without a result, `DimensionError`
for unlike things added and for a temperature in °C where only one in kelvin has
a meaning.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from manualgen.quantities.constants import constants
from manualgen.quantities.dimension import Dimension
from manualgen.quantities.expression import (
    Applied,
    Binary,
    ColumnMean,
    Expression,
    Measured,
    MolarMass,
    Negative,
    Number,
    Operator,
    Symbol,
    written,
)
from manualgen.quantities.operations import (
    added,
    applied,
    multiplied,
    negated,
    raised,
)
from manualgen.quantities.refusals import DimensionError, UnknownNameError, kind_of
from manualgen.quantities.units import Unit
from manualgen.quantities.value import Value, constant, exact


class ResultUnitError(DimensionError):
    """A result stated in the unit of something else."""

    def __init__(self, message: str, dimension: Dimension, at: Expression) -> None:
        super().__init__(message, at.start, at.end)
        self.dimension = dimension
        """What the expression gives."""


def _no_molar_mass(formula: str) -> Value:
    raise KeyError(formula)


@dataclass(frozen=True, slots=True)
class Scope:
    """What an expression may refer to."""

    values: Mapping[str, Value] = field(default_factory=dict)
    """By name, with dots: ``c_b``, ``titres.mean``, ``cooling.gradient``."""
    means: Mapping[str, Value] = field(default_factory=dict)
    """Of columns, by ``TABLE.COLUMN``."""
    molar_mass: Callable[[str], Value] = _no_molar_mass
    """The molar mass of a formula; raises `LookupError` or `ValueError` for none."""


def evaluate(expression: Expression, scope: Scope) -> Value:
    """The value of an expression.

    Raises `UndefinedError` (`UnknownNameError` for a name) or `DimensionError`.
    """
    match expression:
        case Number():
            return exact(expression.value)
        case Measured():
            return constant(expression.quantity)
        case Symbol():
            return _named(expression, scope)
        case ColumnMean():
            return _mean(expression, scope)
        case MolarMass():
            return _molar_mass(expression, scope)
        case Negative():
            return negated(evaluate(expression.operand, scope))
        case Applied():
            return applied(expression, evaluate(expression.argument, scope))
        case Binary():
            left = evaluate(expression.left, scope)
            right = evaluate(expression.right, scope)
            return _OPERATIONS[expression.operator](expression, left, right)


_OPERATIONS: Mapping[Operator, Callable[[Binary, Value, Value], Value]] = {
    Operator.PLUS: added,
    Operator.MINUS: added,
    Operator.TIMES: multiplied,
    Operator.OVER: multiplied,
    Operator.POWER: raised,
}


def _named(symbol: Symbol, scope: Scope) -> Value:
    known = scope.values.get(symbol.name)
    if known:
        return known
    if symbol.name in constants():
        return constants()[symbol.name].value
    near = difflib.get_close_matches(symbol.name, scope.values, 1)
    advice = f"; the nearest name is {near[0]}" if near else ""
    raise UnknownNameError(
        symbol.name,
        f"nothing defines {symbol.name}{advice}",
        symbol.start,
        symbol.end,
        near[0] if near else None,
    )


def _mean(mean: ColumnMean, scope: Scope) -> Value:
    name = f"{mean.table}.{mean.column}"
    known = scope.means.get(name)
    if known:
        return known
    near = difflib.get_close_matches(name, scope.means, 1)
    raise UnknownNameError(
        name,
        f"no table has readings called {name}",
        mean.start,
        mean.end,
        f"mean({near[0]})" if near else None,
    )


def _molar_mass(asked: MolarMass, scope: Scope) -> Value:
    try:
        return scope.molar_mass(asked.formula)
    except (LookupError, ValueError) as error:
        reason = (
            str(error)
            if isinstance(error, ValueError)
            else f"{asked.formula} is not known"
        )
        raise UnknownNameError(
            asked.formula,
            f"no molar mass: {reason}",
            asked.start,
            asked.end,
        ) from None


def result(expression: Expression, unit: Unit, scope: Scope) -> Value:
    """The value of an expression that is to be stated in a unit.

    Raises `UndefinedError` or `DimensionError`; also for a unit that is not the
    expression's.
    """
    return as_result(expression, evaluate(expression, scope), unit)


def as_result(expression: Expression, value: Value, unit: Unit) -> Value:
    """The value of an expression as its line states it in a unit.

    A temperature in °C that is stated in kelvin may stand in products from then
    on.  Raises `ResultUnitError` for the unit of something else, and
    `DimensionError` for what is no temperature in °C nor a difference of two.
    """
    if value.dimension != unit.dimension:
        raise ResultUnitError(
            f"{written(expression)} gives {kind_of(value.dimension)}; "
            f"{unit.text} is the unit of {kind_of(unit.dimension)}",
            value.dimension,
            expression,
        )
    if value.celsius not in (0, 1):
        raise DimensionError(
            f"{written(expression)} adds temperatures in °C up without a mean; "
            "only their difference or their mean is a temperature",
            expression.start,
            expression.end,
        )
    if value.celsius and not unit.offset:
        return replace(value, celsius=Fraction(0), absolute=True)
    return value
