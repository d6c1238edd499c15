"""One piece in another: dipping in, standing in a bath, collecting gas over water."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from manualgen.drawing.apparatus.catalogue import PIECES
from manualgen.drawing.apparatus.holding import shelf
from manualgen.drawing.contents import Content, Kind, filled, holds, width_at
from manualgen.drawing.geometry import box_of, shift, upended
from manualgen.drawing.inserting import depth_of, insert, set_inserts_apart
from manualgen.drawing.parts import Arrangement, Part
from manualgen.drawing.rules import hang_above, shape_of
from manualgen.drawing.shape import Mouth, Shape

CLEAR_MM: Final = 2.0
"""Between the floor of a bath and what a clamp holds in it."""
BESIDE_MM: Final = 2.5
"""Between two vessels that stand in another."""
WATER: Final = Content("", Kind.LIQUID)
INVERTED_RIM_MM: Final = 7.0
"""Between the floor of a trough and the rim of a jar turned over in it."""
COLLECTS: Final = ("gas jar", "measuring cylinder", "test-tube", "boiling tube")


def put_in(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there is in the new one, or in one named before."""
    earlier = _named_before(layout, base, new)
    if earlier is not None:
        layout.same[new] = earlier
        insert(layout, base, earlier)
        return
    part = layout.parts[new]
    inner, outer = layout.shape(base), shape_of(part)
    if not holds(outer):
        put_with(layout, base, new)
        return
    if _rests_in_neck(inner, outer):
        hang_above(layout, base, new)
        return
    outer = _wide_enough(part, inner, outer)
    if _is_over_water(layout, base, new):
        _turn_over(layout, base)
        inner = layout.shape(base)
    clear = CLEAR_MM if _is_held(layout, base) else 0.0
    around = _around(inner, outer, clear)
    layout.add(new, around, base)
    layout.inside[base] = new
    if "rim" in inner.others and not clear:
        rim, floor = inner.others["rim"], box_of(around.cavity).bottom
        width = box_of(inner.cavity).width
        layout.group(base).fittings.extend(shelf(rim, width, floor))
    if inner.tip is not None:
        layout.inserts[new] = [base]


def _is_held(layout: Arrangement, index: int) -> bool:
    return any(p.relation == "held by" and p.base == index for p in layout.parts)


def _rests_in_neck(inner: Shape, outer: Shape) -> bool:
    """Whether a piece has a stem, and is too wide to go in farther than that."""
    if inner.tip is None or inner.mouth is None or outer.mouth is None:
        return False
    return inner.box.width > outer.mouth.width


def put_with(layout: Arrangement, base: int, new: int) -> None:
    """The new piece goes into the one that is there, or closes it."""
    base = _vessel_on(layout, base)
    vessel, piece = layout.shape(base), shape_of(layout.parts[new])
    if vessel.mouth and {"lid", "plug"} & set(piece.others):
        layout.add(new, _closing(layout.parts[new], vessel.mouth), base)
        return
    if not holds(vessel):
        top = vessel.top or (vessel.base[0], vessel.box.top)
        layout.add(new, piece.to((piece.base[0], piece.box.bottom), top), base)
        return
    layout.add(new, piece, base)
    if piece.tip is not None:
        insert(layout, new, base)
        return
    layout.inside[new] = base
    cavity = box_of(vessel.cavity)
    floor = ((cavity.left + cavity.right) / 2, cavity.bottom)
    foot = (piece.base[0], piece.box.bottom)
    placed = piece.to(foot, vessel.others.get("plate", floor))
    beside = _beside_others(layout, base, new, placed)
    layout.group(base).shapes[new] = placed.moved(shift(beside, 0))
    set_inserts_apart(layout, base)


def _beside_others(layout: Arrangement, base: int, new: int, piece: Shape) -> float:
    """How far off the middle a piece stands: right, left of what stands there."""
    stand = [
        layout.shape(i).box
        for i, vessel in layout.inside.items()
        if vessel == base and i != new and i not in layout.inserts.get(base, ())
    ]
    if not stand:
        return 0.0
    right = max(box.right for box in stand) - piece.box.left
    left = min(box.left for box in stand) - piece.box.right
    return right + BESIDE_MM if len(stand) % 2 else left - BESIDE_MM


def _vessel_on(layout: Arrangement, base: int) -> int:
    """The vessel that stands on a piece, if the piece itself is none."""
    index: int | None = base
    while index is not None and not holds(layout.shape(index)):
        part = layout.parts[index]
        index = part.base if part.relation in ("on", "heated by") else None
    return base if index is None else index


def _closing(part: Part, mouth: Mouth) -> Shape:
    """A lid on a mouth, or a plug in it, as wide as the mouth."""
    drawable = PIECES[part.name]
    usual = drawable.draw(1.0)
    if "plug" in usual.others:
        plug = drawable.draw(mouth.width / usual.box.width)
        return plug.to(plug.others["plug"], mouth.at)
    return drawable.draw((mouth.width + 3) / usual.box.width).to((0, 0), mouth.at)


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


def _around(inner: Shape, outer: Shape, clear: float) -> Shape:
    """The outer piece, moved so that the inner one stands or hangs in it."""
    cavity = box_of(outer.cavity)
    middle = (cavity.left + cavity.right) / 2
    if "plate" in outer.others:
        return outer.to(outer.others["plate"], (inner.base[0], inner.box.bottom))
    if inner.tip is None:
        floor = cavity.bottom - (INVERTED_RIM_MM if "rim" in inner.others else clear)
        return outer.to((middle, floor), (inner.base[0], inner.box.bottom))
    return outer.to((middle, depth_of(inner, outer)), inner.tip)


def _is_over_water(layout: Arrangement, base: int, new: int) -> bool:
    """Whether gas is collected: a tube leads to what is in the trough."""
    collects = (
        layout.parts[new].name in ("trough", "beaker", "water bath")
        and layout.parts[base].name in COLLECTS
    )
    return collects and any(c.target == base for c in layout.connections)


def _turn_over(layout: Arrangement, index: int) -> None:
    """Turn a vessel over where it stands; it is taken to be full of water."""
    group = layout.group(index)
    over = group.shapes[index].moved(upended)
    rim = (over.base[0], over.box.bottom)
    inside = filled(over, (WATER,), None)
    box = box_of(over.cavity)
    high = box.top + 0.25 * box.height
    group.shapes[index] = replace(
        inside,
        base=rim,
        mouth=None,
        grip=(width_at(over.cavity, high)[0], high),
        others={**over.others, "rim": rim},
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
