"""Stands and their clamps, and blocks under what would stand on air."""

from __future__ import annotations

from typing import Final

from manualgen.drawing.apparatus.holding import block_under, post_under, stand_beside
from manualgen.drawing.geometry import Box, Point
from manualgen.drawing.parts import Arrangement, Group, Way
from manualgen.drawing.shape import Shape

HELD_MM: Final = 18.0
"""Between the bench and what only a clamp holds."""
ARM_MM: Final = 13.0
"""The least length of a clamp's arm."""
CLEAR_MM: Final = 6.0
"""From a pole to what stands lower than its clamp."""

LEVEL: Final = (
    "gas syringe",
    "drying tube",
    "hard-glass tube",
    "rubber tubing",
    "filter pump",
)
"""What lies level, at the height of the tube that leads to it."""


def hold(layout: Arrangement) -> None:
    """Stands beside what they hold; one stand for all that is in one group."""
    clamped: dict[int, list[int]] = {}
    first: dict[int, int] = {}
    for held, stand in layout.held:
        if layout.parts[held].name in LEVEL:
            layout.add(stand, post_under(_grip_of(layout, held), 0.0), held)
            continue
        number = layout.groups.index(layout.group(held))
        if number in first:
            layout.same[stand] = first[number]
        else:
            _lift(layout, held)
            first[number] = stand
        clamped.setdefault(number, []).append(held)
    for number, stand in first.items():
        layout.add(stand, _stand_for(layout, clamped[number]), clamped[number][0])


def _stand_for(layout: Arrangement, clamped: list[int]) -> Shape:
    """A stand at the left; at the right of what a tube leads to from the left."""
    group = layout.group(clamped[0])
    grips = [_grip_of(layout, held) for held in clamped]
    highest = min(y for _, y in grips)
    lower = [s.box for s in group.shapes.values() if s.box.bottom > highest]
    if not _is_led_to(layout, group):
        poles = [x - ARM_MM for x, _ in grips] + [b.left - CLEAR_MM for b in lower]
        return stand_beside(tuple(grips), min(poles), 0.0)
    opposite = tuple(
        (2 * layout.shape(held).base[0] - x, y)
        for held, (x, y) in zip(clamped, grips, strict=True)
    )
    poles = [x + ARM_MM for x, _ in opposite] + [b.right + CLEAR_MM for b in lower]
    return stand_beside(opposite, max(poles), 0.0)


def _is_led_to(layout: Arrangement, group: Group) -> bool:
    """Whether a tube comes to a group, and none goes on from it."""
    tubes = [c for c in layout.connections if c.way is Way.TUBE]
    comes = any(layout.group(c.target) is group for c in tubes)
    return comes and not any(layout.group(c.source) is group for c in tubes)


def _grip_of(layout: Arrangement, held: int) -> Point:
    shape = layout.shape(held)
    return shape.grip or (shape.box.left, shape.box.top + shape.box.height * 0.3)


def _lift(layout: Arrangement, held: int) -> None:
    """What only a clamp holds is lifted off the bench."""
    group, shape = layout.group(held), layout.shape(held)
    lowest = group.box.bottom - shape.box.bottom < 0.5
    if shape.box.bottom > -1 and lowest:
        group.move(0, -HELD_MM)


def prop_up(layout: Arrangement) -> None:
    """A block under each piece that would stand on air."""
    held = {piece for piece, _ in layout.held}
    for group in layout.groups:
        for index, shape in list(group.shapes.items()):
            if index not in held and _stands_on_air(group, shape):
                block = block_under(shape.base[0], shape.box.bottom, 0.0)
                group.fittings.extend(block.strokes)


def _stands_on_air(group: Group, shape: Shape) -> bool:
    if shape.tip or shape.joint or shape.inlet or shape.box.bottom > -2:
        return False
    box = shape.box
    below = Box(box.left, box.bottom - 0.5, box.right, 0)
    return not any(s.box.meets(below) for s in group.shapes.values() if s is not shape)
