"""What stands in a drawn vessel: liquids at their level, solids on the floor."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final

from manualgen.drawing.geometry import Point, Points, area, below, box_of, level_of
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
    inside: list[Stroke] = []
    level: float | None = None
    if any(c.kind in (Kind.LIQUID, Kind.ICE) for c in contents):
        level = level_of(shape.cavity, _part(shape, contents, capacity_cm3, usual))
        inside.extend(_liquid(shape.cavity, level))
    solids = [c for c in contents if c.kind is Kind.SOLID]
    if solids:
        inside.extend(_grains(shape.cavity, level, "packed" in shape.others))
    if level is not None and any(c.kind is Kind.ICE for c in contents):
        inside.extend(_ice(shape.cavity, level))
    return replace(shape, strokes=(*inside, *shape.strokes))


def _part(
    shape: Shape, contents: tuple[Content, ...], capacity: float | None, usual: float
) -> float:
    """The part of the inside below the liquid's level."""
    if shape.tip is not None and shape.mouth is not None:
        return MOST
    volumes = [c.volume_cm3 for c in contents if c.volume_cm3]
    if not volumes or not capacity:
        return usual
    return min(MOST, max(LEAST, FULL * sum(volumes) / capacity))


def _liquid(cavity: Points, level: float) -> Iterator[Stroke]:
    body = below(cavity, level)
    yield Stroke(body, Style.LIQUID, closed=True)
    left, right = width_at(cavity, level)
    yield Stroke(((left, level), (right, level)), Style.SURFACE)
    for row, reach in ((1, 0.6), (2, 0.32)):
        y = level + 1.3 * row
        if y < box_of(cavity).bottom - 1:
            near, far = width_at(cavity, y)
            middle, half = (near + far) / 2, (far - near) / 2 * reach
            yield Stroke(((middle - half, y), (middle + half, y)), Style.THIN)


def width_at(cavity: Points, y: float) -> Point:
    """The left and right wall of an inside at a height."""
    y = min(max(y, box_of(cavity).top + 0.01), box_of(cavity).bottom - 0.01)
    crossings = [
        a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1])
        for a, b in zip(cavity, (*cavity[1:], cavity[0]), strict=True)
        if (a[1] < y) != (b[1] < y)
    ]
    return min(crossings), max(crossings)


_LUMP: Final[Points] = ((-0.9, 0.0), (-0.6, -1.1), (0.2, -1.4), (0.9, -0.7), (0.8, 0.0))


def _grains(cavity: Points, level: float | None, packed: bool) -> Iterator[Stroke]:
    """Lumps that lie on the floor, in two rows where there is room; or a packing."""
    box = box_of(cavity)
    rows = int(box.height / 2.0) if packed else (2 if level is None else 1)
    for row in range(rows):
        y = box.bottom - 0.3 - row * 1.5
        left, right = width_at(cavity, min(y - 0.4, box.bottom - 0.6))
        room = right - left - 2.0 - (0 if packed else row * 2.4)
        count = min(11 if not packed else 14, int(room / 2.0))
        middle = (left + right) / 2
        for i in range(count):
            x = middle + (i - (count - 1) / 2) * 2.0
            flip = -1 if (i + row) % 2 else 1
            points = tuple((x + flip * px, y + py) for px, py in _LUMP)
            yield Stroke(points, Style.GRAIN, closed=True)


def _ice(cavity: Points, level: float) -> Iterator[Stroke]:
    """Lumps of ice along the surface, away from the middle."""
    left, right = width_at(cavity, level)
    places = [left + 4 + i * 6.5 for i in range(int((right - left - 6) / 6.5) + 1)]
    for i, x in enumerate(places):
        if x > right - 4:
            break
        y = level + (0.6 if i % 2 else 1.4)
        cube = (
            (x - 2, y - 2),
            (x + 1.6, y - 2.4),
            (x + 2, y + 1.4),
            (x - 1.6, y + 1.8),
        )
        yield Stroke(cube, Style.GRAIN, closed=True)


def liquid_level(shape: Shape) -> float | None:
    """The height of the liquid's surface in a filled vessel."""
    surface = next((s for s in shape.strokes if s.style is Style.SURFACE), None)
    return surface.points[0][1] if surface else None


def holds(shape: Shape) -> bool:
    """Whether something can stand in a piece."""
    return bool(shape.cavity) and area(shape.cavity) > 0
