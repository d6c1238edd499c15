"""A ``graph`` fence.

x: t / min, 0 to 12 step 2
y: T / °C, 18 to 34 step 2
points: temperatures.t, temperatures.T
line: fit rows 1 to 4
"""

from __future__ import annotations

import re
from decimal import Decimal

from manualgen.model.fences import Axis, Graph, GraphLine, LineKind
from manualgen.quantities.expression import Expression
from manualgen.reading.faults import Faults
from manualgen.reading.fences.head import Fence
from manualgen.reading.fields import Fields
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.values import (
    decimal_of,
    read_expression,
    read_quantity,
    read_unit,
)
from manualgen.reading.yaml_tree import Mapping, compose

_SCALE = re.compile(r"(\S+)\s+to\s+(\S+)\s+step\s+(\S+)")
_AXIS_SAMPLE = "t / min, 0 to 12 step 2"
_ROWS = re.compile(r"(\S+)\s+to\s+(\S+)")
_MOST_STEPS = 200


def read_graph(fence: Fence, around: Surroundings) -> Graph | None:
    """The graph, or None where it has no axes to be drawn on."""
    faults = around.faults
    fence.note_words(faults)
    root = compose(fence.text, faults).root
    if not isinstance(root, Mapping):
        faults.syntax(fence.place, f"a graph has two axes, as in x: {_AXIS_SAMPLE}")
        return None
    fields = Fields(root, ("x", "y", "points", "line"), faults, "of a graph")
    x, y = _axis("x", fields, fence, faults), _axis("y", fields, fence, faults)
    points = fields.text("points")
    line = _line(fields.text("line"), fence, faults)
    if x is None or y is None:
        return None
    return Graph(
        fence.name,
        x,
        y,
        _points(points, faults) if points else None,
        points.place() if points else None,
        line,
        fence.place,
    )


def _axis(key: str, fields: Fields, fence: Fence, faults: Faults) -> Axis | None:
    text = fields.text(key)
    if text is None:
        message = f"this graph has no axis {key}"
        faults.syntax(fence.place, message, f"{key}: {_AXIS_SAMPLE}")
        return None
    symbol, slash, unit = _quantity_and_unit(text)
    scale = text.cut(text.text.rfind(",") + 1, len(text.text)).strip()
    found = _SCALE.fullmatch(scale.text)
    if not found or not slash:
        message = "an axis is: quantity / unit, from to to step"
        faults.syntax(text.place(), message, _AXIS_SAMPLE)
        return None
    read_as = read_unit(unit, faults)
    start, stop, step = (_number(scale.cut(*found.span(n)), faults) for n in (1, 2, 3))
    if read_as is None or start is None or stop is None or step is None:
        return None
    if step <= 0 or stop <= start or (stop - start) / step > _MOST_STEPS:
        message = f"an axis from {start} to {stop} in steps of {step} cannot be drawn"
        faults.syntax(scale.place(), message)
        return None
    return Axis(symbol.text, read_as, start, stop, step, text.place())


def _quantity_and_unit(text: Stretch) -> tuple[Stretch, bool, Stretch]:
    """What stands on both sides of the first solidus between blanks."""
    end = max(text.text.rfind(","), 0)
    at = text.text.find(" / ", 0, end)
    if at < 0:
        return text, False, text
    return text.cut(0, at).strip(), True, text.cut(at + 3, end).strip()


def _number(text: Stretch, faults: Faults) -> Decimal | None:
    number = decimal_of(text.text)
    if number is None:
        faults.syntax(text.place(), f"{text.text!r} is no number")
    return number


def _points(text: Stretch, faults: Faults) -> tuple[Expression, Expression] | None:
    parts = list(text.split(","))
    if len(parts) != 2:
        message = "points are two columns: table.column, table.column"
        faults.syntax(text.place(), message)
        return None
    x, y = (read_expression(part, faults) for part in parts)
    return (x, y) if x and y else None


def _line(text: Stretch | None, fence: Fence, faults: Faults) -> GraphLine:
    """The line through the points: a fit, two, a curve, a tangent or none."""
    if text is None:
        return GraphLine(LineKind.NONE, (), None, fence.place)
    place = text.place()
    for kind in (LineKind.TWO_FITS, *LineKind):
        if text.text == kind.value:
            return GraphLine(kind, (), None, place)
        if text.text.startswith(f"{kind.value} "):
            rest = text.cut(len(kind.value), len(text.text)).strip()
            return _line_with(kind, rest, text, faults)
    known = ("fit", "fit rows 1 to 4", "two fits", "curve", "tangent at 2 min", "none")
    faults.unknown(place, "line of a graph", text.text, known)
    return GraphLine(LineKind.NONE, (), None, place)


def _line_with(
    kind: LineKind, rest: Stretch, text: Stretch, faults: Faults
) -> GraphLine:
    place = text.place()
    if kind is LineKind.TANGENT and rest.text.startswith("at "):
        at = read_quantity(rest.cut(3, len(rest.text)).strip(), faults)
        return GraphLine(kind, (), at, place)
    fits = {LineKind.FIT: 1, LineKind.TWO_FITS: 2}.get(kind, 0)
    if fits and rest.text.startswith("rows "):
        parts = rest.text.removeprefix("rows ").split(" and ")
        rows = [_ROWS.fullmatch(part.strip().removeprefix("rows ")) for part in parts]
        if len(rows) == fits and all(rows):
            pairs = tuple((row[1], row[2]) for row in rows if row)
            return GraphLine(kind, pairs, None, place)
    message = f"{rest.text!r} means nothing after {kind.value}"
    faults.syntax(rest.place(), message, "fit rows 1 to 4, or tangent at 2 min")
    return GraphLine(LineKind.NONE, (), None, place)
