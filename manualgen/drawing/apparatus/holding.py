"""What holds, carries or closes other pieces."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from manualgen.drawing.apparatus.vessel import TUBE_MM, closed, line, slab
from manualgen.drawing.geometry import Point, Points, arc
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style


def clamp_stand(_f: float) -> Shape:
    """A stand by itself; beside what it holds it is drawn by `stand_beside`."""
    return stand_beside(((13.0, -60.0),), 0.0, 0.0)


def stand_beside(grips: tuple[Point, ...], pole: float, ground: float) -> Shape:
    """A stand whose pole is beside what its clamps hold, on the bench at ``ground``."""
    top = min(y for _, y in grips) - 14
    outward = -6 if pole < grips[0][0] else 6
    foot = _slab_at(pole + outward, 11, ground - 2.4, ground)
    rod = closed(*_rectangle(pole - 0.8, top, pole + 0.8, ground - 2.4))
    clamps = tuple(part for grip in grips for part in _clamp(grip, pole))
    return Shape(
        (rod, foot, *clamps),
        label=(pole - 0.8, (top + ground) / 2),
        base=(pole, ground),
    )


def _clamp(grip: Point, pole: float) -> tuple[Stroke, ...]:
    """A clamp from a pole to what it grips, with its boss."""
    x, y = grip
    near = 1 if pole < x else -1
    boss, jaw = pole + 2.4 * near, x - 3 * near
    return (
        closed(*_rectangle(boss, y - 0.7, jaw, y + 0.7)),
        closed(*_rectangle(pole - 2 * near, y - 2, boss, y + 2), style=Style.SHADE),
        closed(*_rectangle(jaw, y - 2.4, x, y + 2.4), style=Style.SHADE),
    )


def post_under(grip: Point, ground: float) -> Shape:
    """A stand that carries what lies level, its pole below the clamp."""
    x, y = grip
    foot = _slab_at(x - 6, 11, ground - 2.4, ground)
    rod = closed(*_rectangle(x - 0.8, y + 3, x + 0.8, ground - 2.4))
    jaw = closed(*_rectangle(x - 4, y, x + 4, y + 3), style=Style.SHADE)
    return Shape(
        (rod, foot, jaw),
        label=(x + 0.8, (y + ground) / 2),
        base=(x, ground),
    )


def _rectangle(left: float, top: float, right: float, bottom: float) -> Points:
    return (left, top), (right, top), (right, bottom), (left, bottom)


def _slab_at(x: float, half: float, top: float, bottom: float) -> Stroke:
    return closed(*_rectangle(x - half, top, x + half, bottom), style=Style.SHADE)


def tube_rack(_f: float) -> Shape:
    """A rack for test-tubes, seen from the front."""
    w, h = 19.0, 24.0
    upper, lower = slab(w, -h, -h + 2), slab(w, -3, 0)
    posts = (line((-w, 0), (-w, -h)), line((w, 0), (w, -h)))
    return Shape(
        (*posts, upper, lower),
        label=(w, -h * 0.5),
        mouth=Mouth((0, -h), 2 * w),
        cavity=((w, -h), (w, -3), (-w, -3), (-w, -h)),
        others={"rack": (0, 0)},
    )


def white_tile(_f: float) -> Shape:
    """A white tile."""
    return Shape((slab(18, -1.6, 0),), label=(17, -0.8), top=(0, -1.6))


def wooden_block(f: float) -> Shape:
    """A block of wood to raise something."""
    w, h = 15 * f, 10 * f
    grain = tuple(
        line((-w + 3, y), (w - 4, y - 0.6), style=Style.THIN)
        for y in (-h * 0.3, -h * 0.65)
    )
    return Shape((slab(w, -h, 0), *grain), label=(w, -h * 0.5), top=(0, -h))


def block_under(x: float, top: float, ground: float) -> Shape:
    """A plain block between a piece that would hang in the air and the bench."""
    w = 14.0
    return Shape(
        (closed((x - w, top), (x + w, top), (x + w, ground), (x - w, ground)),),
        label=(x + w, (top + ground) / 2),
        base=(x, ground),
        top=(x, top),
    )


BUNG_REACH_MM: Final = 3.6
"""How far a bung goes into a mouth."""


def bung(width: float, y: float, x: float = 0.0) -> Stroke:
    """A bung in a mouth of this width, its rim at ``y``."""
    w = width / 2
    return closed(
        (x - w - 0.9, y - 3.4),
        (x + w + 0.9, y - 3.4),
        (x + w - 0.25, y + BUNG_REACH_MM),
        (x - w + 0.25, y + BUNG_REACH_MM),
        style=Style.SHADE,
    )


def shelf(rim: Point, width: float, floor: float) -> tuple[Stroke, ...]:
    """A shelf on the floor of a trough, open for a tube from the left, under a jar."""
    x, top = rim
    reach, hole, thick = width / 2 + 3, TUBE_MM + 0.8, 1.3

    def half(side: int, foot: float) -> Stroke:
        return closed(
            (x + side * hole, top),
            (x + side * reach, top),
            (x + side * reach, foot),
            (x + side * (reach - thick), foot),
            (x + side * (reach - thick), top + thick),
            (x + side * hole, top + thick),
            style=Style.SHADE,
        )

    return half(1, floor), half(-1, top + 2.0)


def loose_bung(_f: float) -> Shape:
    """A bung by itself."""
    return Shape((bung(8, -3.6),), label=(4, -3), tip=(0, 0))


def paper_disc(f: float) -> Shape:
    """A filter paper, folded."""
    w, h = 10 * f, 15 * f
    return Shape(
        (line((-w, -h), (0, 0), (w, -h)), line((-w, -h), (w, -h), style=Style.THIN)),
        label=(w * 0.6, -h * 0.6),
        tip=(0, 0),
    )


def plug(f: float) -> Shape:
    """A plug of mineral or cotton wool."""
    curls = tuple(
        Stroke(arc((x * f, -2.2 + 0.6 * (-1) ** i), 1.5 * f, 0, 300), Style.THIN)
        for i, x in enumerate((-2.6, -0.9, 0.9, 2.6))
    )
    return Shape(
        curls,
        label=(3, -2.4),
        tip=(0, 0),
        others={"plug": (0, -3.4)},
    )


def lid(f: float) -> Shape:
    """A lid with a hole for a thermometer."""
    w = 14 * f
    return Shape(
        (slab(w, -1.8, 0, Style.SHADE),),
        label=(w, -0.9),
        top=(0, -1.8),
        others={"lid": (0, 0)},
    )


def thread(f: float) -> Shape:
    """A thread that something hangs from."""
    h = 30 * f
    return Shape(
        (line((0, 0), (0, -h), style=Style.THIN),),
        label=(0, -h * 0.7),
        tip=(0, 0),
        grip=(0, -h),
    )


def wire(f: float) -> Shape:
    """A wire set in its handle, its loop at the origin."""
    h = 34 * f
    loop = Stroke(arc((0, -1), 1, 0, 360))
    return replace(
        Shape(
            (line((0, -2), (0, -h)), loop, slab(1.2, -h - 14, -h, Style.SHADE)),
            label=(1.2, -h - 7),
            tip=(0, 0),
        ),
        grip=(-1.2, -h - 7),
    )
