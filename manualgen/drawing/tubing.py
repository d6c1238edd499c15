"""Delivery tubes and salt bridges between pieces that stand apart."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from manualgen.drawing.apparatus.vessel import TUBE_MM
from manualgen.drawing.arrange import RISE_MM
from manualgen.drawing.contents import liquid_level, width_at
from manualgen.drawing.geometry import Point, Points, beside, box_of, rounded
from manualgen.drawing.joining import bung_slot
from manualgen.drawing.parts import Arrangement, Connection, Way
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

BEND_MM: Final = 3.0
THROUGH_BUNG_MM: Final = 7.0
"""How far below the rim a tube ends that only lets gas out."""
DIP_MM: Final = 6.0


@dataclass(frozen=True, slots=True)
class Run:
    """A tube, a bridge or a lead as it is laid."""

    connection: Connection
    points: Points
    strokes: tuple[Stroke, ...]


def lay_runs(layout: Arrangement) -> tuple[Run, ...]:
    """All tubes and bridges as lines."""
    tubes = [c for c in layout.connections if c.way is Way.TUBE]
    bridges = [c for c in layout.connections if c.way is Way.BRIDGE]
    laid = [_tube(layout, c) for c in tubes] + [_bridge(layout, c) for c in bridges]
    return tuple(laid)


def _tube(layout: Arrangement, connection: Connection) -> Run:
    start = _way_out(layout, connection)
    end = _way_in(layout, connection, start)
    if len(start) == 2:
        start = (start[0], (start[0][0], end[0][1]))
    points = bent((*start, *end))
    return Run(connection, points, walls_of(points, Style.HOLLOW))


def walls_of(points: Points, inside: Style) -> tuple[Stroke, ...]:
    """A tube along a line: what is in its bore, and both its walls."""
    left, right = beside(points, TUBE_MM), beside(points, -TUBE_MM)
    bore = Stroke((*left, *reversed(right)), inside, closed=True)
    return bore, Stroke(left), Stroke(right)


def bent(points: Points) -> Points:
    """The corners turned, and points that lie on one straight line left out."""
    kept: list[Point] = []
    for point in points:
        if kept and point == kept[-1]:
            continue
        if len(kept) > 1 and _is_straight(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return rounded([(x, y, BEND_MM) for x, y in kept])


def _is_straight(a: Point, b: Point, c: Point) -> bool:
    return (a[0] == b[0] == c[0]) or (a[1] == b[1] == c[1])


def _way_out(layout: Arrangement, connection: Connection) -> Points:
    """Out of the source: up through its bung, or along its side arm."""
    source = layout.shape(connection.source)
    if source.outlet:
        return (source.outlet,)
    if source.mouth is None:
        top = (source.box.left + source.box.width / 2, source.box.top)
        return top, (top[0], top[1] - RISE_MM)
    slot = bung_slot(layout, connection.source, connection.target)
    x = source.mouth.at[0] + slot * source.mouth.width
    return (x, source.mouth.at[1] + THROUGH_BUNG_MM), (x, source.mouth.at[1] - RISE_MM)


def _way_in(layout: Arrangement, connection: Connection, start: Points) -> Points:
    """Into the target; the first point has the height of the level run."""
    target = layout.shape(connection.target)
    x, height = start[-1]
    if "rim" in target.others:
        return _under_water(layout, connection, target, start)
    if target.inlet:
        end = target.inlet
        if height == end[1]:
            return (end,)
        near = end[0] - 2 * BEND_MM
        return (near, height), (near, end[1]), end
    mouth = target.mouth or Mouth((target.box.left, target.box.top), 4)
    high = min(height, mouth.at[1] - RISE_MM * 0.7)
    slot = bung_slot(layout, connection.target, connection.target)
    into = mouth.at[0] + slot * mouth.width
    down = ((into, high), (into, _dip(target, mouth)))
    if len(start) == 1 and high != height:
        return (x + BEND_MM + 1, height), (x + BEND_MM + 1, high), *down
    return ((x, high), *down)


def _dip(vessel: Shape, mouth: Mouth) -> float:
    """How far down a tube goes: below the liquid if there is any."""
    level = liquid_level(vessel)
    floor = box_of(vessel.cavity).bottom if vessel.cavity else mouth.at[1] + 10
    if level is None:
        return min(mouth.at[1] + 12, floor - 4)
    return min(level + DIP_MM, floor - 2.5)


def _under_water(
    layout: Arrangement, connection: Connection, jar: Shape, start: Points
) -> Points:
    """Over the wall of the trough, along its floor and up into the jar."""
    x, rim = jar.others["rim"]
    trough = layout.shape(layout.inside[connection.target])
    out, height = start[-1]
    across = box_of(trough.cavity).left + 5
    low = rim + 3.4
    inside = ((across, low), (x, low), (x, rim - 4))
    high = min(height, trough.box.top - RISE_MM * 0.6)
    if len(start) == 1 and high != height:
        bend = out + BEND_MM + 1
        return (bend, height), (bend, high), (across, high), *inside
    return ((out, high), (across, high), *inside)


def _bridge(layout: Arrangement, connection: Connection) -> Run:
    ends: list[Point] = []
    for index, side in ((connection.source, 1), (connection.target, 0)):
        vessel = layout.shape(index)
        level = liquid_level(vessel) or vessel.box.top + 8
        walls = (
            width_at(vessel.cavity, level)
            if vessel.cavity
            else (vessel.box.left, vessel.box.right)
        )
        x = walls[1] - 4 if side else walls[0] + 4
        ends.append((x, min(level + 8, vessel.box.bottom - 3)))
    top = (
        min(layout.shape(i).box.top for i in (connection.source, connection.target)) - 4
    )
    (x0, y0), (x1, y1) = ends
    points = rounded([(x0, y0, 0), (x0, top, BEND_MM), (x1, top, BEND_MM), (x1, y1, 0)])
    soaked = walls_of(points, Style.SHADE)
    return Run(connection, points, soaked[:1])
