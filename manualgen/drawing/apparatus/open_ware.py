"""Dishes, cups, baths and troughs."""

from __future__ import annotations

from dataclasses import replace

from manualgen.drawing.apparatus.vessel import (
    closed,
    flared,
    line,
    slab,
    vessel,
    with_strokes,
)
from manualgen.drawing.geometry import Points, arc, mirrored, rounded
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style


def trough(f: float) -> Shape:
    """A trough for collecting gases over water."""
    w, h = 27 * f, 20 * f
    return vessel(flared(w, h, ((w, 0, 3), (0, 0, 0)), 1), grip=0.7, label=0.75)


def crystallising_dish(f: float) -> Shape:
    """A crystallising dish."""
    w, h = 17 * f, 11 * f
    return vessel(flared(w, h, ((w, 0, 2.5), (0, 0, 0)), 0.9), grip=0.7, label=0.6)


def petri_dish(f: float) -> Shape:
    """A Petri dish under its lid."""
    w, h = 15 * f, 4.5 * f
    half = rounded(((w, -h, 0), (w, -h + 0.5, 0), (w, 0, 0.6), (0, 0, 0)))
    lid = line((w + 1, -h + 2.5), (w + 1, -h - 1), (-w - 1, -h - 1), (-w - 1, -h + 2.5))
    return with_strokes(vessel(half, grip=0.7, label=0.3), lid)


def evaporating_basin(f: float) -> Shape:
    """An evaporating basin."""
    w, h = 14.5 * f, 11 * f
    half = flared(w, h, ((w * 0.9, -h * 0.3, 5), (w * 0.36, 0, 3), (0, 0, 0)), 0.8)
    return vessel(half, grip=0.9, label=0.7)


def crucible(f: float) -> Shape:
    """A crucible without its lid."""
    w, h = 6.4 * f, 10.5 * f
    half = flared(w, h, ((w * 0.9, -h * 0.35, 3), (w * 0.5, 0, 1.4), (0, 0, 0)), 0.7)
    return vessel(half, grip=0.8, label=0.6)


def crucible_lid(f: float) -> Shape:
    """A crucible's lid."""
    w = 7.4 * f
    lid = rounded(((-w, 0, 0), (-w * 0.6, -1.4, 2), (w * 0.6, -1.4, 2), (w, 0, 0)))
    knob = arc((0, -2), 1.1, 0, 360)
    return Shape(
        (Stroke(lid, Style.BODY, closed=True), Stroke(knob)),
        label=(w * 0.6, -1.2),
        others={"lid": (0, 0)},
    )


def watch_glass(f: float) -> Shape:
    """A watch glass."""
    w, h = 17 * f, 4 * f
    half = rounded(((w, -h, 0), (w * 0.96, -h * 0.92, 0), (w * 0.5, 0, 9), (0, 0, 0)))
    return vessel(half, grip=0.9, label=0.8)


def mortar(f: float) -> Shape:
    """A mortar, its wall in section."""
    w, h, t = 14 * f, 14 * f, 2.4
    inner = rounded(((w - t, -h, 0), (w - t, -h + 1, 0), (w * 0.6, -t, 8), (0, -t, 0)))
    outer = rounded(((w, -h, 0), (w * 0.85, -2, 8), (w * 0.55, 0, 1), (0, 0, 0)))
    return _walled(inner, outer, label=0.6)


def _walled(inner: Points, outer: Points, label: float) -> Shape:
    """A vessel whose wall has a thickness to be seen."""
    bowl = vessel(inner, grip=0.8, label=label)
    right = (*outer, *(mirrored(p) for p in reversed(outer)))
    left = (*inner, *(mirrored(p) for p in reversed(inner)))
    wall = closed(*right, *reversed(left), style=Style.SHADE)
    edge = outer[0][0] - inner[0][0]
    at = (bowl.label[0] + edge, bowl.label[1])
    return replace(bowl, strokes=(wall,), label=at)


def polystyrene_cup(f: float) -> Shape:
    """A cup of expanded polystyrene, its wall in section."""
    top, foot, h, t = 12.5 * f, 9 * f, 31 * f, 1.8
    inner = rounded(
        ((top - t, -h, 0), (top - t - 0.1, -h + 1, 0), (foot - t, -t, 1), (0, -t, 0))
    )
    outer = rounded(((top, -h, 0), (foot, 0, 1), (0, 0, 0)))
    return _walled(inner, outer, label=0.7)


