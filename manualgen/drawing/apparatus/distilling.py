"""Condensers, heads and adapters: what fits a ground joint."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin

from manualgen.drawing.apparatus.vessel import closed, line
from manualgen.drawing.geometry import arc, shift, turn
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style

SLOPE = 25.0
"""How far below the level a distilling condenser lies, in degrees."""

BORE = 1.5


def condenser(f: float) -> Shape:
    """A condenser upright for reflux, its lower joint at the origin."""
    h, w = 60 * f, 4.6
    lower, upper = -10.0, -h + 6
    jacket = closed((-w, lower), (w, lower), (w, upper), (-w, upper))
    inner = (line((-BORE, 0), (-BORE, -h)), line((BORE, 0), (BORE, -h)))
    flare = (
        line((-BORE, -h), (-BORE - 1.4, -h - 1.6)),
        line((BORE, -h), (BORE + 1.4, -h - 1.6)),
    )
    inlet = closed(
        (w, lower - 6), (w + 6, lower - 6), (w + 6, lower - 4), (w, lower - 4)
    )
    outlet = closed(
        (-w - 6, upper + 4), (-w, upper + 4), (-w, upper + 6), (-w - 6, upper + 6)
    )
    return Shape(
        (jacket, *inner, *flare, inlet, outlet),
        label=(w, -h * 0.55),
        base=(0, 0),
        mouth=Mouth((0, -h - 1.6), 2 * BORE),
        joint=(0, 0),
        grip=(-w, -h * 0.4),
        outlet=(0, -h - 1.6),
        others={"water in": (w + 6, lower - 5), "water out": (-w - 6, upper + 5)},
    )


def air_condenser(f: float) -> Shape:
    """A long open tube that the air cools, its lower end at the origin."""
    h = 60 * f
    return Shape(
        (line((-BORE, 0), (-BORE, -h)), line((BORE, 0), (BORE, -h))),
        label=(BORE, -h * 0.6),
        base=(0, 0),
        mouth=Mouth((0, -h), 2 * BORE),
        joint=(0, 0),
        grip=(-BORE, -h * 0.5),
        outlet=(0, -h),
    )


def sloping_condenser(f: float) -> Shape:
    """A condenser for distilling, its upper joint at the origin."""
    upright = condenser(f)
    top = upright.mouth.at if upright.mouth else (0.0, 0.0)
    lying = upright.moved(shift(-top[0], -top[1])).moved(turn(-90 + SLOPE))
    low = lying.joint
    return replace(
        lying, inlet=(0, 0), outlet=low, tip=None, mouth=None, joint=None, base=(0, 0)
    )


def still_head(f: float) -> Shape:
    """A still head: joint below, a mouth for the thermometer, a sloping arm."""
    h, w, arm_y = 25 * f, 2.4, -11 * f
    c, s = cos(SLOPE * pi / 180), sin(SLOPE * pi / 180)
    reach = 13 * f
    upper = ((w, arm_y - BORE), (w + reach * c, arm_y - BORE + reach * s))
    lower = (
        (w, arm_y + BORE * 1.4),
        (w + reach * c - BORE, arm_y + reach * s + BORE * 1.2),
    )
    walls = (
        line((-w, 0), (-w, -h)),
        line((w, 0), lower[0]),
        line(upper[0], (w, -h)),
        line(*upper),
        line(*lower),
    )
    end = ((upper[1][0] + lower[1][0]) / 2, (upper[1][1] + lower[1][1]) / 2)
    return Shape(
        walls,
        label=(-w, -h * 0.75),
        mouth=Mouth((0, -h), 2 * w),
        joint=(0, 0),
        outlet=end,
        grip=(-w, -h * 0.5),
        others={"bulb": (0, arm_y)},
    )


def receiver_adapter(f: float) -> Shape:
    """A bent adapter from a sloping condenser down into a receiver."""
    c, s = cos(SLOPE * pi / 180), sin(SLOPE * pi / 180)
    r, run, drop = 2.2, 8 * f, 16 * f
    bend = (run * c, run * s)
    outer = (
        (r * s, -r * c),
        (bend[0] + r, bend[1] - r * 0.6),
        (bend[0] + r, bend[1] + drop),
    )
    inner = ((-r * s, r * c), (bend[0] - r, bend[1] + r), (bend[0] - r, bend[1] + drop))
    vent = closed(
        (bend[0] + r, bend[1] + 4),
        (bend[0] + r + 5, bend[1] + 4),
        (bend[0] + r + 5, bend[1] + 6),
        (bend[0] + r, bend[1] + 6),
    )
    return Shape(
        (line(*outer), line(*inner), vent),
        label=(bend[0] + r, bend[1] + drop * 0.6),
        base=(bend[0], bend[1] + drop),
        inlet=(0, 0),
        tip=(bend[0], bend[1] + drop),
        outlet=(bend[0], bend[1] + drop),
        grip=(bend[0] - r, bend[1] + 3),
    )


def fractionating_column(f: float) -> Shape:
    """A column of glass beads, its joint at the origin."""
    h, w = 44 * f, 4.2
    walls = tuple(
        line(
            (x * 2.2, 0),
            (x * 2.2, -3),
            (x * w, -6),
            (x * w, -h + 6),
            (x * 2.4, -h + 2),
            (x * 2.4, -h),
        )
        for x in (-1, 1)
    )
    beads = tuple(
        Stroke(
            arc(
                (-2.8 + 1.87 * column + (0.9 if row % 2 else 0), -8 - row * 2.1),
                0.9,
                0,
                360,
            ),
            Style.THIN,
        )
        for row in range(int((h - 16) / 2.1))
        for column in range(3 if row % 2 else 4)
    )
    return Shape(
        (*walls, *beads),
        label=(w, -h * 0.5),
        mouth=Mouth((0, -h), 4.8),
        joint=(0, 0),
        grip=(-w, -h * 0.5),
    )
