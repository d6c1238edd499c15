"""What stands in a drawn vessel: liquids at their level, solids on the floor."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final

from manualgen.drawing.geometry import (
    Box,
    Point,
    Points,
    area,
    below,
    box_of,
    crossings,
    level_of,
)
from manualgen.drawing.shape import Shape, Stroke, Style

FULL: Final = 0.85
"""The part of a vessel's inside that its capacity fills."""
LEAST: Final = 0.15
MOST: Final = 0.82
UNKNOWN: Final = 0.34


class Kind(StrEnum):
    """What a content looks like."""

    LIQUID = "liquid"
    SOLID = "solid"
    ICE = "ice"
    GAS = "gas"


@dataclass(frozen=True, slots=True)
class Content:
    """Something in a vessel: how it is labelled, and how much there is of it."""

    label: str
    kind: Kind
    volume_cm3: float | None = None


def filled(
    shape: Shape,
    contents: tuple[Content, ...],
    capacity_cm3: float | None,
    usual: float = UNKNOWN,
) -> Shape:
    """A vessel with its contents drawn behind its outline.

    ``usual`` is the part of its inside that is full where no volume is given.
    """
    if not shape.cavity:
        return shape
    liquids = [c for c in contents if c.kind in (Kind.LIQUID, Kind.ICE)]
    drains = shape.tip is not None and all(c.kind is Kind.ICE for c in liquids)
    inside: list[Stroke] = []
    level: float | None = None
    if liquids and not drains:
        level = _level(shape, contents, capacity_cm3, usual)
        inside.extend(_liquid(shape.cavity, level))
        if "layers" in shape.others:
            count = sum(c.kind is Kind.LIQUID for c in liquids)
            inside.extend(_interfaces(shape.cavity, level, count))
    if any(c.kind is Kind.SOLID for c in contents):
        inside.extend(_grains(shape.cavity, level, "packed" in shape.others))
    if any(c.kind is Kind.ICE for c in contents):
        inside.extend(_ice(shape.cavity, level))
    return replace(shape, strokes=(*inside, *shape.strokes))


def _level(
    shape: Shape, contents: tuple[Content, ...], capacity: float | None, usual: float
) -> float:
    """The height of a liquid's surface; a piece with a mark is full to its mark."""
    mark = shape.others.get("mark")
    full = FULL
    if mark is not None:
        if shape.tip is not None:
            return mark[1]
        full = area(below(shape.cavity, mark[1])) / area(shape.cavity)
    if shape.tip is not None and shape.mouth is not None:
        return level_of(shape.cavity, MOST)
    volumes = [c.volume_cm3 for c in contents if c.volume_cm3]
    if not volumes or not capacity:
        return level_of(shape.cavity, usual)
    part = full * sum(volumes) / capacity
    return level_of(shape.cavity, min(max(MOST, full), max(LEAST, part)))


def _interfaces(cavity: Points, level: float, count: int) -> Iterator[Stroke]:
    """The surfaces between layers of liquids, all of the same volume."""
    filled_part = area(below(cavity, level)) / area(cavity)
    for layer in range(1, count):
        yield from _surface(cavity, level_of(cavity, filled_part * layer / count))


def _liquid(cavity: Points, level: float) -> Iterator[Stroke]:
    yield Stroke(below(cavity, level), Style.LIQUID, closed=True)
    yield from _surface(cavity, level)


def _surface(cavity: Points, level: float) -> Iterator[Stroke]:
    for left, right in spans_at(cavity, level):
        yield Stroke(((left, level), (right, level)), Style.SURFACE)
    for row, reach in ((1, 0.6), (2, 0.32)):
        y = level + 1.3 * row
        for near, far in spans_at(cavity, y) if y < box_of(cavity).bottom - 1 else ():
            middle, half = (near + far) / 2, (far - near) / 2 * reach
            yield Stroke(((middle - half, y), (middle + half, y)), Style.THIN)


