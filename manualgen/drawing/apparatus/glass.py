"""Flasks, beakers and tubes."""

from __future__ import annotations

from dataclasses import replace
from math import acos, pi, sqrt

from manualgen.drawing.apparatus.vessel import (
    flared,
    graduated,
    line,
    side_arm,
    slab,
    vessel,
    with_strokes,
)
from manualgen.drawing.geometry import Points, arc, rounded
from manualgen.drawing.shape import Mouth, Shape, Style


def beaker(f: float) -> Shape:
    """A beaker with a flared rim."""
    w, h = 13 * f, 32 * f
    return vessel(flared(w, h, ((w, 0, 2.4), (0, 0, 0)), 1.1), grip=0.75, label=0.7)


def conical_flask(f: float) -> Shape:
    """A conical flask."""
    neck, w, h = 4.7 * f, 14.5 * f, 35 * f
    half = flared(neck, h, ((neck, -0.76 * h, 3), (w, 0, 3.4 * f), (0, 0, 0)), 0.9)
    return vessel(half, grip=0.86, label=0.45)


def _globe(neck: float, radius: float, height: float, foot: float) -> Points:
    """The right half of a globe with a neck, cut off level at the foot."""
    shoulder = acos(neck / radius) * 180 / pi
    middle = -radius + foot
    globe = arc(
        (0, middle), radius, -shoulder, acos(min(1, (radius - foot) / radius)) * 0 + 90
    )
    cut = tuple(p for p in globe if p[1] <= 0.001)
    if foot:
        cut = (*cut, (sqrt(radius**2 - (radius - foot) ** 2), 0.0), (0.0, 0.0))
    rim = ((neck + 0.9, -height), (neck, -height + 1.1))
    return (*rim, *cut)


def round_bottomed_flask(f: float) -> Shape:
    """A round-bottomed flask."""
    return vessel(_globe(4.3 * f, 13.5 * f, 39 * f, 0), grip=0.85, label=0.3)


def flat_bottomed_flask(f: float) -> Shape:
    """A flat-bottomed flask."""
    return vessel(_globe(4.3 * f, 13.5 * f, 38 * f, 1.6 * f), grip=0.85, label=0.3)


def pear_shaped_flask(f: float) -> Shape:
    """A pear-shaped flask."""
    neck, h = 4 * f, 36 * f
    corners = (
        (neck, -24 * f, 4),
        (12 * f, -13 * f, 9 * f),
        (4 * f, 0, 6 * f),
        (0, 0, 0),
    )
    return vessel(flared(neck, h, corners, 0.9), grip=0.85, label=0.4)


def volumetric_flask(f: float) -> Shape:
    """A volumetric flask with its mark."""
    neck, h = 2.8 * f, 58 * f
    corners = (
        (neck, -27 * f, 7 * f),
        (9.6 * f, -20.5 * f, 7 * f),
        (14.6 * f, -10 * f, 9 * f),
        (10.6 * f, 0, 7 * f),
        (0, 0, 0),
    )
    mark = line((-neck - 1, -46 * f), (neck + 1, -46 * f), style=Style.THIN)
    flask = vessel(flared(neck, h, corners, 0.9), grip=0.7, label=0.25)
    return replace(flask, over=(mark,), others={"mark": (0, -46 * f)})


def filter_flask(f: float) -> Shape:
    """A flask with a side arm for suction."""
    neck, w, h = 4.7 * f, 14.5 * f, 36 * f
    half = flared(neck, h, ((neck, -0.72 * h, 3), (w, 0, 3.4 * f), (0, 0, 0)), 0.9)
    arm = -0.82 * h
    flask = vessel(half, grip=0.94, label=0.4)
    return replace(with_strokes(flask, *side_arm(neck, arm, 7)), outlet=(neck + 7, arm))


def _tube(w: float, h: float, lip: float = 0.8) -> Points:
    return ((w + lip, -h), (w, -h + 1.1), *arc((0, -w), w, 0, 90))


def boiling_tube(f: float) -> Shape:
    """A boiling tube."""
    return vessel(_tube(4.8 * f, 52 * f), grip=0.84, label=0.55)


def test_tube(f: float) -> Shape:
    """A test-tube."""
    return vessel(_tube(3.5 * f, 42 * f), grip=0.84, label=0.55)


def ignition_tube(f: float) -> Shape:
    """An ignition tube."""
    return vessel(_tube(2.3 * f, 20 * f, 0.5), grip=0.84, label=0.55)


def side_arm_tube(f: float) -> Shape:
    """A test-tube with a side arm."""
    w, h = 4.8 * f, 50 * f
    arm = -0.8 * h
    tube = vessel(_tube(w, h), grip=0.92, label=0.45)
    return replace(with_strokes(tube, *side_arm(w, arm, 7)), outlet=(w + 7, arm))


def u_tube(f: float) -> Shape:
    """A U-tube, its limbs as far apart as two electrodes."""
    r, outer, h = 7 * f, 10.4 * f, 44 * f
    centre = (0.0, -outer)
    outside = ((-outer, -h), *reversed(arc(centre, outer, 0, 180)), (outer, -h))
    inner = r - 3.2 * f
    inside = ((inner, -h), *arc(centre, inner, 0, 180), (-inner, -h))
    limb = (outer + inner) / 2
    return Shape(
        (line(*outside), line(*inside)),
        label=(outer, -h * 0.4),
        mouth=Mouth((limb, -h), outer - inner),
        grip=(-outer, -h * 0.8),
        cavity=(*outside, *inside),
    )


def measuring_cylinder(f: float) -> Shape:
    """A measuring cylinder on its foot."""
    w, h, foot = 4.8 * f, 48 * f, 2.2
    half = flared(w, h, ((w, -foot, 0.8), (0, -foot, 0)), 0.9)
    cylinder = vessel(half, grip=0.7, label=0.8)
    footed = with_strokes(cylinder, slab(8.5 * f, -foot, 0))
    return graduated(footed, w, -h * 0.88, -foot - 4, 20)


def gas_jar(f: float) -> Shape:
    """A gas jar with its ground rim."""
    w, h = 8 * f, 42 * f
    half = rounded(((w + 1.6, -h, 0), (w, -h, 0), (w, -2, 1.5), (0, -2, 0)))
    return with_strokes(vessel(half, grip=0.7, label=0.6), slab(10 * f, -2, 0))


def reagent_bottle(f: float) -> Shape:
    """A bottle with its stopper beside no one's hand: in its neck."""
    w, neck, h = 9.5 * f, 4 * f, 34 * f
    corners = ((neck, -0.74 * h, 1.5), (w, -0.66 * h, 4), (w, 0, 1.5), (0, 0, 0))
    return vessel(flared(neck, h, corners, 1.1), grip=0.86, label=0.35)


def weighing_bottle(f: float) -> Shape:
    """A weighing bottle with its lid."""
    w, h = 6 * f, 13 * f
    half = rounded(((w, -h, 0), (w, -h + 1, 0), (w, 0, 1.2), (0, 0, 0)))
    lid = slab(w + 0.6, -h - 2, -h)
    return with_strokes(vessel(half, grip=0.7), lid)
