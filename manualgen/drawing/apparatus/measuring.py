"""Burettes, pipettes, syringes and instruments that give a reading."""

from __future__ import annotations

from dataclasses import replace

from manualgen.drawing.apparatus.vessel import (
    TUBE_MM,
    closed,
    graduated,
    line,
    slab,
    with_strokes,
)
from manualgen.drawing.geometry import Points, arc, mirrored, rounded
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style


def burette(f: float) -> Shape:
    """A burette with its tap, the jet's end at the origin."""
    w, h, tap = 2.6, 84 * f, -14.0
    right = rounded(
        (
            (w + 0.6, -h, 0),
            (w, -h + 0.8, 0),
            (w, tap - 4, 2),
            (0.9, tap - 1.6, 1),
            (0.9, -6, 0),
            (0.45, 0, 0),
        )
    )
    left = tuple(mirrored(p) for p in reversed(right))
    cavity = (*right[1:], *left[:-1])
    shape = Shape(
        (Stroke(right), Stroke(left)),
        label=(w, -h * 0.55),
        mouth=Mouth((0, -h), 2 * w, flare=(0.6, 0.8)),
        tip=(0, 0),
        grip=(-w, -h * 0.62),
        cavity=cavity,
    )
    key = slab(1.9, tap - 1.5, tap + 1.5, Style.SHADE)
    handle = closed(
        (1.9, tap - 0.5),
        (4.6, tap - 0.5),
        (4.6, tap + 0.5),
        (1.9, tap + 0.5),
        style=Style.SHADE,
    )
    marked = graduated(shape, w, -h + 6, tap - 8, 40)
    return replace(
        marked, over=(*marked.over, key, handle), others={"mark": (0, -h + 11)}
    )


def pipette(f: float) -> Shape:
    """A pipette with one mark, its tip at the origin."""
    h, bulb, stem = 74 * f, 3.6 * f, 0.9
    right = rounded(
        (
            (stem, -h, 0),
            (stem, -h * 0.62, 2),
            (bulb, -h * 0.57, 3),
            (bulb, -h * 0.36, 3),
            (stem, -h * 0.31, 2),
            (stem, -5, 0),
            (0.35, 0, 0),
        )
    )
    left = tuple(mirrored(p) for p in reversed(right))
    mark = line((-stem - 0.8, -h * 0.8), (stem + 0.8, -h * 0.8), style=Style.THIN)
    return Shape(
        (Stroke(right), Stroke(left)),
        label=(bulb, -h * 0.46),
        mouth=Mouth((0, -h), 2 * stem),
        tip=(0, 0),
        grip=(-stem, -h * 0.7),
        cavity=(*right, *left),
        over=(mark,),
        others={"mark": (0, -h * 0.8)},
    )


def dropping_pipette(f: float) -> Shape:
    """A dropping pipette with its teat, its tip at the origin."""
    h, w = 26 * f, 1.5
    right = rounded(((w, -h, 0), (w, -9, 1.5), (0.5, -6, 1), (0.4, 0, 0)))
    left = tuple(mirrored(p) for p in reversed(right))
    teat = rounded(
        (
            (-w - 0.3, -h + 2, 0),
            (-w - 0.3, -h, 0.5),
            (-2.4, -h - 3, 1.5),
            (-2.0, -h - 9, 2),
            (0, -h - 10, 1),
            (2.0, -h - 9, 2),
            (2.4, -h - 3, 1.5),
            (w + 0.3, -h, 0.5),
            (w + 0.3, -h + 2, 0),
        )
    )
    return Shape(
        (Stroke(right), Stroke(left), Stroke(teat, Style.SHADE, closed=True)),
        label=(w, -h * 0.6),
        tip=(0, 0),
        grip=(-w, -h * 0.8),
        cavity=(*right, *left),
    )


def syringe(f: float) -> Shape:
    """A syringe held upright, its nozzle's end at the origin."""
    w, h, nozzle = 3.6 * f, 50 * f, 20.0
    right = rounded(
        (
            (w + 1.6, -h, 0),
            (w, -h, 0),
            (w, -nozzle, 0.8),
            (0.8, -nozzle + 1, 0.5),
            (0.8, 0, 0),
        )
    )
    left = tuple(mirrored(p) for p in reversed(right))
    piston = slab(w - 0.3, -h * 0.62, -h * 0.62 + 2, Style.SHADE)
    rod = slab(0.7, -h - 7, -h * 0.62)
    thumb = slab(w, -h - 8, -h - 7)
    shape = Shape(
        (Stroke(right), Stroke(left), rod, thumb, piston),
        label=(w, -h * 0.35),
        tip=(0, 0),
        grip=(-w, -h * 0.5),
        outline=(*right, *left),
        cavity=(
            (w, -h * 0.62 + 2),
            (w, -nozzle),
            (0.8, -nozzle + 1),
            (-0.8, -nozzle + 1),
            (-w, -nozzle),
            (-w, -h * 0.62 + 2),
        ),
    )
    return graduated(shape, w, -h * 0.9, -nozzle - 2, 10)


