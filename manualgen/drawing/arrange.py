"""Puts the pieces of a drawing together: upright first, then side by side."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType
from typing import Final, TypeAlias

from manualgen.drawing.clamping import LEVEL, hold, prop_up
from manualgen.drawing.inside import put_in, put_with
from manualgen.drawing.joining import heat, join
from manualgen.drawing.parts import Arrangement, Connection, Group, Part, Way
from manualgen.drawing.rules import add_bung, hang_above, shape_of, stand_on

Rule: TypeAlias = Callable[[Arrangement, int, int], None]

RULES: Final[Mapping[str, Rule]] = MappingProxyType(
    {
        "on": stand_on,
        "above": hang_above,
        "in": put_in,
        "with": put_with,
        "joined by": join,
        "heated by": heat,
    }
)
GAP_MM: Final = 13.0
BRIDGED_MM: Final = 7.0
RISE_MM: Final = 11.0
"""From a mouth up to the level run of its delivery tube."""
LEAD_RISE_MM: Final = 8.0
SIGN_MM: Final = 20.0
"""From one sign of a circuit to the next."""


def arrange(parts: tuple[Part, ...]) -> Arrangement:
    """Every piece in its place; the bench is at the height 0."""
    layout = Arrangement(tuple(_related(parts, part) for part in parts))
    for index in _in_order(layout.parts):
        _place(layout, index)
    _close(layout)
    _stand_on_bench(layout)
    _hang_level(layout)
    hold(layout)
    prop_up(layout)
    _set_side_by_side(layout)
    return layout


def _related(parts: tuple[Part, ...], part: Part) -> Part:
    """The part, related to what a stand holds where it is related to the stand."""
    base = part.base
    while base is not None and parts[base].relation == "held by":
        base = parts[base].base
    return replace(
        part, base=base, relation=part.relation if base is not None else None
    )


def _in_order(parts: tuple[Part, ...]) -> list[int]:
    """Pieces that heat or hold come last, and whatever is related to them."""
    late: set[int] = set()
    for index, part in enumerate(parts):
        if part.relation in ("heated by", "held by") or part.base in late:
            late.add(index)
    return sorted(range(len(parts)), key=lambda index: (index in late, index))


def _place(layout: Arrangement, index: int) -> None:
    part = layout.parts[index]
    if part.relation is None or part.base is None:
        layout.add(index, shape_of(part))
    elif part.relation == "held by":
        layout.held.append((part.base, index))
    else:
        RULES[part.relation](layout, part.base, index)


def _close(layout: Arrangement) -> None:
    """Bungs in whatever is stoppered or has a tube through its mouth."""
    for index, part in enumerate(layout.parts):
        if part.stoppered and part.relation != "held by":
            add_bung(layout, index)
    for connection in layout.connections:
        source = layout.shape(connection.source)
        if connection.way is Way.TUBE and source.mouth and not source.outlet:
            add_bung(layout, connection.source)
    for vessel, inserts in layout.inserts.items():
        if vessel in layout.closed:
            layout.through.update((piece, vessel) for piece in inserts)


def _stand_on_bench(layout: Arrangement) -> None:
    for group in layout.groups:
        if group.shapes:
            group.move(0, -group.box.bottom)


def is_level(layout: Arrangement, group: Group) -> bool:
    """Whether a group is nothing but a piece that hangs at its tube or lead."""
    indexes = list(group.shapes)
    if len(indexes) != 1:
        return False
    part = layout.parts[indexes[0]]
    return part.name in LEVEL or "sign" in group.shapes[indexes[0]].others


def run_of(layout: Arrangement, connection: Connection) -> float:
    """The height at which a connection leaves its source."""
    source = layout.shape(connection.source)
    if connection.way is Way.TUBE and source.outlet:
        return source.outlet[1]
    if source.mouth and connection.way is Way.TUBE:
        return source.mouth.at[1] - RISE_MM
    return source.box.top - RISE_MM / 2


def _hang_level(layout: Arrangement) -> None:
    """Level pieces come to the height of what leads to them."""
    leads = lead_level(layout)
    for group in layout.groups:
        if _is_sign(group):
            (sign,) = group.shapes.values()
            group.move(0, leads - sign.others["sign"][1])
    for connection in layout.connections:
        group = layout.group(connection.target)
        target = layout.shape(connection.target)
        if not is_level(layout, group) or target.inlet is None:
            continue
        if connection.way is Way.LEAD:
            continue
        height = run_of(layout, connection)
        group.move(0, height - target.inlet[1])


def lead_level(layout: Arrangement) -> float:
    """The height of the leads: over everything that stands on the bench."""
    tops = [g.box.top for g in layout.groups if g.shapes and not _is_sign(g)]
    return min(tops, default=0.0) - LEAD_RISE_MM


def _set_side_by_side(layout: Arrangement) -> None:
    """Groups from left to right; a circuit's signs go between what they join."""
    right: float | None = None
    for number, group in enumerate(layout.groups):
        if not group.shapes or _is_sign(group):
            continue
        if right is not None:
            group.move(right + _gap(layout, number) - group.box.left, 0)
        right = group.box.right
    for number, group in enumerate(layout.groups):
        if group.shapes and _is_sign(group):
            _set_between(layout, number, group)
    _set_signs_apart([g for g in layout.groups if g.shapes and _is_sign(g)])


def _set_signs_apart(signs: list[Group]) -> None:
    """Several signs in a row, in their order, about the middle of all."""
    if len(signs) < 2:
        return
    middles = [(g.box.left + g.box.right) / 2 for g in signs]
    if all(b - a >= SIGN_MM for a, b in pairwise(middles)):
        return
    mean = sum(middles) / len(middles)
    for number, (group, middle) in enumerate(zip(signs, middles, strict=True)):
        place = mean + (number - (len(signs) - 1) / 2) * SIGN_MM
        group.move(place - middle, 0)


def _is_sign(group: Group) -> bool:
    shapes = list(group.shapes.values())
    return len(shapes) == 1 and "sign" in shapes[0].others


def _gap(layout: Arrangement, number: int) -> float:
    ways = [
        c.way for c in layout.connections if layout.group_of.get(c.target) == number
    ]
    return BRIDGED_MM if Way.BRIDGE in ways else GAP_MM


def _set_between(layout: Arrangement, number: int, group: Group) -> None:
    ends = [
        layout.group(c.source if layout.group_of[c.target] == number else c.target).box
        for c in layout.connections
        if number in (layout.group_of[c.target], layout.group_of[c.source])
    ]
    if len(ends) > 1:
        middle = (min(b.left for b in ends) + max(b.right for b in ends)) / 2
    elif ends:
        middle = (ends[0].left + ends[0].right) / 2
    else:
        middle = 0.0
    box = group.box
    group.move(middle - (box.left + box.right) / 2, 0)
