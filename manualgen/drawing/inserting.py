"""What dips into a vessel: how deep, and how far beside what dips in already."""

from __future__ import annotations

from typing import Final

from manualgen.drawing.contents import heap_of, liquid_level, width_at
from manualgen.drawing.geometry import box_of, shift
from manualgen.drawing.parts import Arrangement
from manualgen.drawing.shape import Shape

SIDE: Final = 0.42
"""From one insert to the next, as a part of the room between the walls."""
OFF_MIDDLE: Final = 0.28
"""From the middle, where something drips or turns, to an insert."""


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


def insert(layout: Arrangement, piece: int, vessel: int) -> None:
    """A piece that stands by itself, or nowhere yet, dips into a vessel."""
    holder, shape = layout.shape(vessel), layout.shape(piece)
    cavity = box_of(holder.cavity)
    middle = (cavity.left + cavity.right) / 2
    placed = shape.to(shape.tip or shape.base, (middle, depth_in(holder)))
    del layout.group(piece).shapes[piece]
    layout.group(vessel).shapes[piece] = placed
    layout.group_of[piece] = layout.groups.index(layout.group(vessel))
    layout.inside[piece] = vessel
    layout.inserts.setdefault(vessel, []).append(piece)
    set_inserts_apart(layout, vessel)


def set_inserts_apart(layout: Arrangement, vessel: int) -> None:
    """Inserts side by side, clear of what drips in or turns in the middle."""
    inserts = layout.inserts.get(vessel, [])
    holder = layout.shape(vessel)
    cavity = box_of(holder.cavity)
    left, right = width_at(holder.cavity, depth_in(holder))
    room = min(right - left, holder.mouth.width if holder.mouth else right - left)
    middle = (cavity.left + cavity.right) / 2
    for offset, piece in zip(
        _offsets(len(inserts), is_middle_taken(layout, vessel)), inserts, strict=True
    ):
        shape = layout.shape(piece)
        at = (shape.tip or shape.base)[0]
        moved = shape.moved(shift(middle + offset * room - at, 0))
        layout.group(piece).shapes[piece] = moved


def _offsets(count: int, middle_taken: bool) -> list[float]:
    """How far off the middle each of several inserts is, as parts of the room."""
    if middle_taken:
        return [OFF_MIDDLE * (-1) ** i * (1 + i // 2 * 0.4) for i in range(count)]
    return [(i - (count - 1) / 2) * SIDE for i in range(count)]


def is_middle_taken(layout: Arrangement, vessel: int) -> bool:
    """Whether a follower turns in a vessel, or a tip ends over its middle."""
    if vessel in layout.stirred:
        return True
    mouth = layout.shape(vessel).mouth
    inserts = layout.inserts.get(vessel, [])
    return mouth is not None and any(
        shape.tip
        and index not in inserts
        and layout.inside.get(index) is None
        and abs(shape.tip[0] - mouth.at[0]) < mouth.width / 2
        and shape.box.top < mouth.at[1]
        for index, shape in layout.group(vessel).shapes.items()
        if index != vessel
    )