def gas_syringe(f: float) -> Shape:
    """A gas syringe lying level, the end of its nozzle at the origin."""
    w, nozzle, end = 6.2 * f, 7.0, 7.0 + 44 * f
    upper: Points = rounded(
        (
            (0, -TUBE_MM, 0),
            (nozzle - 1, -TUBE_MM, 0.4),
            (nozzle, -w, 0.8),
            (end, -w, 0),
            (end, -w - 1.8, 0),
        )
    )
    lower = tuple((x, -y) for x, y in upper)
    reach = nozzle + 9
    plunger = closed(
        (reach, -w + 0.5),
        (end - 8, -w + 0.5),
        (end - 8, w - 0.5),
        (reach, w - 0.5),
        style=Style.BODY,
    )
    rod = closed((end - 8, -1), (end + 9, -1), (end + 9, 1), (end - 8, 1))
    knob = closed((end + 9, -4), (end + 10.5, -4), (end + 10.5, 4), (end + 9, 4))
    pitch = (end - nozzle - 6) / 20
    ticks = tuple(
        line(
            (nozzle + 4 + i * pitch, -w),
            (nozzle + 4 + i * pitch, -w + (2 if i % 5 else 3.2)),
            style=Style.THIN,
        )
        for i in range(20)
    )
    return Shape(
        (Stroke(upper), Stroke(lower), plunger, rod, knob),
        label=((nozzle + end) / 2, -w),
        base=((nozzle + end) / 2, w),
        inlet=(0, 0),
        outlet=(0, 0),
        grip=((nozzle + end) * 0.5, w),
        over=ticks,
    )


def thermometer(f: float) -> Shape:
    """A thermometer, its bulb at the origin."""
    w, h = 0.95, 64 * f
    stem = rounded(((-w, -4, 0), (-w, -h, 0.9), (w, -h, 0.9), (w, -4, 0)))
    bulb = rounded(((-w, -4, 0), (-w, 0, 1), (w, 0, 1), (w, -4, 0)))
    thread = line((0, -3), (0, -h * 0.45))
    return Shape(
        (
            Stroke(stem, Style.BODY, closed=True),
            Stroke(bulb, Style.SOLID, closed=True),
            thread,
        ),
        label=(w, -h * 0.86),
        tip=(0, 0),
        grip=(-w, -h * 0.8),
    )


def probe(f: float) -> Shape:
    """A probe of a meter or a logger, its tip at the origin."""
    w, h = 1.6, 52 * f
    body = rounded(((-w, -h, 0), (-w, 0, 1.4), (w, 0, 1.4), (w, -h, 0)))
    head = slab(w + 0.8, -h - 6, -h, Style.SHADE)
    return Shape(
        (Stroke(body, Style.BODY, closed=True), head),
        label=(w, -h * 0.85),
        tip=(0, 0),
        grip=(-w, -h * 0.8),
        terminals=((0, -h - 6),),
        outlet=(0, -h - 6),
    )


def balance(f: float) -> Shape:
    """A top-pan balance."""
    w, h = 19 * f, 11 * f
    body = closed((-w, 0), (w, 0), (w * 0.86, -h), (-w * 0.86, -h))
    display = closed(
        (-7, -h * 0.3), (7, -h * 0.3), (7, -h * 0.72), (-7, -h * 0.72), style=Style.BODY
    )
    stem, pan = slab(1.5, -h - 2, -h), slab(w * 0.62, -h - 3, -h - 2)
    return Shape(
        (body, display, stem, pan), label=(w * 0.95, -h * 0.3), top=(0, -h - 3)
    )


def meter(f: float) -> Shape:
    """A box with a display: a meter or a logger."""
    w, h = 12 * f, 18 * f
    display = slab(w * 0.75, -h * 0.85, -h * 0.5)
    return Shape(
        (slab(w, -h, 0), display),
        label=(w, -h * 0.3),
        inlet=(0, -h),
        outlet=(0, -h),
        terminals=((-w * 0.5, -h), (w * 0.5, -h)),
    )


def colorimeter(f: float) -> Shape:
    """A colorimeter with a cuvette in it."""
    box = with_strokes(
        meter(1.5 * f),
        closed((8, -27 * f - 6), (11, -27 * f - 6), (11, -27 * f), (8, -27 * f)),
    )
    lens = Stroke(arc((-10 * f, -6 * f), 2 * f, 0, 360))
    return with_strokes(box, lens)
