"""Graphs on squared paper, with axes; the teacher's points and lines on top.

What is drawn on top changes nothing below it, so the students' paper and the
teacher's graph take up the same room.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import Final, TypeAlias

from manualgen.drawing import svg
from manualgen.drawing.clip import clipped
from manualgen.drawing.face import lettering_mm
from manualgen.drawing.geometry import Box
from manualgen.drawing.legend import along, place_legend
from manualgen.drawing.paper import CHECK_MM, check_line, squared_paper
from manualgen.drawing.scale import FittedScale, Scale

COLUMN_MM: Final = 148
"""The whole width, with what stands beside the paper."""
WIDEST_MM: Final = 130
TALLEST_MM: Final = 120

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
    """The SVG of a graph, no wider than a page's column."""
    up, size = y.fitted(TALLEST_MM), lettering.size_mm
    widest = max(lettering_mm(t, size) for _, t in up.labels(lettering.decimal_mark))
    left, right = max(8.0, widest + 3), size * 1.6
    across = x.fitted(min(WIDEST_MM, COLUMN_MM - left - right))
    area = _Area(left, size * 1.7, across, up)
    ends = area.left + CHECK_MM + 3 + lettering_mm(lettering.check, size)
    beside = ends + 4 < area.right - lettering_mm(x.title, size)
    height = area.bottom + size * (2.6 if beside else 3.9) + 2.4
    width = max(area.right + right, area.left + lettering_mm(y.title, size), ends)
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
    labels = tuple(area.x.labels(mark))
    every = _labelled(labels, size)
    for index, (reach, words) in enumerate(labels):
        x = area.left + reach
        yield svg.path(f"M{svg.number(x)} {svg.number(area.bottom)}v1.2", "axis")
        at = (x, area.bottom + 1.4 + size)
        if index % every == 0:
            yield svg.text(svg.Letters(at, size, "middle"), words)
    for reach, words in area.y.labels(mark):
        y = area.bottom - reach
        yield svg.path(f"M{svg.number(area.left)} {svg.number(y)}h-1.2", "axis")
        at = (area.left - 2, y + size * 0.34)
        yield svg.text(svg.Letters(at, size, "end"), words)
    below = svg.Letters((area.right, area.bottom + 2 + size * 2.3), size, "end")
    above = svg.Letters((area.left - 2, area.top - size * 0.7), size)
    yield svg.axis_title(below, area.x.scale.symbol, area.x.scale.unit)
    yield svg.axis_title(above, area.y.scale.symbol, area.y.scale.unit)


def _labelled(labels: tuple[tuple[float, str], ...], size: float) -> int:
    """Of how many marks one bears its number, so that large numbers stay apart."""
    reaches = [reach for reach, _ in labels]
    apart = min((b - a for a, b in pairwise(reaches)), default=inf)
    widest = max((lettering_mm(words, size) for _, words in labels), default=0.0)
    return next((n for n in (1, 2, 5) if n * apart >= widest + size / 2), 10)


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
    """What the lines tell, where the least is drawn."""
    labels = [curve.label for curve in drawn.curves if curve.label]
    if not labels:
        return
    paper = Box(area.left, area.top, area.right, area.bottom)
    legend = place_legend(labels, size, paper, _inked(area, drawn))
    box = legend.box
    if legend.is_free:
        yield svg.path(svg.polyline(box.corners) + "Z", "hollow")
    x = box.left + 1.5 if legend.is_left else box.right - 1.5
    for index, words in enumerate(legend.lines):
        at = (x, box.top + size * (1 + 1.4 * index))
        letters = svg.Letters(at, size, "start" if legend.is_left else "end")
        yield svg.text(letters, words, "legend")


def _inked(area: _Area, drawn: Drawn) -> Iterator[Point]:
    """Points close together on everything that is drawn on the paper."""
    for curve in drawn.curves:
        line = [area.at(point) for point in curve.points]
        for stretch in clipped(line, (area.left, area.top, area.right, area.bottom)):
            yield from along(stretch)
    for index, (x, y) in enumerate(drawn.points):
        across, up = _error(drawn.x_errors, index), _error(drawn.y_errors, index)
        yield from along((area.at((x - across, y)), area.at((x + across, y))))
        yield from along((area.at((x, y - up)), area.at((x, y + up))))


def _error(errors: tuple[float, ...], index: int) -> float:
    return errors[index] if index < len(errors) else 0.0
