"""A drawing of apparatus: arranged, labelled, and written as SVG."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain
from typing import Final, TypeAlias

from manualgen.drawing import svg
from manualgen.drawing.apparatus.holding import BUNG_REACH_MM
from manualgen.drawing.arrange import arrange
from manualgen.drawing.circuits import lay_leads
from manualgen.drawing.geometry import (
    Box,
    Point,
    Points,
    above,
    box_of,
    crossings,
    scaled,
)
from manualgen.drawing.labels import LONGEST, Align, Label, Named, place_labels
from manualgen.drawing.naming import HEIGHTS, contents_named
from manualgen.drawing.parts import Arrangement, Group, Part, Way
from manualgen.drawing.shape import Shape, Stroke, Style
from manualgen.drawing.tubing import Run, lay_runs

Ports: TypeAlias = tuple[tuple[str, str], ...]

WIDEST_MM: Final = 148.0
TALLEST_MM: Final = 104.0
SMALLEST: Final = 0.42
ROOMY: Final = 0.9
"""A drawing at no less than this scale keeps its labels as they are."""
SHORTER: Final = 8.0
"""The longest line of a label where room is short, in sizes of its letters."""
WITHOUT_INK: Final = (Style.HOLLOW, Style.LIQUID)
KEPT: Final = 256
"""Finished drawings that are kept: every edition of a manual shows the same."""
UNLABELLED: Final = ("bung", "lead")


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished drawing, before it is written."""

    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]
    box: Box
    """Around the drawing and its labels."""
    layout: Arrangement
    runs: tuple[Run, ...]
    size_mm: float
    """Of its letters, before it is scaled."""


@lru_cache(maxsize=KEPT)
def draw_setup(
    parts: tuple[Part, ...],
    description: str,
    size_mm: float = 3.1,
    ports: Ports = (),
) -> str:
    """The SVG of an arrangement, no wider than a page's column.

    ``ports`` are places of pieces that want a label of their own, such as where
    water goes into a condenser, each with its words.
    """
    drawing, scale = _fitted(parts, size_mm, ports)
    left, top, right, bottom = (
        edge * scale for edge in (*drawing.box.corners[0], *drawing.box.corners[2])
    )
    return svg.figure(
        right - left,
        bottom - top,
        description,
        chain(_lines(drawing, scale), _lettering(drawing, scale)),
        view=(left, top, right - left, bottom - top),
    )


@dataclass(frozen=True, slots=True)
class _Laid:
    """Everything but the labels, in its place."""

    layout: Arrangement
    runs: tuple[Run, ...]
    strokes: tuple[Stroke, ...]
    named: tuple[Named, ...]

    def labelled(self, size_mm: float, longest: float = LONGEST) -> Drawing:
        """With labels of this size."""
        around = box = box_of(p for s in self.strokes for p in s.points)
        inked = [s for s in self.strokes if s.style not in WITHOUT_INK]
        labels = place_labels(self.named, inked, around, size_mm, longest)
        for label in labels:
            box = box.around(label.box)
        return Drawing(
            self.strokes, labels, box.wider(1), self.layout, self.runs, size_mm
        )


def _fitted(
    parts: tuple[Part, ...], size_mm: float, ports: Ports
) -> tuple[Drawing, float]:
    """The drawing at the largest scale that fits, its letters no smaller for that.

    Where it has to be made smaller, labels of shorter lines may leave it more room.
    """
    laid = _lay(parts, ports)
    drawing, scale = _to_scale(laid, size_mm, LONGEST)
    if scale < ROOMY:
        closer, larger = _to_scale(laid, size_mm, SHORTER)
        if larger > scale * 1.02:
            return closer, larger
    return drawing, scale


def _to_scale(laid: _Laid, size_mm: float, longest: float) -> tuple[Drawing, float]:
    drawing, scale = laid.labelled(size_mm, longest), 1.0
    for _ in range(12):
        fits = _scale_for(drawing.box)
        if fits >= scale * 0.995:
            break
        scale = max(fits, SMALLEST)
        drawing = laid.labelled(size_mm / scale, longest)
    return drawing, _scale_for(drawing.box)


def _scale_for(box: Box) -> float:
    return min(1.0, WIDEST_MM / box.width, TALLEST_MM / box.height)


def compose(parts: tuple[Part, ...], size_mm: float, ports: Ports = ()) -> Drawing:
    """Everything in its place, at its full size."""
    return _lay(parts, ports).labelled(size_mm)


def _lay(parts: tuple[Part, ...], ports: Ports) -> _Laid:
    layout = arrange(parts)
    runs = (*lay_runs(layout), *lay_leads(layout))
    named = (*_named(layout, runs), *_ports(layout, ports))
    return _Laid(layout, runs, tuple(_in_order(layout, runs)), named)


def _in_order(layout: Arrangement, runs: tuple[Run, ...]) -> Iterator[Stroke]:
    """What is behind first: vessels, what is in them, bungs, and what goes through."""
    tubes = [run for run in runs if run.connection.way is Way.TUBE]
    for group in layout.groups:
        yield from _standing(layout, group)
    yield from (stroke for run in runs if run not in tubes for stroke in run.strokes)
    for group in layout.groups:
        yield from group.fittings
        yield from _going_through(layout, group)
    yield from (stroke for run in tubes for stroke in run.strokes)


