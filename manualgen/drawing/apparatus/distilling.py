"""Condensers, heads and adapters: what fits a ground joint."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin
from typing import Final

from manualgen.drawing.apparatus.vessel import closed, line, side_arm
from manualgen.drawing.geometry import Move, Points, arc, mirrored, shift, turn
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

SLOPE: Final = 25.0
"""How far below the level a distilling condenser lies, in degrees."""
BORE: Final = 1.5
SOCKET: Final = 2.3
"""From the middle of a socket to its wall."""
SEATED: Final = 5.0
"""How far a tube goes into its socket."""


def _stem(half: float, reach: float) -> Points:
    """What a joint holds where a bung takes its place."""
    return (-half, 0), (half, 0), (half, -reach), (-half, -reach)


def condenser(f: float) -> Shape:
    """A condenser upright for reflux, its lower joint at the origin."""
    return _jacketed(60 * f, 1)


def _jacketed(h: float, side: int) -> Shape:
    """A tube in its jacket, whose water comes in low on one side and leaves high.

    ``side`` is 1 where the water comes in on the right.
    """
    w, lower, upper = 4.6, -10.0, -h + 8
    jacket = closed((-w, lower), (w, lower), (w, upper), (-w, upper))
    inner = (line((-BORE, 0), (-BORE, -h)), line((BORE, 0), (BORE, -h)))
    low, high = lower - 4, upper + 4
    return Shape(
        (
            jacket,
            *inner,
            *side_arm(side * w, low, side * 6),
            *side_arm(-side * w, high, -side * 6),
        ),
        label=(w, -h * 0.55),
        mouth=Mouth((0, -h), 2 * BORE),
        joint=(0, 0),
        outline=_stem(BORE, 9),
        grip=(-w, -h * 0.4),
        outlet=(0, -h),
        others={
            "water in": (side * (w + 4.5), low),
            "water out": (-side * (w + 4.5), high),
        },
    )


def air_condenser(f: float) -> Shape:
    """A long open tube that the air cools, its lower end at the origin."""
    h = 60 * f
    return Shape(
        (line((-BORE, 0), (-BORE, -h)), line((BORE, 0), (BORE, -h))),
        label=(BORE, -h * 0.6),
        mouth=Mouth((0, -h), 2 * BORE),
        joint=(0, 0),
        outline=_stem(BORE, h),
        grip=(-BORE, -h * 0.5),
        outlet=(0, -h),
    )


def sloping_condenser(f: float) -> Shape:
    """A condenser for distilling, the end that goes over a head's arm at the origin.

    Its water comes in at the lower end from below and leaves at the upper end
    above, so that the jacket fills.
    """
    h = 60 * f
    upright = _jacketed(h, -1)
    socket = tuple(
        line(
            (x * BORE, -h),
            (x * SOCKET, -h - 1.5),
            (x * SOCKET, -h - SEATED),
            (x * BORE, -h - SEATED),
        )
        for x in (-1, 1)
    )
    whole = replace(upright, strokes=(*upright.strokes, *socket))
    lying = whole.moved(shift(0, h)).moved(turn(-90 + SLOPE))
    return replace(
        lying,
        inlet=(0, 0),
        outlet=lying.joint,
        mouth=None,
        joint=None,
        base=(0, 0),
    )


def _along_slope(place: tuple[float, float]) -> Move:
    """From a line along the level to one along the slope, beginning at a place."""
    lay, put = turn(SLOPE), shift(*place)
    return lambda point: put(lay(point))


def still_head(f: float) -> Shape:
    """A still head: joint below, a mouth for the thermometer, a sloping arm."""
    h, w, arm, reach = 25 * f, SOCKET, -11 * f, 16 * f
    half = BORE / cos(SLOPE * pi / 180)
    fall = w * sin(SLOPE * pi / 180) / cos(SLOPE * pi / 180)
    slope = _along_slope((0, arm))
    walls = (
        line((-w, 0), (-w, -h)),
        line((w, 0), (w, arm + fall + half), slope((reach, BORE))),
        line((w, -h), (w, arm + fall - half), slope((reach, -BORE))),
    )
    return Shape(
        walls,
        label=(-w, -h * 0.75),
        mouth=Mouth((0, -h), 2 * w),
        joint=(0, 0),
        outline=_stem(w, -arm - 2 * half),
        outlet=slope((reach, 0)),
        grip=(-w, -h * 0.5),
        others={"bulb": (0, arm + fall)},
    )


def receiver_adapter(f: float) -> Shape:
    """A bent adapter down into a receiver; the condenser ends at the origin."""
    w, run, drop = SOCKET, 7 * f, 16 * f
    slope = _along_slope((0, 0))
    knee = slope((run, 0))
    rise = w * (1 - sin(SLOPE * pi / 180)) / cos(SLOPE * pi / 180)
    outer = (
        slope((-SEATED, -BORE)),
        slope((-SEATED, -w)),
        (knee[0] + w, knee[1] - rise + 2 * w * sin(SLOPE * pi / 180)),
        (knee[0] + w, knee[1] + drop),
    )
    inner = (
        slope((-SEATED, BORE)),
        slope((-SEATED, w)),
        (knee[0] - w, knee[1] + rise),
        (knee[0] - w, knee[1] + drop),
    )
    return Shape(
        (line(*outer), line(*inner), *side_arm(knee[0] + w, knee[1] + 5, 5)),
        label=(knee[0] + w, knee[1] + drop * 0.6),
        base=(knee[0], knee[1] + drop),
        inlet=(0, 0),
        tip=(knee[0], knee[1] + drop),
        outlet=(knee[0], knee[1] + drop),
        grip=(knee[0] - w, knee[1] + 3),
    )


def fractionating_column(f: float) -> Shape:
    """A column of glass beads, its joint at the origin."""
    h, w = 44 * f, 4.2
    right = ((SOCKET, 0), (SOCKET, -3), (w, -6), (w, -h + 6), (SOCKET, -h + 2))
    wall = line(*right, (SOCKET, -h))
    opposite = line(*(mirrored(p) for p in wall.points))
    rows = int((h - 16) / 2.1)
    beads = tuple(
        Stroke(arc((x, -8 - row * 2.1), 0.9, 0, 360), Style.THIN)
        for row in range(rows)
        for x in ((-1.87, 0, 1.87) if row % 2 else (-2.8, -0.93, 0.93, 2.8))
    )
    return Shape(
        (wall, opposite, *beads),
        label=(w, -h * 0.5),
        mouth=Mouth((0, -h), 2 * SOCKET),
        joint=(0, 0),
        outline=_stem(SOCKET, 3),
        grip=(-w, -h * 0.5),
    )
