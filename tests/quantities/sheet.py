"""A calculation in miniature, so that a test can be read as an author's lines."""

from __future__ import annotations

from manualgen.quantities import Rounding, parse_quantity, parse_unit
from manualgen.quantities.evaluate import Scope, result
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.uncertainty import combined_uncertainty
from manualgen.quantities.value import Value, datum


def worked(*lines: str) -> dict[str, Value]:
    """The value of every symbol of lines like ``n = c * V -> mol``."""
    values: dict[str, Value] = {}
    for line in lines:
        symbol, _, text = (part.strip() for part in line.partition("="))
        if "->" in text:
            expression, _, unit = text.partition("->")
            scope = Scope(values)
            values[symbol] = result(
                parse_expression(expression), parse_unit(unit.strip()), scope
            )
        else:
            values[symbol] = datum(symbol, parse_quantity(text))
    return values


def last(*lines: str) -> Value:
    """The value of the last line."""
    return list(worked(*lines).values())[-1]


def shown(*lines: str, rounding: Rounding = Rounding.UP) -> str:
    """The last line's value in its unit, as it would be printed."""
    unit = parse_unit(lines[-1].partition("->")[2].strip())
    return str(last(*lines).rounded_in(unit, rounding))


def number_in(value: Value, unit: str) -> float:
    """A value's unrounded number in a unit."""
    return float(value.in_unit(parse_unit(unit)))


def uncertainty_in(value: Value, unit: str) -> float:
    """A value's standard uncertainty in a unit."""
    u = combined_uncertainty(value.sensitivities)
    assert u is not None
    return u / float(parse_unit(unit).factor)