def calorimeter(f: float) -> Shape:
    """A metal calorimeter in its jacket."""
    w, h, t = 11 * f, 28 * f, 3.0
    inner = rounded(((w, -h, 0), (w, -h + 1, 0), (w, -t, 1), (0, -t, 0)))
    outer = rounded(((w + t, -h, 0), (w + t, 0, 1), (0, 0, 0)))
    return _walled(inner, outer, label=0.7)


def metal_can(f: float) -> Shape:
    """A can of thin metal."""
    w, h = 12 * f, 26 * f
    half = rounded(((w, -h, 0), (w, -h + 1, 0), (w, 0, 0.6), (0, 0, 0)))
    return vessel(half, grip=0.8, label=0.7)


def water_bath(f: float) -> Shape:
    """A bath with a heated floor."""
    w, h = 25 * f, 27 * f
    half = rounded(((w, -h, 0), (w, -h + 1, 0), (w, -3, 1), (0, -3, 0)))
    floor = slab(w, -3, 0, Style.SHADE)
    return with_strokes(vessel(half, grip=0.8, label=0.6), floor)


def ice_bath(f: float) -> Shape:
    """A wide vessel for ice and water."""
    w, h = 24 * f, 22 * f
    return vessel(flared(w, h, ((w, 0, 4), (0, 0, 0)), 1), grip=0.8, label=0.75)


def desiccator(f: float) -> Shape:
    """A desiccator with its plate and lid."""
    w, h = 17 * f, 20 * f
    half = rounded(
        (
            (w, -h, 0),
            (w, -h + 0.5, 0),
            (w, -h * 0.5, 2),
            (w * 0.62, -h * 0.42, 2),
            (w * 0.62, 0, 2),
            (0, 0, 0),
        )
    )
    lid = rounded(
        (
            (-w - 1, -h, 0),
            (-w - 1, -h - 1.6, 0),
            (-w * 0.8, -h - 9 * f, 8),
            (0, -h - 11 * f, 8),
            (w * 0.8, -h - 9 * f, 8),
            (w + 1, -h - 1.6, 0),
            (w + 1, -h, 0),
        )
    )
    plate = line((-w * 0.9, -h * 0.5), (w * 0.9, -h * 0.5))
    knob = Stroke(arc((0, -h - 11.4 * f), 1.6, 0, 360))
    body = vessel(half, grip=0.9, label=0.85)
    return replace(
        with_strokes(body, Stroke(lid, closed=True), plate, knob),
        others={"plate": (0.0, -h * 0.5)},
    )


def chromatography_tank(f: float) -> Shape:
    """A tank with its lid, and the paper that hangs in it."""
    w, h = 14 * f, 46 * f
    half = rounded(((w, -h, 0), (w, -h + 0.5, 0), (w, 0, 1.5), (0, 0, 0)))
    paper = closed((-w * 0.6, -h), (w * 0.6, -h), (w * 0.6, -3), (-w * 0.6, -3))
    start = line((-w * 0.6, -10), (w * 0.6, -10), style=Style.THIN)
    spots = tuple(
        Stroke(arc((x, -10), 0.6, 0, 360), Style.SOLID, closed=True)
        for x in (-w * 0.3, 0, w * 0.3)
    )
    lid = slab(w + 1.2, -h - 1.8, -h)
    tank = vessel(half, grip=0.9, label=0.85)
    return replace(
        tank,
        over=(paper, start, *spots, lid),
        mouth=Mouth((0, -h), 2 * w),
        others={"paper": (w * 0.6, -h * 0.6), "start": (w * 0.6, -10)},
    )


def weighing_boat(f: float) -> Shape:
    """A shallow boat for weighing a solid in."""
    w, h = 12 * f, 4.6 * f
    half = rounded(((w, -h, 0), (w * 0.97, -h * 0.9, 0), (w * 0.62, 0, 2), (0, 0, 0)))
    return vessel(half, grip=0.9, label=0.7)
