"""How one piece comes to lie against another, by the word between them.

Each rule is given the arrangement, the piece that is there already and the new
one, and puts the new one into its group.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Final

from manualgen.drawing.apparatus.catalogue import PIECES
from manualgen.drawing.apparatus.holding import bung
from manualgen.drawing.contents import (
    Content,
    Kind,
    filled,
    holds,
    liquid_level,
    width_at,
)
from manualgen.drawing.geometry import Point, box_of, upended
from manualgen.drawing.parts import Arrangement, Part
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

DRIP_MM: Final = 4.0
"""How far a tip reaches into the mouth below it."""
WIDE_MM: Final = 14.0
"""A mouth too wide for a funnel to rest in."""
CLEAR_MM: Final = 2.0
"""Between the floor of a bath and what stands in it."""
WATER: Final = Content("", Kind.LIQUID)
INVERTED_RIM_MM: Final = 7.0
"""Between the floor of a trough and the rim of a jar turned over in it."""


def shape_of(part: Part) -> Shape:
    """A piece with its contents, standing at the origin."""
    drawable = PIECES[part.name]
    capacity = part.capacity_cm3 or drawable.usual_cm3
    shape = drawable.of(part.capacity_cm3)
    return filled(shape, part.contents, capacity, drawable.level)


def stand_on(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there stands on the new one."""
    above, below = layout.shape(base), shape_of(layout.parts[new])
    if above.tip and below.mouth and not below.top:
        hang_above(layout, base, new)
        return
    if below.mouth and not below.top and (rest := _rest_on_rim(above, below.mouth)):
        layout.add(new, below.to(below.mouth.at, rest), base)
        return
    top = below.top or (0.0, below.box.top)
    foot = (above.base[0], above.box.bottom) if above.tip is None else above.tip
    if layout.parts[new].name == "pipeclay triangle":
        foot = above.base
    if layout.parts[new].name == "magnetic stirrer" and holds(above):
        layout.group(base).fittings.append(_follower(above))
    layout.add(new, below.to(top, foot), base)


def _rest_on_rim(above: Shape, mouth: Mouth) -> Point | None:
    """Where a dish that is wider than a mouth, and narrows, rests on its rim."""
    if not above.cavity or above.box.width <= mouth.width:
        return None
    box = box_of(above.cavity)
    x, y = (box.left + box.right) / 2, box.bottom
    while y > box.top and width_at(above.cavity, y)[1] - x < mouth.width / 2:
        y -= 0.2
    return x, y


def _follower(vessel: Shape) -> Stroke:
    """The bar that a magnetic stirrer turns."""
    box = box_of(vessel.cavity)
    x, y = (box.left + box.right) / 2, box.bottom - 1.4
    bar = ((x - 4, y - 0.8), (x + 4, y - 0.8), (x + 4, y + 0.8), (x - 4, y + 0.8))
    return Stroke(bar, Style.SOLID, closed=True)


