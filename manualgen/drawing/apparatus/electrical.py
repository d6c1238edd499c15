"""Electrodes, cells and meters; circuits are drawn with the usual signs."""

from __future__ import annotations

from typing import Final

from manualgen.drawing.apparatus.vessel import closed, line, slab
from manualgen.drawing.geometry import arc
from manualgen.drawing.shape import Shape, Stroke, Style

APART_MM: Final = 7.0
"""From the middle to either of two electrodes, or to either end of a sign."""


def electrode(f: float) -> Shape:
    """A rod of carbon or metal, its end at the origin."""
    w, h = 1.5, 44 * f
    return Shape(
        (slab(w, -h, 0, Style.SHADE),),
        label=(w, -h * 0.85),
        tip=(0, 0),
        grip=(-w, -h * 0.85),
        terminals=((0, -h),),
        outlet=(0, -h),
        inlet=(0, -h),
    )


def strip(f: float) -> Shape:
    """A strip of metal, its end at the origin."""
    w, h = 2.6, 44 * f
    return Shape(
        (slab(w, -h, 0),),
        label=(w, -h * 0.85),
        tip=(0, 0),
        grip=(-w, -h * 0.85),
        terminals=((0, -h),),
        outlet=(0, -h),
        inlet=(0, -h),
    )


def electrodes(f: float) -> Shape:
    """A pair of electrodes, the middle between their ends at the origin."""
    w, h, apart = 1.5, 44 * f, APART_MM
    rods = tuple(
        closed((x - w, 0), (x + w, 0), (x + w, -h), (x - w, -h), style=Style.SHADE)
        for x in (-apart, apart)
    )
    return Shape(
        rods,
        label=(apart + w, -h * 0.8),
        tip=(0, 0),
        terminals=((-apart, -h), (apart, -h)),
        outlet=(-apart, -h),
        inlet=(-apart, -h),
    )


def salt_bridge(f: float) -> Shape:
    """A strip of soaked paper, bent over; usually drawn as what joins two beakers."""
    w = 14 * f
    return Shape(
        (line((-w, 0), (-w, -18), (w, -18), (w, 0)),),
        label=(w * 0.5, -18),
        tip=(-w, 0),
    )


def power_pack(f: float) -> Shape:
    """A power pack for direct current, its terminals marked."""
    w, h = 17 * f, 15 * f
    marks = (
        line((-w * 0.55 - 1.5, -h * 0.45), (-w * 0.55 + 1.5, -h * 0.45)),
        line((w * 0.55 - 1.5, -h * 0.45), (w * 0.55 + 1.5, -h * 0.45)),
        line((w * 0.55, -h * 0.45 - 1.5), (w * 0.55, -h * 0.45 + 1.5)),
    )
    studs = tuple(slab_at(x, -h - 1.5, -h) for x in (-w * 0.55, w * 0.55))
    return Shape(
        (slab(w, -h, 0), *studs, *marks),
        label=(w, -h * 0.7),
        terminals=((-w * 0.55, -h - 1.5), (w * 0.55, -h - 1.5)),
        outlet=(w * 0.55, -h - 1.5),
        inlet=(-w * 0.55, -h - 1.5),
    )


def slab_at(x: float, top: float, bottom: float) -> Stroke:
    """A small stud about an upright at ``x``."""
    return closed(
        (x - 1, top), (x + 1, top), (x + 1, bottom), (x - 1, bottom), style=Style.SHADE
    )


def battery(_f: float) -> Shape:
    """Two cells, as in a circuit."""
    plates = (
        line((-3.2, -4), (-3.2, 4)),
        line((-1.2, -2), (-1.2, 2)),
        line((1.2, -4), (1.2, 4)),
        line((3.2, -2), (3.2, 2)),
    )
    wires = (
        line((-APART_MM, 0), (-3.2, 0)),
        line((3.2, 0), (APART_MM, 0)),
        line((-1.2, 0), (1.2, 0), style=Style.THIN),
    )
    return _in_circuit((*plates, *wires), 4.0)


def ammeter(_f: float) -> Shape:
    """An ammeter's sign."""
    a = (line((-1.8, 2.2), (0, -2.4), (1.8, 2.2)), line((-1.1, 0.6), (1.1, 0.6)))
    return _round_sign(a)


def voltmeter(_f: float) -> Shape:
    """A voltmeter's sign."""
    return _round_sign((line((-1.8, -2.4), (0, 2.4), (1.8, -2.4)),))


def lamp(_f: float) -> Shape:
    """A lamp's sign."""
    d = 3.2
    return _round_sign((line((-d, -d), (d, d)), line((-d, d), (d, -d))))


def _round_sign(inside: tuple[Stroke, ...]) -> Shape:
    ring = Stroke(arc((0, 0), 4.5, 0, 360), Style.BODY, closed=True)
    return _in_circuit(
        (ring, *inside, line((-APART_MM, 0), (-4.5, 0)), line((4.5, 0), (APART_MM, 0))),
        4.5,
    )


def _in_circuit(strokes: tuple[Stroke, ...], half_height: float) -> Shape:
    return Shape(
        strokes,
        label=(0, -half_height),
        base=(0, half_height),
        terminals=((-APART_MM, 0), (APART_MM, 0)),
        inlet=(-APART_MM, 0),
        outlet=(APART_MM, 0),
        others={"sign": (0, 0)},
    )
