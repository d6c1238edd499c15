"""Graphs on squared paper, with axes; the teacher's points and lines on top.

What is drawn on top changes nothing below it, so the students' paper and the
teacher's graph take up the same room.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, TypeAlias

from manualgen.drawing import svg
from manualgen.drawing.clip import clipped
from manualgen.drawing.face import width_mm
from manualgen.drawing.labels import broken
from manualgen.drawing.paper import CHECK_MM, check_line, squared_paper
from manualgen.drawing.scale import FittedScale, Scale

WIDEST_MM: Final = 130
TALLEST_MM: Final = 120
PT_PER_MM: Final = 72 / 25.4

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Curve:
    """A line through points, in the units of the axes, and what it tells."""

    points: tuple[Point, ...]
    label: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """What is drawn on the paper; errors are half-widths, or none."""

    points: tuple[Point, ...] = ()
    x_errors: tuple[float, ...] = ()
    y_errors: tuple[float, ...] = ()
    curves: tuple[Curve, ...] = ()


EMPTY: Final = Drawn()
"""What is drawn on the students' paper."""


@dataclass(frozen=True, slots=True)
class Lettering:
    """How a graph is lettered."""

    description: str
    """What a voice says of it."""
    check: str
    """What stands behind the 10 cm line."""
    decimal_mark: str = "."
    size_mm: float = 3.2


@dataclass(frozen=True, slots=True)
class _Area:
    """Where the paper lies, and what its sides measure."""

    left: float
    top: float
    x: FittedScale
    y: FittedScale

    @property
    def bottom(self) -> float:
        return self.top + self.y.length_mm

    @property
    def right(self) -> float:
        return self.left + self.x.length_mm

    def at(self, point: Point) -> Point:
        return (
            self.left + self.x.place_mm(point[0]),
            self.bottom - self.y.place_mm(point[1]),
        )

    def holds(self, place: Point) -> bool:
        inside_x = self.left - 0.01 <= place[0] <= self.right + 0.01
        return inside_x and self.top - 0.01 <= place[1] <= self.bottom + 0.01


def plot(x: Scale, y: Scale, lettering: Lettering, drawn: Drawn = EMPTY) -> str:
    """The SVG of a graph, at most 150 mm wide."""
    across, up = x.fitted(WIDEST_MM), y.fitted(TALLEST_MM)
    size = lettering.size_mm
    widest = max(_width(t, size) for _, t in up.labels(lettering.decimal_mark))
    area = _Area(max(8.0, widest + 3), size * 1.7, across, up)
    ends = area.left + CHECK_MM + 3 + _width(lettering.check, size)
    beside = ends + 4 < area.right - _width(x.title, size)
    height = area.bottom + size * (2.6 if beside else 3.9) + 2.4
    width = max(area.right + size * 1.6, area.left + _width(y.title, size), ends)
    parts = (
        squared_paper(area.left, area.top, across.length_mm, up.length_mm),
        *_axes(area, lettering),
        check_line(area.left, height - size * 0.6, lettering.check, size * 0.85),
        *_on_top(area, drawn, size),
    )
    return svg.figure(width, height, lettering.description, parts)


def _axes(area: _Area, lettering: Lettering) -> Iterator[str]:
    size, mark = lettering.size_mm, lettering.decimal_mark
    corner = (
        (area.left, area.top),
        (area.left, area.bottom),
        (area.right, area.bottom),
    )
    yield svg.path(svg.polyline(corner), "axis")
    for along, words in area.x.labels(mark):
        x = area.left + along
        yield svg.path(f"M{svg.number(x)} {svg.number(area.bottom)}v1.2", "axis")
        at = (x, area.bottom + 1.4 + size)
        yield svg.text(svg.Letters(at, size, "middle"), words)
    for along, words in area.y.labels(mark):
        y = area.bottom - along
        yield svg.path(f"M{svg.number(area.left)} {svg.number(y)}h-1.2", "axis")
        at = (area.left - 2, y + size * 0.34)
        yield svg.text(svg.Letters(at, size, "end"), words)
    below = svg.Letters((area.right, area.bottom + 2 + size * 2.3), size, "end")
    above = svg.Letters((area.left - 2, area.top - size * 0.7), size)
    yield svg.axis_title(below, area.x.scale.symbol, area.x.scale.unit)
    yield svg.axis_title(above, area.y.scale.symbol, area.y.scale.unit)


