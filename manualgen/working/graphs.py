"""Graphs worked out: the teacher's points, and the lines through them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from manualgen.model.fences import Axis, Graph, LineKind
from manualgen.model.finding import Fault, Noted
from manualgen.model.nearest import nearest
from manualgen.model.place import Place
from manualgen.quantities.curve import Tangent, smooth_curve, tangent
from manualgen.quantities.evaluate import result
from manualgen.quantities.expression import Expression, ExpressionError, Symbol, symbols
from manualgen.quantities.fits import (
    FitError,
    Line,
    Point,
    crossing,
    fit_line,
    fit_two_lines,
)
from manualgen.quantities.refusals import UnknownNameError
from manualgen.quantities.value import Value
from manualgen.working.ledger import Ledger
from manualgen.working.line_values import (
    Told,
    announce,
    enter_crossing,
    enter_fit,
    enter_tangent,
)
from manualgen.working.noting import noted
from manualgen.working.readings import WorkedReadings
from manualgen.working.stated import uncertainty_in

Tables = Mapping[str, WorkedReadings]


@dataclass(frozen=True, slots=True)
class GraphPoint:
    """A point of a graph, from one row of a table."""

    row: str
    x: Value
    y: Value
    at: Point
    """In the units of the axes, as are the errors."""
    x_error: float | None
    """Its uncertainty; None where that is not known."""
    y_error: float | None


@dataclass(frozen=True, slots=True)
class WorkedGraph:
    """A graph, as the teacher sees it; lines are in the units of the axes."""

    block: Graph
    points: tuple[GraphPoint, ...]
    lines: tuple[Line, ...] = ()
    """The straight lines fitted, one or two."""
    curve: tuple[Tangent, ...] = ()
    """Points of the smooth curve with their gradients."""
    tangent: Tangent | None = None
    told: Told = field(default_factory=dict)
    """What the lines give: gradient, intercept, crossing_x …, as printed."""
    noted: tuple[Noted, ...] = ()


def work_graph(graph: Graph, tables: Tables, ledger: Ledger) -> WorkedGraph:
    """A graph worked out, and what its lines give entered in the ledger."""
    announce(graph, ledger)
    if graph.points is None:
        return WorkedGraph(graph, ())
    x, y = graph.points
    place = graph.points_place or graph.place
    faults = [
        *_unknown_names(x, place, tables, ledger),
        *_unknown_names(y, _place_of_second(y, place), tables, ledger),
    ]
    if faults:
        return WorkedGraph(graph, (), noted=tuple(faults))
    points: list[GraphPoint] = []
    for label, more in _rows(graph, tables):
        try:
            points.append(_point(label, graph, (x, y), ledger, more))
        except _PointError as error:
            return WorkedGraph(graph, (), noted=(error.noted,))
    return _with_lines(WorkedGraph(graph, tuple(points)), ledger)


def _place_of_second(y: Expression, place: Place) -> Place:
    """The second expression's place: it ends where the two of them end."""
    width = place.end_column - place.column
    return place.within(width - y.end, width)


def _unknown_names(
    expression: Expression, place: Place, tables: Tables, ledger: Ledger
) -> Iterator[Noted]:
    for symbol in symbols(expression):
        table, _, column = symbol.name.partition(".")
        block = tables.get(table)
        if block is None or block.column(column) or symbol.name in ledger.values:
            continue
        columns = [c.column.symbol for c in block.columns]
        near = nearest(column, columns)
        yield noted(
            UnknownNameError(
                symbol.name,
                f"{table} has no column {column}; it has {', '.join(columns)}",
                symbol.start,
                symbol.end,
                f"{table}.{near}" if near else None,
            ),
            place,
            ledger,
        )


def _rows(graph: Graph, tables: Tables) -> Iterator[tuple[str, dict[str, Value]]]:
    """The rows that have a value in every column that is plotted."""
    used = [s for each in graph.points or () for s in symbols(each)]
    columns = {s.name: c for s in used if (c := _column(s, tables))}
    blocks = [tables[s.name.partition(".")[0]] for s in used if s.name in columns]
    if not blocks:
        return
    shortest = min(blocks, key=lambda block: len(block.block.rows))
    for i, label in enumerate(shortest.block.rows):
        values = {name: value[i] for name, value in columns.items()}
        known = {name: value for name, value in values.items() if value}
        if len(known) == len(columns):
            yield label, known


