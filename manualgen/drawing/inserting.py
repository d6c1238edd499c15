"""What dips into a vessel: how deep, and how far beside what dips in already."""

from __future__ import annotations

from typing import Final

from manualgen.drawing.contents import heap_of, liquid_level, width_at
from manualgen.drawing.geometry import Box, box_of, shift
from manualgen.drawing.parts import Arrangement
from manualgen.drawing.shape import Mouth, Shape

APART_MM: Final = 1.6
"""Between an insert and what is beside it."""
FOLLOWER_MM: Final = 3.0
"""From the middle to the end of a magnetic follower."""
LIT_MM: Final = 4.0
"""How far into a mouth a lit splint is held."""


def depth_in(vessel: Shape) -> float:
    """How far down the end of a thermometer or a rod goes."""
    cavity = box_of(vessel.cavity)
    level, heap = liquid_level(vessel), heap_of(vessel)
    if level is not None:
        floor = heap.top - 0.4 if heap else cavity.bottom
        return min(level + 0.68 * (cavity.bottom - level), max(level + 2, floor))
    if heap is not None:
        return heap.bottom - 0.2 * heap.height
    return cavity.bottom - 0.14 * cavity.height


def depth_of(piece: Shape, vessel: Shape) -> float:
    """How far down the end of a piece goes; a lit splint is held at the mouth."""
    if "lit" in piece.others:
        return box_of(vessel.cavity).top + LIT_MM
    return depth_in(vessel)


def insert(layout: Arrangement, piece: int, vessel: int) -> None:
    """A piece that stands by itself, or nowhere yet, dips into a vessel."""
    holder, shape = layout.shape(vessel), layout.shape(piece)
    cavity = box_of(holder.cavity)
    middle = (cavity.left + cavity.right) / 2
    end = (middle, depth_of(shape, holder))
    placed = shape.to(shape.tip or shape.base, end)
    del layout.group(piece).shapes[piece]
    layout.group(vessel).shapes[piece] = placed
    layout.group_of[piece] = layout.groups.index(layout.group(vessel))
    layout.inside[piece] = vessel
    layout.inserts.setdefault(vessel, []).append(piece)
    set_inserts_apart(layout, vessel)


def set_inserts_apart(layout: Arrangement, vessel: int) -> None:
    """Inserts side by side, clear of what stands, drips or turns in the middle."""
    inserts = layout.inserts.get(vessel, [])
    holder = layout.shape(vessel)
    left, right = width_at(holder.cavity, depth_in(holder))
    room = min(right - left, holder.mouth.width if holder.mouth else right - left)
    middle, boxes = (left + right) / 2, [layout.shape(i).box for i in inserts]
    taken = _taken(layout, vessel)
    if taken:
        reach = max(abs(edge - middle) for edge in taken)
        places = [_beside(box, reach, n, room) for n, box in enumerate(boxes)]
    else:
        places = _spread(boxes, room)
    for piece, box, place in zip(inserts, boxes, places, strict=True):
        shape = layout.shape(piece)
        off = 0.0
        if len(inserts) == 1 and not taken and shape.tip:
            off = (box.left + box.right) / 2 - shape.tip[0]
        by = shift(middle + place + off - (box.left + box.right) / 2, 0)
        layout.group(piece).shapes[piece] = shape.moved(by)


def _spread(boxes: list[Box], room: float) -> list[float]:
    """The middles of several inserts with the same gap between all, from the middle."""
    free = room - sum(box.width for box in boxes)
    gap = max(APART_MM, free / (len(boxes) + 1))
    total = sum(box.width for box in boxes) + gap * (len(boxes) - 1)
    places: list[float] = []
    at = -total / 2
    for box in boxes:
        places.append(at + box.width / 2)
        at += box.width + gap
    return places


def _beside(box: Box, reach: float, number: int, room: float) -> float:
    """The middle of an insert beside what reaches so far: right, left and so on."""
    place = (reach + APART_MM + box.width / 2) * (1 + number // 2 * 0.5)
    most = max(0.0, room / 2 - box.width / 2 - APART_MM / 2)
    away = min(place, max(most, reach + box.width / 2))
    return -away if number % 2 else away


def _taken(layout: Arrangement, vessel: int) -> list[float]:
    """The edges of what stands, drips or turns in the middle of a vessel."""
    holder, mouth = layout.shape(vessel), layout.shape(vessel).mouth
    box = box_of(holder.cavity)
    middle = (box.left + box.right) / 2
    edges: list[float] = []
    if vessel in layout.stirred:
        edges += [middle - FOLLOWER_MM, middle + FOLLOWER_MM]
    for index, shape in layout.group(vessel).shapes.items():
        if index == vessel or index in layout.inserts.get(vessel, []):
            continue
        if layout.inside.get(index) == vessel:
            edges += [shape.box.left, shape.box.right]
        elif mouth and _drips_into(shape, mouth) and index not in layout.inside:
            edges += [shape.tip[0] - 2, shape.tip[0] + 2] if shape.tip else []
    return edges


def _drips_into(shape: Shape, mouth: Mouth) -> bool:
    """Whether a piece hangs over a mouth, its tip in it."""
    if shape.tip is None or shape.box.top >= mouth.at[1]:
        return False
    return abs(shape.tip[0] - mouth.at[0]) < mouth.width / 2
