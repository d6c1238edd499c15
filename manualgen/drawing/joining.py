"""Joining pieces: through a bung, by a ground joint, or at a distance."""

from __future__ import annotations

from typing import Final

from manualgen.drawing.apparatus.distilling import sloping_condenser
from manualgen.drawing.apparatus.holding import bung
from manualgen.drawing.geometry import shift
from manualgen.drawing.parts import Arrangement, Connection, Way
from manualgen.drawing.rules import depth_in, hang_above, put_in, shape_of, stand_on
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

_WAYS: Final = {
    "lead": Way.LEAD,
    "salt bridge": Way.BRIDGE,
    "delivery tube": Way.TUBE,
}
_SHALLOW: Final = ("dropping funnel", "separating funnel", "syringe", "burette")
"""What ends just below the bung; other pieces reach down into the liquid."""

SHALLOW_MM: Final = 9.0
SIDE: Final = 0.26
"""How far off the middle of a bung each of two pieces goes through it."""


def join(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there is joined to the new one."""
    part = layout.parts[new]
    way = _WAYS.get(part.by or "")
    source, target = layout.shape(base), shape_of(part)
    fits = target.joint or (target.tip and not target.top)
    goes_on = source.outlet and (not source.mouth or "bulb" in source.others)
    if way is None and goes_on and part.name in ("condenser", "receiver adapter"):
        _continue(layout, base, new, target)
    elif way is None and fits and source.mouth:
        _through_bung(layout, base, new, target)
    elif way is None and source.tip and target.mouth:
        hang_above(layout, base, new)
    else:
        way = way or Way.TUBE
        label = part.tube or way.value
        layout.connections.append(Connection(base, new, way, label))
        layout.add(new, target)


def _continue(layout: Arrangement, base: int, new: int, target: Shape) -> None:
    """A condenser or an adapter goes on where the piece before it ends."""
    end = layout.shape(base).outlet
    following = (
        sloping_condenser(1.0) if layout.parts[new].name == "condenser" else target
    )
    if end and following.inlet:
        layout.add(new, following.to(following.inlet, end), base)


def _through_bung(layout: Arrangement, base: int, new: int, piece: Shape) -> None:
    """A piece goes down through a bung, or its joint into the mouth."""
    vessel = layout.shape(base)
    mouth = vessel.mouth
    if mouth is None:
        return
    x = mouth.at[0] + bung_slot(layout, base, new) * mouth.width
    if piece.joint:
        layout.add(new, piece.to(piece.joint, (x, mouth.at[1] - 1)), base)
        layout.group(base).fittings.append(_ground_joint(mouth, piece))
        return
    name = layout.parts[new].name
    if "bulb" in vessel.others:
        deep = vessel.others["bulb"][1]
    elif name in _SHALLOW or not vessel.cavity:
        deep = mouth.at[1] + SHALLOW_MM
    else:
        deep = depth_in(vessel)
    layout.add(new, piece.to(piece.tip or piece.base, (x, deep)), base)
    add_bung(layout, base)


def add_bung(layout: Arrangement, index: int) -> None:
    """Close a mouth, if it is not closed already."""
    mouth = layout.shape(index).mouth
    if mouth is None or index in layout.closed:
        return
    layout.closed.add(index)
    stopper = bung(mouth.width, mouth.at[1], mouth.at[0])
    layout.group(index).fittings.insert(0, stopper)


def _ground_joint(mouth: Mouth, piece: Shape) -> Stroke:
    """The cone of a joint in its socket."""
    x, y, half = mouth.at[0], mouth.at[1], mouth.width / 2
    narrow = min(half - 0.4, 2.6)
    cone = (
        (x - half + 0.2, y - 1.2),
        (x + half - 0.2, y - 1.2),
        (x + narrow, y + 5),
        (x - narrow, y + 5),
    )
    return Stroke(cone, Style.BODY, closed=True)


def bung_slot(layout: Arrangement, base: int, new: int) -> float:
    """Where a piece goes through a bung, as a part of its width off the middle."""
    through = [
        i
        for i, part in enumerate(layout.parts)
        if part.relation == "joined by"
        and part.base == base
        and _WAYS.get(part.by or "") in (None, Way.TUBE)
    ]
    if layout.shape(base).outlet and layout.parts[new].by == "delivery tube":
        return 0.0
    if len(through) < 2 or new not in through:
        return 0.0
    return -SIDE if through.index(new) == 0 else SIDE


def heat(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there is heated by the new one."""
    source = shape_of(layout.parts[new])
    if "heat" not in source.others:
        (stand_on if source.top else put_in)(layout, base, new)
        return
    group = layout.group(base)
    under = next((s for s in group.shapes.values() if "under" in s.others), None)
    if under:
        layout.add(new, source.to((0.0, 0.0), under.others["under"]), base)
        return
    heated = layout.shape(base)
    x, y = heated.flame or (heated.base[0], heated.box.bottom)
    lowest = max(y, group.box.bottom if heated.flame is None else y)
    layout.add(new, source.moved(shift(x, lowest + 1.5 - source.box.top)), base)