def hang_above(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there drips or leads into the new one."""
    above, below = layout.shape(base), shape_of(layout.parts[new])
    box = above.box
    tip = above.tip or ((box.left + box.right) / 2, box.bottom + 2 * DRIP_MM)
    if below.mouth is None:
        top = below.top or (0.0, below.box.top)
        layout.add(new, below.to(top, (tip[0], tip[1] + 2)), base)
        return
    rim = above.joint or _rim_of_cone(above, below.mouth.width)
    target = rim or (tip[0], tip[1] - DRIP_MM)
    placed = below.to(below.mouth.at, target)
    layout.add(new, placed, base)
    if above.joint and placed.mouth:
        closing = bung(placed.mouth.width, placed.mouth.at[1], placed.mouth.at[0])
        layout.group(base).fittings.append(closing)


def _rim_of_cone(above: Shape, mouth: float) -> Point | None:
    """Where a funnel rests in a neck: the height at which it is as wide."""
    if above.mouth is None or mouth > WIDE_MM or above.mouth.width <= mouth:
        return None
    right = above.strokes[0].points
    for a, b in pairwise(right):
        half_a, half_b = a[0] - above.mouth.at[0], b[0] - above.mouth.at[0]
        if half_a >= mouth / 2 - 0.2 > half_b and half_b >= 0:
            part = (half_a - mouth / 2 + 0.2) / (half_a - half_b)
            return above.mouth.at[0], a[1] + (b[1] - a[1]) * part
    return None


def put_in(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there is in the new one, or in one named before."""
    earlier = _named_before(layout, base, new)
    if earlier is not None:
        layout.same[new] = earlier
        layout.inside[base] = earlier
        _insert(layout, base, earlier)
        return
    part = layout.parts[new]
    inner, outer = layout.shape(base), shape_of(part)
    if not holds(outer):
        if holds(inner):
            layout.add(new, _inserted(outer, inner, 0), base)
            layout.inside[new] = base
        else:
            layout.add(new, outer.to((0, outer.box.top), (0, inner.box.bottom)), base)
        return
    outer = _wide_enough(part, inner, outer)
    if _is_over_water(layout, base, new):
        _turn_over(layout, base)
        inner = layout.shape(base)
    layout.add(new, _around(inner, outer), base)
    layout.inside[base] = new


def _wide_enough(part: Part, inner: Shape, outer: Shape) -> Shape:
    """The outer piece, drawn larger where the inner one would not go in."""
    room = box_of(outer.cavity).width - 2
    needed = min(inner.box.width, 60)
    if inner.tip is not None or needed <= room:
        return outer
    drawable = PIECES[part.name]
    larger = drawable.draw(needed / room * 1.06)
    capacity = part.capacity_cm3 or drawable.usual_cm3
    return filled(larger, part.contents, capacity, drawable.level)


def _around(inner: Shape, outer: Shape) -> Shape:
    """The outer piece, moved so that the inner one stands or hangs in it."""
    cavity = box_of(outer.cavity)
    middle = (cavity.left + cavity.right) / 2
    if "plate" in outer.others:
        return outer.to(outer.others["plate"], (inner.base[0], inner.box.bottom))
    if inner.tip is None:
        clear = 0.0 if "rack" in outer.others else CLEAR_MM
        floor = cavity.bottom - (INVERTED_RIM_MM if "rim" in inner.others else clear)
        return outer.to((middle, floor), (inner.base[0], inner.box.bottom))
    return outer.to((middle, depth_in(outer)), inner.tip)


def depth_in(vessel: Shape) -> float:
    """How far down the end of a thermometer or a rod goes."""
    cavity = box_of(vessel.cavity)
    level = liquid_level(vessel)
    if level is None:
        return cavity.bottom - 0.14 * cavity.height
    return level + 0.68 * (cavity.bottom - level)


def _is_over_water(layout: Arrangement, base: int, new: int) -> bool:
    """Whether gas is collected: a tube leads to what is in the trough."""
    jars = ("gas jar", "measuring cylinder", "test-tube", "boiling tube")
    collects = layout.parts[new].name == "trough" and layout.parts[base].name in jars
    return collects and any(c.target == base for c in layout.connections)


def _turn_over(layout: Arrangement, index: int) -> None:
    """Turn a vessel over where it stands; it is taken to be full of water."""
    group = layout.group(index)
    over = group.shapes[index].moved(upended)
    rim = (over.base[0], over.box.bottom)
    inside = filled(over, (WATER,), None)
    group.shapes[index] = replace(
        inside, base=rim, mouth=None, others={**over.others, "rim": rim}
    )


def _named_before(layout: Arrangement, base: int, new: int) -> int | None:
    """An earlier vessel of the same name, where this naming says nothing new."""
    part = layout.parts[new]
    is_lone = base in layout.group_of and len(layout.group(base).shapes) == 1
    if part.contents or part.capacity_cm3 or not is_lone:
        return None
    for index in range(new - 1, -1, -1):
        other = layout.parts[index]
        stands_in = layout.group_of.get(index, layout.group_of[base])
        if (
            other.name == part.name
            and other.contents
            and stands_in != layout.group_of[base]
            and holds(layout.shape(index))
        ):
            return index
    return None


def _insert(layout: Arrangement, base: int, vessel: int) -> None:
    """Move a lone piece into a vessel that stands elsewhere already."""
    old = layout.group_of[base]
    shape = layout.groups[old].shapes.pop(base)
    count = sum(1 for s in layout.group(vessel).shapes.values() if s.tip is not None)
    layout.group_of[base] = layout.group_of[vessel]
    layout.group(vessel).shapes[base] = _inserted(shape, layout.shape(vessel), count)


def _inserted(piece: Shape, vessel: Shape, others: int) -> Shape:
    """A piece put into a vessel, beside what is in it already."""
    cavity = box_of(vessel.cavity)
    middle = (cavity.left + cavity.right) / 2
    offset = 0.0 if not others else (-1) ** others * 0.26 * cavity.width
    return piece.to(piece.tip or piece.base, (middle + offset, depth_in(vessel)))
