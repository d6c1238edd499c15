"""The values that a graph's lines give to calculations.

    GRAPH.gradient  GRAPH.intercept        of a fit
    GRAPH.crossing_x  GRAPH.crossing_y     of two fits
    GRAPH.tangent                          the gradient of a tangent

Gradient and intercept come of the same scatter, so they are correlated inputs;
a tangent has no uncertainty that could be stated.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from manualgen.model.fences import Graph, LineKind
from manualgen.quantities import Quantity, Unit
from manualgen.quantities.curve import Tangent
from manualgen.quantities.dimension import ONE
from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.fits import Line
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.precision import (
    Figures,
    Precision,
    figure_count,
    precision_of_sum,
)
from manualgen.quantities.uncertainty import Input, correlated
from manualgen.quantities.value import Value
from manualgen.working.ledger import Ledger
from manualgen.working.stated import stated

Told = Mapping[str, Quantity]
"""What a line tells, by the second half of its name, as it is printed."""

NAMES = {
    LineKind.FIT: ("gradient", "intercept"),
    LineKind.TWO_FITS: ("crossing_x", "crossing_y"),
    LineKind.TANGENT: ("tangent",),
    LineKind.CURVE: (),
    LineKind.NONE: (),
}
CROSSING_X = parse_expression("(a2 - a1) / (b1 - b2)")
CROSSING_Y = parse_expression("a1 + b1 * x")


def announce(graph: Graph, ledger: Ledger) -> None:
    """Make a graph's names known before it has any values."""
    if graph.name is not None:
        names = NAMES[graph.line.kind]
        ledger.without_value |= {f"{graph.name}.{each}" for each in names}


def enter_fit(
    graph: Graph, line: Line, xs: Sequence[Value], ys: Sequence[Value], ledger: Ledger
) -> Told:
    """The gradient and the intercept of one line."""
    gradient, intercept = _coefficients(line, graph.name or "")
    precision = Figures(min(_figures_of_span(xs), _figures_of_span(ys)))
    steep = replace(gradient, precision=precision)
    at_nought = replace(intercept, precision=_coarsest(ys))
    return {
        "gradient": _enter(graph, "gradient", steep, _gradient_unit(graph), ledger),
        "intercept": _enter(graph, "intercept", at_nought, graph.y.unit, ledger),
    }


def enter_crossing(
    graph: Graph,
    lines: tuple[Line, Line],
    xs: Sequence[Value],
    ys: Sequence[Value],
    ledger: Ledger,
) -> Told:
    """Where two lines cross; they must not be parallel."""
    known: dict[str, Value] = {}
    for number, line in enumerate(lines, start=1):
        gradient, intercept = _coefficients(line, f"{graph.name} line {number}")
        known |= {f"b{number}": gradient, f"a{number}": intercept}
    known["x"] = evaluate(CROSSING_X, Scope(known))
    x = replace(known["x"], precision=_coarsest(xs))
    y = replace(evaluate(CROSSING_Y, Scope(known)), precision=_coarsest(ys))
    return {
        "crossing_x": _enter(graph, "crossing_x", x, graph.x.unit, ledger),
        "crossing_y": _enter(graph, "crossing_y", y, graph.y.unit, ledger),
    }


def enter_tangent(
    graph: Graph,
    touching: Tangent,
    xs: Sequence[Value],
    ys: Sequence[Value],
    ledger: Ledger,
) -> Told:
    """The gradient of a tangent."""
    precision = Figures(min(_figures_of_span(xs), _figures_of_span(ys)))
    datum = Input(f"{graph.name}.tangent")
    value = Value(Fraction(touching.gradient), ONE, precision, {datum: 1.0})
    return {"tangent": _enter(graph, "tangent", value, _gradient_unit(graph), ledger)}


def _gradient_unit(graph: Graph) -> Unit:
    return graph.y.unit.difference / graph.x.unit.difference


def _coefficients(line: Line, name: str) -> tuple[Value, Value]:
    """Gradient and intercept as bare numbers of the axes' units."""
    gradient, intercept = f"{name}.gradient", f"{name}.intercept"
    if line.u_gradient is None or line.u_intercept is None or line.correlation is None:
        inputs = {gradient: Input(gradient), intercept: Input(intercept)}
    else:
        widths = {gradient: line.u_gradient, intercept: line.u_intercept}
        inputs = correlated(widths, [(gradient, intercept, line.correlation)])
    return (
        Value(line.gradient, sensitivities={inputs[gradient]: 1.0}),
        Value(line.intercept, sensitivities={inputs[intercept]: 1.0}),
    )


def _enter(
    graph: Graph, name: str, bare: Value, unit: Unit, ledger: Ledger
) -> Quantity:
    """A number of an axis's unit, known from then on if the graph has a name."""
    factor = float(unit.factor)
    value = Value(
        (bare.number + unit.offset) * unit.factor,
        unit.dimension,
        bare.precision,
        {datum: factor * by_datum for datum, by_datum in bare.sensitivities.items()},
        Fraction(1 if unit.offset else 0),
    )
    shown = stated(value, unit, ledger.settings)
    if graph.name is not None:
        ledger.enter(f"{graph.name}.{name}", value, unit, shown)
    return shown


def _coarsest(values: Sequence[Value]) -> Precision:
    return precision_of_sum((value.number, value.precision) for value in values)


def _figures_of_span(values: Sequence[Value]) -> int:
    """The figures of the difference between the largest and the smallest."""
    precision = _coarsest(values)
    numbers = [value.number for value in values]
    span = max(numbers) - min(numbers)
    return figure_count(span, precision) if precision else 9
