"""Joining pieces: through a bung, by a ground joint, or at a distance."""

from __future__ import annotations

from typing import Final

from manualgen.drawing.apparatus.distilling import sloping_condenser
from manualgen.drawing.geometry import shift
from manualgen.drawing.inserting import depth_in
from manualgen.drawing.inside import put_in, put_with
from manualgen.drawing.parts import Arrangement, Connection, Part, Way
from manualgen.drawing.rules import (
    FLAME_MM,
    WIDE_MM,
    add_bung,
    hang_above,
    shape_of,
    stand_on,
)
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

_WAYS: Final = {
    "lead": Way.LEAD,
    "salt bridge": Way.BRIDGE,
    "delivery tube": Way.TUBE,
}
_SHALLOW: Final = (
    "dropping funnel",
    "separating funnel",
    "syringe",
    "burette",
    "condenser",
    "air condenser",
    "still head",
    "fractionating column",
)
"""What ends just below the bung; other pieces reach down into the liquid."""

SHALLOW_MM: Final = 9.0
HEAD_MM: Final = 14.0
"""From a mouth up to the head of a funnel, over the tube beside it."""
SIDE: Final = 0.56
"""From the first to the last of what goes through a bung, as a part of its width."""


def join(layout: Arrangement, base: int, new: int) -> None:
    """The piece that is there is joined to the new one."""
    part = layout.parts[new]
    way = _WAYS.get(part.by or "")
    source, target = layout.shape(base), shape_of(part)
    fits = target.joint or (target.tip and not target.top)
    if way is None and _goes_on(source, part):
        _continue(layout, base, new, target)
    elif way is None and fits and source.mouth and source.mouth.width > WIDE_MM:
        put_with(layout, base, new)
    elif way is None and fits and source.mouth:
        _through_mouth(layout, base, new, target)
    elif way is None and source.tip and target.mouth:
        hang_above(layout, base, new)
    else:
        way = way or Way.TUBE
        label = part.tube or way.value
        layout.connections.append(Connection(base, new, way, label))
        layout.add(new, target)


def _goes_on(source: Shape, part: Part) -> bool:
    """Whether a piece goes on where another ends, as a condenser after a head."""
    ends = source.outlet and (not source.mouth or "bulb" in source.others)
    return bool(ends) and part.name in ("condenser", "receiver adapter")


def _continue(layout: Arrangement, base: int, new: int, target: Shape) -> None:
    """A condenser or an adapter goes on where the piece before it ends."""
    end = layout.shape(base).outlet
    following = (
        sloping_condenser(1.0) if layout.parts[new].name == "condenser" else target
    )
    if end and following.inlet:
        layout.add(new, following.to(following.inlet, end), base)


def _through_mouth(layout: Arrangement, base: int, new: int, piece: Shape) -> None:
    """A piece goes down through a bung, or its joint into the mouth."""
    mouth = layout.shape(base).mouth
    if mouth is None:
        return
    if piece.joint and layout.parts[new].by != "bung":
        layout.add(new, piece.to(piece.joint, (mouth.at[0], mouth.at[1] - 1)), base)
        layout.group(base).fittings.append(_ground_joint(mouth))
        return
    x = mouth.at[0] + bung_slot(layout, base, new) * mouth.width
    if seat := piece.others.get("seat"):
        placed = piece.to(seat, (x, mouth.at[1]))
    else:
        depth = _depth_through(layout, base, new)
        long = _long_enough(piece, depth - mouth.at[1] + HEAD_MM)
        placed = long.to(long.joint or long.tip or long.base, (x, depth))
    layout.add(new, placed, base)
    layout.through[new] = base
    add_bung(layout, base)


def _long_enough(piece: Shape, reach: float) -> Shape:
    """A funnel whose head is over the tube beside it, and whose end is deep enough."""
    head = piece.others.get("head")
    if head is None or -head[1] >= reach:
        return piece
    longer = reach / -head[1]
    return piece.moved(lambda point: (point[0], point[1] * longer))


def _depth_through(layout: Arrangement, base: int, new: int) -> float:
    """How far down the end of what goes through a bung is."""
    vessel, mouth = layout.shape(base), layout.shape(base).mouth
    if "bulb" in vessel.others:
        return vessel.others["bulb"][1]
    shallow = layout.parts[new].name in _SHALLOW
    if mouth and (shallow or not vessel.cavity):
        return mouth.at[1] + SHALLOW_MM
    return depth_in(vessel)


def _ground_joint(mouth: Mouth) -> Stroke:
    """The cone of a joint in its socket."""
    x, y, half = mouth.at[0], mouth.at[1], mouth.width / 2
    cone = (
        (x - half - 0.3, y - 1.4),
        (x + half + 0.3, y - 1.4),
        (x + half - 0.5, y + 5.5),
        (x - half + 0.5, y + 5.5),
    )
    return Stroke(cone, Style.BODY, closed=True)


def bung_slot(layout: Arrangement, base: int, new: int) -> float:
    """Where a piece goes through a bung, as a part of its width off the middle."""
    through = [i for i in range(len(layout.parts)) if _is_through(layout, base, i)]
    if _is_led_to(layout, base):
        through.insert(0, base)
    if len(through) < 2 or new not in through:
        return 0.0
    return SIDE * (through.index(new) / (len(through) - 1) - 0.5)


def _is_led_to(layout: Arrangement, vessel: int) -> bool:
    """Whether a tube leads into a vessel."""
    return (
        any(c.target == vessel and c.way is Way.TUBE for c in layout.connections)
        and not layout.shape(vessel).inlet
    )


def _is_through(layout: Arrangement, base: int, index: int) -> bool:
    """Whether a piece, or the tube that leads to it, goes through a bung."""
    part, source = layout.parts[index], layout.shape(base)
    if part.relation != "joined by" or part.base != base:
        return False
    way = _WAYS.get(part.by or "")
    if way is Way.TUBE:
        return source.outlet is None
    return way is None and not _goes_on(source, part)


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
    below = lowest + FLAME_MM - source.box.top
    layout.add(new, source.moved(shift(x, below)), base)