def _column(symbol: Symbol, tables: Tables) -> tuple[Value | None, ...] | None:
    table, _, name = symbol.name.partition(".")
    column = tables[table].column(name) if table in tables else None
    return column.values if column else None


class _PointError(Exception):
    """A point that cannot be had, and what is wrong."""

    def __init__(self, fault: Noted) -> None:
        super().__init__(fault.fault.message)
        self.noted = fault


def _point(
    label: str,
    graph: Graph,
    pair: tuple[Expression, Expression],
    ledger: Ledger,
    more: dict[str, Value],
) -> GraphPoint:
    place = graph.points_place or graph.place
    second = _place_of_second(pair[1], place)
    x = _coordinate(pair[0], graph.x, ledger, more, place)
    y = _coordinate(pair[1], graph.y, ledger, more, second)
    return GraphPoint(
        label,
        x,
        y,
        Point(x.in_unit(graph.x.unit), y.in_unit(graph.y.unit)),
        _error(x, graph.x, ledger),
        _error(y, graph.y, ledger),
    )


def _coordinate(
    expression: Expression,
    axis: Axis,
    ledger: Ledger,
    more: dict[str, Value],
    place: Place,
) -> Value:
    try:
        return result(expression, axis.unit, ledger.scope(more))
    except ExpressionError as error:
        raise _PointError(noted(error, place, ledger)) from None


def _error(value: Value, axis: Axis, ledger: Ledger) -> float | None:
    width = uncertainty_in(value, axis.unit, ledger.settings)
    return None if width is None else float(width)


def _with_lines(graph: WorkedGraph, ledger: Ledger) -> WorkedGraph:
    """The graph with its lines, or with the reason why it has none."""
    if not graph.points:
        return graph
    try:
        return _drawn(graph, ledger)
    except FitError as error:
        fault = Fault(graph.block.line.place, str(error))
        return replace(graph, noted=(Noted("calculation-undefined", fault),))


def _drawn(graph: WorkedGraph, ledger: Ledger) -> WorkedGraph:
    line, points = graph.block.line, tuple(p.at for p in graph.points)
    xs, ys = [p.x for p in graph.points], [p.y for p in graph.points]
    match line.kind:
        case LineKind.FIT:
            chosen = _chosen(graph, 0)
            fitted = fit_line([p.at for p in chosen])
            x_values, y_values = [p.x for p in chosen], [p.y for p in chosen]
            told = enter_fit(graph.block, fitted, x_values, y_values, ledger)
            return replace(graph, lines=(fitted,), told=told)
        case LineKind.TWO_FITS:
            pair = _two_lines(graph)
            if crossing(*pair) is None:
                raise FitError("the two lines are parallel and do not cross")
            told = enter_crossing(graph.block, pair, xs, ys, ledger)
            return replace(graph, lines=pair, told=told)
        case LineKind.CURVE:
            return replace(graph, curve=smooth_curve(points))
        case LineKind.TANGENT:
            touching = tangent(points, _where(graph.block))
            told = enter_tangent(graph.block, touching, xs, ys, ledger)
            curve = smooth_curve(points)
            return replace(graph, curve=curve, tangent=touching, told=told)
        case LineKind.NONE:
            return graph


def _where(graph: Graph) -> float:
    """Where the tangent touches, in the unit of the x axis."""
    at = graph.line.at
    if at is None or at.dimension != graph.x.unit.dimension:
        raise FitError(f"a tangent needs its place, such as at 2 {graph.x.unit.text}")
    return float(at.si_value / graph.x.unit.factor - graph.x.unit.offset)


def _two_lines(graph: WorkedGraph) -> tuple[Line, Line]:
    if len(graph.block.line.rows) == 2:
        first, second = (fit_line([p.at for p in _chosen(graph, i)]) for i in range(2))
        return first, second
    return fit_two_lines([p.at for p in graph.points])


def _chosen(graph: WorkedGraph, which: int) -> tuple[GraphPoint, ...]:
    """The points of the rows that a fit names; all where it names none."""
    if which >= len(graph.block.line.rows):
        return graph.points
    labels = [point.row for point in graph.points]
    ends = [_index(label, labels) for label in graph.block.line.rows[which]]
    return graph.points[min(ends) : max(ends) + 1]


def _index(label: str, labels: list[str]) -> int:
    if label in labels:
        return labels.index(label)
    raise FitError(f"no row {label} is plotted; the rows are {', '.join(labels)}")
