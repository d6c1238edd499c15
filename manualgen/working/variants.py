"""What a calculation would come to if something in it were otherwise.

An author's answer that is not the computed one is most often the right answer
to another calculation: with the rough titre averaged, with the molar mass of the
anhydrous salt, with a temperature left in °C, with results rounded on the way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction

from manualgen.chemistry import Formula, parse_formula
from manualgen.knowledge import find_by_formula
from manualgen.model.fences import Computed
from manualgen.quantities import Quantity
from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.expression import (
    Binary,
    Expression,
    ExpressionError,
    MolarMass,
    Number,
    Operator,
    operands,
    parts,
    written,
)
from manualgen.quantities.value import Value
from manualgen.working.calculations import WorkedLine
from manualgen.working.ledger import molar_mass_of
from manualgen.working.means import is_rough, mean_of
from manualgen.working.numbers import Numbers
from manualgen.working.readings import WorkedReadings

ZERO_CELSIUS = Fraction("273.15")


def _as_written(symbol: str, expression: Expression) -> Expression:
    return expression


@dataclass(frozen=True, slots=True)
class Variant:
    """A calculation with something changed, and in words what."""

    what: str
    values: Mapping[str, Value] = field(default_factory=dict)
    """Names that stand for other values, means by ``TABLE.mean`` or ``mean(…)``."""
    molar_mass: Callable[[str], Value] = molar_mass_of
    rewrite: Callable[[str, Expression], Expression] = _as_written
    """The expression to take for a symbol's own."""
    mend: str | None = None
    """The line to write, where it is the expression that is wrong."""


def values_under(variant: Variant, numbers: Numbers) -> Mapping[str, Value]:
    """What every symbol of the calculations comes to in a variant.

    A line that has no value there is left out, and so is what depends on it.
    """
    values = {**numbers.scope.values, **variant.values}
    means = {**numbers.scope.means, **variant.values}
    computed = list(_computed_lines(numbers))
    for line in computed:
        if line.line.symbol not in variant.values:
            values.pop(line.line.symbol, None)
    scope = Scope(values, means, variant.molar_mass)
    for line in computed:
        name = line.line.symbol
        if name in variant.values or not isinstance(line.line, Computed):
            continue
        with suppress(ExpressionError):
            value = evaluate(variant.rewrite(name, line.line.expression), scope)
            values[name] = _as_stated(value, line)
    return values


def _computed_lines(numbers: Numbers) -> Iterator[WorkedLine]:
    for calculation in numbers.calculations:
        for line in calculation.lines:
            if isinstance(line.line, Computed) and line.value:
                yield line


def _as_stated(value: Value, line: WorkedLine) -> Value:
    if line.value and line.value.absolute:
        return replace(value, celsius=Fraction(0), absolute=True)
    return value


def variants(numbers: Numbers) -> Iterator[Variant]:
    """The mistakes that are often made, as far as this calculation offers them."""
    yield from _without_powers_of_ten(numbers)
    for table in numbers.readings:
        yield from _with_every_row(table)
    yield from _with_celsius(numbers)
    yield from _with_other_forms(numbers)


def rounded_on_the_way(
    symbol: str, numbers: Numbers, answers: Mapping[str, Quantity]
) -> Variant:
    """With every result but one rounded before it is used.

    They are rounded as they are stated, or as their author's ``answers`` are.
    """
    rounded = {
        name: replace(value, number=shown.si_value)
        for name, value in numbers.scope.values.items()
        if (shown := answers.get(name) or numbers.stated.get(name)) and name != symbol
    }
    return Variant("results are rounded on the way", rounded)


def _without_powers_of_ten(numbers: Numbers) -> Iterator[Variant]:
    """The units turn cm3 into dm3; a bare 1000 in a line does so once more."""
    for worked in _computed_lines(numbers):
        line = worked.line
        if not isinstance(line, Computed) or not any(
            map(_scales, parts(line.expression))
        ):
            continue
        unit = worked.unit.text if worked.unit else "1"
        yield Variant(
            "the units alone are trusted, without the power of ten on line "
            f"{line.place.line}",
            rewrite=_unscaled_in(line.symbol),
            mend=f"{line.symbol} = {written(_unscaled(line.expression))} -> {unit}",
        )


def _unscaled_in(symbol: str) -> Callable[[str, Expression], Expression]:
    return lambda name, expression: (
        _unscaled(expression) if name == symbol else expression
    )


def _scales(expression: Expression) -> bool:
    return (
        isinstance(expression, Binary)
        and expression.operator in (Operator.TIMES, Operator.OVER)
        and any(_is_power_of_ten(each) for each in operands(expression))
    )


def _is_power_of_ten(expression: Expression) -> bool:
    if not isinstance(expression, Number) or expression.value < 100:
        return False
    return Decimal(expression.text).normalize().as_tuple().digits == (1,)


def _unscaled(expression: Expression) -> Expression:
    """The expression without factors of 100, 1000 and the like."""
    if not isinstance(expression, Binary):
        return expression
    left, right = _unscaled(expression.left), _unscaled(expression.right)
    if _scales(expression):
        if _is_power_of_ten(right):
            return left
        if expression.operator is Operator.TIMES:
            return right
    return replace(expression, left=left, right=right)


def _with_every_row(table: WorkedReadings) -> Iterator[Variant]:
    mean, name = table.mean, table.block.name
    column = table.column(mean.mean.of) if mean else None
    if mean is None or column is None or name is None:
        return
    every = [i for i, value in enumerate(column.values) if value]
    added = [table.block.rows[i] for i in every if i not in mean.rows]
    if not added:
        return
    rough = any(is_rough(label) for label in added)
    what = "the rough titre is" if rough else f"row {', '.join(added)} is"
    value = mean_of([v for v in column.values if v], f"{name} in full")
    averaged = {f"{name}.mean": value, f"{name}.{mean.mean.of}": value}
    yield Variant(f"{what} averaged too", averaged)


def _with_celsius(numbers: Numbers) -> Iterator[Variant]:
    for line in _computed_lines(numbers):
        if line.value and line.value.absolute and line.unit:
            cold = replace(line.value, number=line.value.number - ZERO_CELSIUS)
            number = float(cold.number)
            yield Variant(
                f"{number:g} °C is taken for {number:g} K", {line.line.symbol: cold}
            )


def _with_other_forms(numbers: Numbers) -> Iterator[Variant]:
    asked = {
        part.formula: part
        for line in _computed_lines(numbers)
        if isinstance(line.line, Computed)
        for part in parts(line.line.expression)
        if isinstance(part, MolarMass)
    }
    for text in asked:
        for other in other_forms(text):
            yield Variant(
                f"the molar mass of {other.pretty} is taken for that of "
                f"{parse_formula(text).pretty}",
                molar_mass=_swapped(text, str(other)),
            )


def _swapped(text: str, other: str) -> Callable[[str], Value]:
    return lambda formula: molar_mass_of(other if formula == text else formula)


def other_forms(text: str) -> tuple[Formula, ...]:
    """The other hydrates of a salt, and the salt without its water.

    Raises `FormulaError` for what is no formula.
    """
    formula = parse_formula(text)
    known = find_by_formula(formula)
    usual = (known.formula,) if known and known.formula else ()
    forms = (formula.anhydrous, *usual, *(known.hydrates if known else ()))
    return tuple(
        other
        for other in dict.fromkeys(forms)
        if str(other) != str(formula) and str(other.anhydrous) == str(formula.anhydrous)
    )