def width_at(cavity: Points, y: float) -> Point:
    """The left and right wall of an inside at a height."""
    spans = spans_at(cavity, y)
    return spans[0][0], spans[-1][1]


def spans_at(cavity: Points, y: float) -> list[Point]:
    """From wall to wall at a height; a U-tube has two such spans."""
    y = min(max(y, box_of(cavity).top + 0.01), box_of(cavity).bottom - 0.01)
    walls = sorted(crossings((*cavity, cavity[0]), y))
    return list(zip(walls[::2], walls[1::2], strict=True))


_LUMP: Final[Points] = ((-0.9, 0.0), (-0.6, -1.1), (0.2, -1.4), (0.9, -0.7), (0.8, 0.0))
_CUBE: Final[Points] = ((-2.0, -0.2), (-1.7, -3.8), (2.0, -4.0), (1.8, 0.0))
LUMPS: Final = 13
DROWNED_LUMPS: Final = 9
CUBES: Final = 9
WIDEST_ROW: Final = 7
HEAP_PART: Final = 0.45
"""The most of a vessel's height that a solid lies in."""


def _grains(cavity: Points, level: float | None, packed: bool) -> Iterator[Stroke]:
    """Lumps that lie on the floor; in a packing they fill the whole inside."""
    box = box_of(cavity)
    top = box.top if packed else box.bottom - HEAP_PART * box.height
    if level is not None:
        top = max(top, level + 1.6)
    most = 1000 if packed else LUMPS if level is None else DROWNED_LUMPS
    yield from (_lump(_LUMP, place) for place in _heap(cavity, 2.0, most, top))


def _lump(form: Points, place: Point) -> Stroke:
    x, y = place
    flip = -1 if round(x + y) % 2 else 1
    points = tuple((x + flip * px, y + py) for px, py in form)
    return Stroke(points, Style.GRAIN, closed=True)


def _heap(cavity: Points, pitch: float, most: int, top: float) -> Iterator[Point]:
    """Where lumps lie that were poured in: row on row, narrower where no wall is."""
    box = box_of(cavity)
    y, left_over = box.bottom - 0.4, most
    widest = WIDEST_ROW if most < 1000 else most
    while left_over > 0 and y > box.top:
        if left_over < most and y - 0.7 * pitch < top:
            return
        left, right = width_at(cavity, y - 0.3)
        room = int((right - left - 0.6) / pitch)
        count = min(room, left_over, widest)
        for i in range(count):
            yield (left + right) / 2 + (i - (count - 1) / 2) * pitch, y
        if room and count <= 0:
            return
        left_over -= count
        widest = 1000 if count == room else count - 1
        y -= 0.72 * pitch if count else 0.4


def _ice(cavity: Points, level: float | None) -> Iterator[Stroke]:
    """Lumps of ice along the surface; in a heap where their water drains away."""
    if level is None:
        top = box_of(cavity).top
        yield from (_lump(_CUBE, place) for place in _heap(cavity, 4.6, CUBES, top))
        return
    left, right = width_at(cavity, level)
    count = int((right - left - 1.5) / 6.2)
    for i in range(count):
        x = (left + right) / 2 + (i - (count - 1) / 2) * 6.2
        yield _lump(_CUBE, (x, level + (2.6 if i % 2 else 3.2)))


def liquid_level(shape: Shape) -> float | None:
    """The height of the liquid's surface in a filled vessel."""
    surface = next((s for s in shape.strokes if s.style is Style.SURFACE), None)
    return surface.points[0][1] if surface else None


def heap_of(shape: Shape) -> Box | None:
    """What the lumps of a solid take up in a filled vessel."""
    lumps = [p for s in shape.strokes if s.style is Style.GRAIN for p in s.points]
    return box_of(lumps) if lumps else None


def holds(shape: Shape) -> bool:
    """Whether something can stand in a piece."""
    return bool(shape.cavity) and area(shape.cavity) > 0