def _on_top(area: _Area, drawn: Drawn, size: float) -> Iterator[str]:
    for curve in drawn.curves:
        line = [area.at(point) for point in curve.points]
        box = (area.left, area.top, area.right, area.bottom)
        for stretch in clipped(line, box):
            yield svg.path(svg.polyline(stretch), "curve")
    for index, point in enumerate(drawn.points):
        place = area.at(point)
        if area.holds(place):
            yield _cross(place)
            yield from _bars(area, drawn, index, point)
    yield from _legend(area, drawn, size)


def _cross(place: Point) -> str:
    x, y = svg.number(place[0] - 1.1), svg.number(place[1] - 1.1)
    return svg.path(f"M{x} {y}l2.2 2.2m0 -2.2l-2.2 2.2", "point")


def _bars(area: _Area, drawn: Drawn, index: int, point: Point) -> Iterator[str]:
    """Error bars, with a stop at each end, where the errors are known."""
    x, y = point
    if index < len(drawn.y_errors) and drawn.y_errors[index] > 0:
        error = drawn.y_errors[index]
        (a, low), (_, high) = area.at((x, y - error)), area.at((x, y + error))
        ends = f"M{svg.number(a - 0.8)} {svg.number(low)}h1.6M{svg.number(a - 0.8)} {svg.number(high)}h1.6"
        yield svg.path(
            f"M{svg.number(a)} {svg.number(low)}V{svg.number(high)}{ends}", "bar"
        )
    if index < len(drawn.x_errors) and drawn.x_errors[index] > 0:
        error = drawn.x_errors[index]
        (near, b), (far, _) = area.at((x - error, y)), area.at((x + error, y))
        ends = f"M{svg.number(near)} {svg.number(b - 0.8)}v1.6M{svg.number(far)} {svg.number(b - 0.8)}v1.6"
        yield svg.path(
            f"M{svg.number(near)} {svg.number(b)}H{svg.number(far)}{ends}", "bar"
        )


def _legend(area: _Area, drawn: Drawn, size: float) -> Iterator[str]:
    """What the lines tell, in the corner where the least is drawn."""
    widest = max(40.0, 0.6 * (area.right - area.left))
    labels = [
        line
        for curve in drawn.curves
        if curve.label
        for line in broken(curve.label, size, widest)
    ]
    if not labels:
        return
    height = size * (0.6 + 1.4 * len(labels))
    width = max(_width(label, size) for label in labels) + 3
    inked = [*map(area.at, drawn.points), *_along(area, drawn)]
    is_left, is_upper = min(
        ((left, upper) for upper in (True, False) for left in (True, False)),
        key=lambda corner: sum(
            _in_corner(area, p, corner, (width + 2, height + 2)) for p in inked
        ),
    )
    top = area.top + 1.5 if is_upper else area.bottom - height - 1.5
    side = area.left + 1.5 if is_left else area.right - width - 1.5
    yield svg.path(
        f"M{svg.number(side)} {svg.number(top)}h{svg.number(width)}v{svg.number(height)}h-{svg.number(width)}Z",
        "hollow",
    )
    for index, label in enumerate(labels):
        x = area.left + 3 if is_left else area.right - 3
        at = (x, top + size * (1 + 1.4 * index))
        letters = svg.Letters(at, size, "start" if is_left else "end")
        yield svg.text(letters, label, "legend")


def _along(area: _Area, drawn: Drawn) -> Iterator[Point]:
    """Points close together along every line."""
    for curve in drawn.curves:
        for a, b in pairwise(map(area.at, curve.points)):
            for step in range(21):
                part = step / 20
                yield a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def _in_corner(
    area: _Area, point: Point, corner: tuple[bool, bool], extent: Point
) -> bool:
    across = point[0] - area.left if corner[0] else area.right - point[0]
    down = point[1] - area.top if corner[1] else area.bottom - point[1]
    return 0 <= across <= extent[0] and 0 <= down <= extent[1]


def _width(words: str, size_mm: float) -> float:
    return width_mm(words, size_mm * PT_PER_MM)
