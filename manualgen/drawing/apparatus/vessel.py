"""Vessels as half a section, turned into a whole one.

A vessel is given by its right half: corners from the rim down to the middle of
its floor.  The left half is its mirror image, and the inside is what can hold
something.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from manualgen.drawing.geometry import Corner, Point, Points, mirrored, rounded
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

TUBE_MM: Final = 1.05
"""From the middle of a tube, or of an arm that takes one, to its wall."""


RIM_MM: Final = 2.2
"""How far down a rim's flare reaches at most."""


def vessel(half: Points, *, grip: float, label: float = 0.45, inside: int = 1) -> Shape:
    """An open vessel from its right half, rim first, floor last.

    ``grip`` and ``label`` say at which part of the height it is held and
    pointed at; ``inside`` is the index of the point where the bore begins,
    below the flare of the rim.
    """
    left = tuple(mirrored(p) for p in reversed(half))
    outline = (*half, *left)
    height = -half[0][1]
    neck = min((p for p in half if p[1] < half[0][1] + RIM_MM), key=_across)
    rim = Mouth(
        (0.0, half[0][1]),
        2 * neck[0],
        (half[0][0] - neck[0], neck[1] - half[0][1]),
    )
    cavity = (*half[inside:], *left[: len(left) - inside])
    return Shape(
        (Stroke(outline),),
        label=wall_at(half, -label * height),
        mouth=rim,
        grip=mirrored(wall_at(half, -grip * height)),
        cavity=cavity,
        flame=(0.0, 0.0),
    )


def _across(point: Point) -> float:
    return round(point[0], 6)


def wall_at(half: Points, y: float) -> Point:
    """The point of the right wall at a height."""
    for a, b in itertools.pairwise(half):
        if min(a[1], b[1]) <= y <= max(a[1], b[1]) and a[1] != b[1]:
            part = (y - a[1]) / (b[1] - a[1])
            return a[0] + (b[0] - a[0]) * part, y
    return half[-1]


def flared(
    width: float, height: float, corners: Sequence[Corner], lip: float
) -> Points:
    """A right half whose rim flares a little outwards."""
    rim = ((width + lip, -height, 0.0), (width, -height + 1.2 * lip, 0.6 * lip))
    return rounded((*rim, *corners))


def line(*points: Point, style: Style = Style.LINE) -> Stroke:
    """An open line."""
    return Stroke(points, style)


def closed(*points: Point, style: Style = Style.BODY) -> Stroke:
    """A closed line."""
    return Stroke(points, style, closed=True)


def slab(
    half_width: float, top: float, bottom: float, style: Style = Style.BODY
) -> Stroke:
    """A closed rectangle about the upright through the origin."""
    return closed(
        (-half_width, top),
        (half_width, top),
        (half_width, bottom),
        (-half_width, bottom),
        style=style,
    )


def side_arm(wall: float, y: float, reach: float) -> tuple[Stroke, ...]:
    """An arm out of an upright wall, which is open behind it; left if ``reach`` is."""
    end, inner = wall + reach, wall - (0.3 if reach > 0 else -0.3)
    upper, lower = y - TUBE_MM, y + TUBE_MM
    opening = closed(
        (inner, upper), (end, upper), (end, lower), (inner, lower), style=Style.HOLLOW
    )
    return (
        opening,
        line((wall, upper), (end, upper)),
        line((wall, lower), (end, lower)),
    )


def graduated(shape: Shape, x: float, top: float, bottom: float, marks: int) -> Shape:
    """The piece with marks on its right wall, every fifth a long one."""
    pitch = (bottom - top) / marks
    ticks = tuple(
        line(
            (x, top + i * pitch),
            (x - (2.0 if i % 5 else 3.2), top + i * pitch),
            style=Style.THIN,
        )
        for i in range(marks + 1)
    )
    return replace(shape, over=(*shape.over, *ticks))


def with_strokes(shape: Shape, *strokes: Stroke) -> Shape:
    """The piece with further lines."""
    return replace(shape, strokes=(*shape.strokes, *strokes))