def _standing(layout: Arrangement, group: Group) -> Iterator[Stroke]:
    for index, shape in _from_behind(layout, group):
        if index not in layout.through:
            yield from _drawn(layout, index, shape)


def _going_through(layout: Arrangement, group: Group) -> Iterator[Stroke]:
    """What goes through the bungs of a group, drawn over them."""
    for index, shape in _from_behind(layout, group):
        if index in layout.through:
            yield from _bore(layout, index, shape)
            yield from _drawn(layout, index, shape)


def _drawn(layout: Arrangement, index: int, shape: Shape) -> Iterator[Stroke]:
    """One piece; the inside of a vessel hides what is behind it."""
    if shape.cavity and (shape.tip is None or layout.depth(index)):
        yield Stroke(shape.cavity, Style.HOLLOW, closed=True)
    yield from shape.strokes
    yield from shape.over


def _bore(layout: Arrangement, index: int, shape: Shape) -> Iterator[Stroke]:
    """The hole of a bung, as far as the piece that goes through it is hollow."""
    mouth = layout.shape(layout.through[index]).mouth
    if shape.outline and mouth:
        bore = above(shape.outline, mouth.at[1] + BUNG_REACH_MM + 0.3)
        yield Stroke(bore, Style.HOLLOW, closed=True)


def _from_behind(layout: Arrangement, group: Group) -> list[tuple[int, Shape]]:
    """Supports, vessels from the lowest up, then what is in them, and clamps in front."""
    stands = {layout.same.get(stand, stand) for _, stand in layout.held}

    def key(item: tuple[int, Shape]) -> tuple[bool, int, bool, bool, float]:
        index, shape = item
        dips, height = shape.tip is not None, -shape.box.bottom
        is_vessel = bool(shape.cavity)
        return index in stands, layout.depth(index), dips, is_vessel, height

    return sorted(group.shapes.items(), key=key)


def _named(layout: Arrangement, runs: tuple[Run, ...]) -> Iterator[Named]:
    """What is to be labelled: pieces, what is in them, tubes."""
    said: set[str] = set()
    for index, part in enumerate(layout.parts):
        if index in layout.same:
            continue
        shape = layout.shape(index)
        own = (*shape.strokes, *shape.over)
        if part.label and part.label not in said and part.name not in UNLABELLED:
            said.add(part.label)
            yield Named(part.label, _wall_anchors(shape), own)
        if shape.cavity:
            yield from contents_named(part.contents, shape)
    for run in runs:
        name = run.connection.label
        if run.connection.way is not Way.LEAD and name not in said:
            said.add(name)
            yield Named(name, _run_anchors(run.points), run.strokes)


def _ports(layout: Arrangement, ports: Ports) -> Iterator[Named]:
    for group in layout.groups:
        for shape in group.shapes.values():
            for place, words in ports:
                if place in shape.others:
                    yield Named(words, (shape.others[place],), shape.strokes)


def _wall_anchors(shape: Shape) -> Points:
    """The best place, then both edges of the piece at several heights."""
    box = shape.box
    anchors: list[Point] = [shape.label]
    for part in HEIGHTS:
        y = box.top + box.height * part
        walls = sorted(_crossing_xs(shape, y))
        if walls:
            anchors += [(walls[0], y), (walls[-1], y)]
    return tuple(anchors)


def _crossing_xs(shape: Shape, y: float) -> Iterator[float]:
    drawn = (Style.LINE, Style.BODY, Style.SHADE)
    for stroke in shape.strokes:
        if stroke.style in drawn:
            yield from crossings(stroke.course, y)


def _run_anchors(points: Points) -> Points:
    """Places along a tube, the middle first."""
    middle = len(points) // 2
    order = sorted(range(1, len(points) - 1), key=lambda i: abs(i - middle)) or [0]
    return tuple(points[i] for i in order[:9])


def _lines(drawing: Drawing, scale: float) -> Iterator[str]:
    """What is drawn, at the scale of the page; lines keep their weight."""
    to_scale = scaled(scale)
    for stroke in drawing.strokes:
        end = "Z" if stroke.closed else ""
        yield svg.path(
            svg.polyline(map(to_scale, stroke.points)) + end, stroke.style.value
        )


def _lettering(drawing: Drawing, scale: float) -> Iterator[str]:
    to_scale = scaled(scale)
    for label in drawing.labels:
        yield svg.path(svg.polyline(map(to_scale, label.leader)), "leader")
        line_height = label.box.height / len(label.lines)
        x = {
            Align.LEFT_OF: label.box.right,
            Align.RIGHT_OF: label.box.left,
            Align.NEAR: (label.box.left + label.box.right) / 2,
        }[label.align]
        for number, words in enumerate(label.lines):
            y = label.box.top + line_height * (number + 0.76)
            letters = svg.Letters(
                to_scale((x, y)), drawing.size_mm * scale, label.align.value
            )
            yield svg.text(letters, words)
