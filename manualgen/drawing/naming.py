"""What a vessel holds, as it is labelled: each kind at the place where it lies."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from manualgen.drawing.contents import Content, Kind, heap_of, width_at
from manualgen.drawing.geometry import Point, Points, box_of
from manualgen.drawing.labels import Named
from manualgen.drawing.shape import Shape, Style

HEIGHTS: Final = (0.5, 0.65, 0.35, 0.8, 0.2)
"""Where on a piece a label's line may end, as parts of its height."""


def contents_named(contents: tuple[Content, ...], shape: Shape) -> Iterator[Named]:
    """The liquids, solids and gases in a vessel, each with the places it is in."""
    own = (*shape.strokes, *shape.over)
    liquids = [c for c in contents if c.kind is Kind.LIQUID]
    layers = _layers(shape)
    if len(layers) > 1:
        for content, (top, bottom) in zip(liquids, layers, strict=True):
            yield Named(content.label, _anchors(shape, top, bottom), own)
    elif liquids:
        yield Named(_words(liquids), _in_liquid(shape), own)
    for kind, anchors in (
        (Kind.SOLID, _in_heap),
        (Kind.ICE, _in_heap),
        (Kind.GAS, _in_gas),
    ):
        these = [c for c in contents if c.kind is kind]
        if _words(these):
            yield Named(_words(these), anchors(shape), own)


def _words(contents: list[Content]) -> str:
    return ", ".join(c.label for c in contents if c.label)


def _layers(shape: Shape) -> list[tuple[float, float]]:
    """The top and the bottom of each liquid that lies on another."""
    surfaces = {s.points[0][1] for s in shape.strokes if s.style is Style.SURFACE}
    return list(pairwise((*sorted(surfaces), box_of(shape.cavity).bottom)))


def _in_liquid(shape: Shape) -> Points:
    liquid = [p for s in shape.strokes if s.style is Style.LIQUID for p in s.points]
    box = box_of(liquid or shape.cavity)
    heap = heap_of(shape)
    bottom = (
        min(box.bottom, heap.top) if heap and heap.top > box.top + 1.5 else box.bottom
    )
    return _anchors(shape, box.top, bottom)


def _anchors(shape: Shape, top: float, bottom: float) -> Points:
    """Places near either wall, between two heights."""
    places: list[Point] = []
    for part in HEIGHTS:
        y = top + (bottom - top) * part
        left, right = width_at(shape.cavity, y)
        inset = min(2.5, (right - left) * 0.25)
        places += [(right - inset, y), (left + inset, y)]
    return tuple(places)


def _in_heap(shape: Shape) -> Points:
    """Places on the outer lumps of a heap."""
    lumps = [box_of(s.points) for s in shape.strokes if s.style is Style.GRAIN]
    if not lumps:
        return _in_gas(shape)
    places = sorted(((b.left + b.right) / 2, (b.top + b.bottom) / 2) for b in lumps)
    return places[-1], places[0], places[len(places) // 2], min(places, key=_height)


def _height(place: Point) -> float:
    return place[1]


def _in_gas(shape: Shape) -> Points:
    """Places over whatever else the vessel holds."""
    box = box_of(shape.cavity)
    inside = (Style.LIQUID, Style.GRAIN)
    tops = [p[1] for s in shape.strokes if s.style in inside for p in s.points]
    return _anchors(shape, box.top, min(tops, default=box.bottom))
