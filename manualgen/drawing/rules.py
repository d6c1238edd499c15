"""How one piece comes to lie against another, by the word between them.

Each rule is given the arrangement, the piece that is there already and the new
one, and puts the new one into its group.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from manualgen.drawing.apparatus import heating
from manualgen.drawing.apparatus.catalogue import PIECES
from manualgen.drawing.apparatus.holding import bung
from manualgen.drawing.contents import filled, holds, width_at
from manualgen.drawing.geometry import Point, box_of
from manualgen.drawing.inserting import set_inserts_apart
from manualgen.drawing.parts import Arrangement, Part
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

DRIP_MM: Final = 4.0
"""How far a tip reaches into the mouth below it."""
FLAME_MM: Final = 1.5
"""From the tip of a flame to what it heats."""
WIDE_MM: Final = 14.0
"""A mouth too wide for a funnel to rest in."""
MANTLE_MOST: Final = 30.0
"""The widest hollow of a heating mantle, from its middle."""


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
        layout.stirred.add(base)
        set_inserts_apart(layout, base)
    if "hollow" in below.others:
        below = _hollow_for(above)
        top = below.top or top
    layout.add(new, below.to(top, foot), base)


def _hollow_for(flask: Shape) -> Shape:
    """A heating mantle into whose hollow a flask goes."""
    wide = min(MANTLE_MOST, flask.box.width / 2 + 1.1)
    usual = heating.heating_mantle(1.0)
    hollow = usual.others["hollow"][1] - (usual.top or (0, 0))[1]
    return heating.heating_mantle(wide / abs(hollow))


def _rest_on_rim(above: Shape, mouth: Mouth) -> Point | None:
    """Where a dish that is wider than a mouth, and narrows, rests on its rim."""
    half = mouth.width / 2 + mouth.flare[0]
    if not above.cavity or above.box.width <= 2 * half:
        return None
    box = box_of(above.cavity)
    x, high, low = (box.left + box.right) / 2, box.top, box.bottom
    for _ in range(20):
        y = (high + low) / 2
        is_wide = width_at(above.cavity, y)[1] - x > half
        high, low = (y, low) if is_wide else (high, y)
    return x, high


def _follower(vessel: Shape) -> Stroke:
    """The bar that a magnetic stirrer turns."""
    box = box_of(vessel.cavity)
    x, y = (box.left + box.right) / 2, box.bottom - 1.4
    bar = ((x - 3, y - 0.8), (x + 3, y - 0.8), (x + 3, y + 0.8), (x - 3, y + 0.8))
    return Stroke(bar, Style.SOLID, closed=True)


def hang_above(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there drips or leads into the new one."""
    above, below = layout.shape(base), shape_of(layout.parts[new])
    box = above.box
    gap = FLAME_MM if "heat" in below.others else 2 * DRIP_MM
    tip = above.tip or ((box.left + box.right) / 2, box.bottom + gap)
    if below.mouth is None:
        top = below.top or (0.0, below.box.top)
        layout.add(new, below.to(top, tip), base)
        return
    seat = above.joint or above.others.get("seat")
    x, y = below.mouth.at
    target = seat or (tip[0], tip[1] - DRIP_MM)
    if not seat and (rest := rim_of_cone(above, below.mouth.width)):
        target = rest[0], rest[1] - below.mouth.flare[1]
    layout.add(new, below.to((x, y), target), base)
    if seat:
        layout.through[base] = new
        add_bung(layout, new)


def add_bung(layout: Arrangement, index: int) -> None:
    """Close a mouth, if it is not closed already."""
    mouth = layout.shape(index).mouth
    if mouth is None or index in layout.closed:
        return
    layout.closed.add(index)
    stopper = bung(mouth.width, mouth.at[1], mouth.at[0])
    layout.group(index).fittings.insert(0, stopper)


def rim_of_cone(above: Shape, mouth: float) -> Point | None:
    """Where a funnel rests in a neck: the height at which it is as wide."""
    if above.mouth is None or mouth > WIDE_MM or above.mouth.width <= mouth:
        return None
    right = tuple(p for p in above.outline if p[0] >= above.mouth.at[0])
    for a, b in pairwise(right):
        half_a, half_b = a[0] - above.mouth.at[0], b[0] - above.mouth.at[0]
        if half_a >= mouth / 2 > half_b >= 0:
            part = (half_a - mouth / 2) / (half_a - half_b)
            return above.mouth.at[0], a[1] + (b[1] - a[1]) * part
    return None
