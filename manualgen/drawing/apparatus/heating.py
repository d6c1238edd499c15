"""What heats, and what stands over it."""

from __future__ import annotations

from dataclasses import replace

from manualgen.drawing.apparatus.vessel import closed, line, slab
from manualgen.drawing.geometry import arc, mirrored, rounded
from manualgen.drawing.shape import Shape, Stroke, Style

BURNER_MM = 36.0
"""From the bench to the tip of the flame."""


def burner(_f: float) -> Shape:
    """A burner, lit; the tip of its flame is its top."""
    foot = rounded(
        ((-9, 0, 0), (-8.4, -2, 1), (-3, -4, 1), (3, -4, 1), (8.4, -2, 1), (9, 0, 0))
    )
    tube = slab(2.1, -23, -4)
    collar = slab(2.8, -10, -6, Style.SHADE)
    gas = closed((-13, -6.6), (-2.1, -6.6), (-2.1, -5), (-13, -5))
    outer = rounded(
        (
            (-2.0, -23, 0),
            (-2.9, -27, 3),
            (0, -BURNER_MM, 1),
            (2.9, -27, 3),
            (2.0, -23, 0),
        )
    )
    inner = rounded(
        (
            (-1.1, -23, 0),
            (-1.2, -25.5, 2),
            (0, -30, 0.6),
            (1.2, -25.5, 2),
            (1.1, -23, 0),
        )
    )
    return Shape(
        (
            Stroke(foot, Style.BODY, closed=True),
            tube,
            gas,
            collar,
            Stroke(outer, Style.THIN),
            Stroke(inner, Style.THIN),
        ),
        label=(2.1, -17),
        top=(0, -BURNER_MM),
        others={"heat": (0, -BURNER_MM)},
    )


def spirit_burner(f: float) -> Shape:
    """A spirit burner with its wick alight."""
    w, h = 8 * f, 12 * f
    right = rounded(((2.5, -h, 1), (w, -h * 0.7, 3), (w, 0, 2), (0, 0, 0)))
    body = (*right, *(mirrored(p) for p in reversed(right)))
    cap = slab(2.5, -h - 3, -h, Style.SHADE)
    wick = line((0, -h - 4.5), (0, -2), style=Style.THIN)
    flame = rounded(
        (
            (-1, -h - 4, 0),
            (-2.4, -h - 7.5, 2.4),
            (0, -h - 15, 0.8),
            (2.4, -h - 7.5, 2.4),
            (1, -h - 4, 0),
        )
    )
    return Shape(
        (Stroke(body, closed=True), wick, cap, Stroke(flame, Style.THIN)),
        label=(w, -h * 0.4),
        top=(0, -h - 15),
        cavity=body,
        others={"heat": (0, -h - 15)},
    )


def tripod(_f: float) -> Shape:
    """A tripod tall enough for a lit burner."""
    h, w, foot = BURNER_MM + 3, 15.0, 18.5
    ring = slab(w, -h, -h + 1.2)
    legs = (line((-w + 1, -h + 1.2), (-foot, 0)), line((w - 1, -h + 1.2), (foot, 0)))
    return Shape(
        (*legs, ring), label=(w + 2.2, -h * 0.4), top=(0, -h), others={"under": (0, 0)}
    )


def gauze(_f: float) -> Shape:
    """A gauze with its heat-resistant centre."""
    mesh = tuple(
        line((x, -1.1), (x + 1.0, -0.1), style=Style.THIN) for x in range(-16, 16, 2)
    )
    centre = slab(8, -1.2, 0, Style.SHADE)
    return Shape(
        (slab(17, -1.2, 0), *mesh, centre),
        label=(17, -0.6),
        top=(0, -1.2),
        flame=(0, 0),
    )


def pipeclay_triangle(_f: float) -> Shape:
    """A pipeclay triangle, its two near pipes seen from their ends."""
    left = Stroke(arc((-7.6, -1.3), 1.3, 0, 360), Style.SHADE, closed=True)
    right = Stroke(arc((7.6, -1.3), 1.3, 0, 360), Style.SHADE, closed=True)
    wires = (line((-17, 0), (-8.4, -0.4)), line((8.4, -0.4), (17, 0)))
    return Shape(
        (*wires, left, right),
        label=(8.9, -1.3),
        top=(0, 3.0),
        flame=(0, 3.0),
    )


def hot_plate(f: float) -> Shape:
    """A hot plate."""
    w, h = 20 * f, 11 * f
    plate = slab(w * 0.9, -h - 2, -h, Style.SHADE)
    knob = Stroke(arc((w * 0.55, -h * 0.5), 1.8, 0, 360))
    return Shape((slab(w, -h, 0), plate, knob), label=(w, -h * 0.6), top=(0, -h - 2))


def magnetic_stirrer(f: float) -> Shape:
    """A magnetic stirrer; its follower is drawn in the vessel that stands on it."""
    plain = hot_plate(f)
    return replace(
        plain, strokes=(*plain.strokes, Stroke(arc((-11 * f, -5.5 * f), 1.8, 0, 360)))
    )


def heating_mantle(f: float) -> Shape:
    """A heating mantle whose hollow takes a round flask."""
    r = 14.6 * f
    w, h = r + 5, r + 4
    hollow = arc((0, -h), r, 0, 180)
    body = (*hollow, (-w, -h), (-w, 0), (w, 0), (w, -h))
    return Shape(
        (Stroke(body, Style.SHADE, closed=True),),
        label=(w, -h * 0.5),
        top=(0, -h + r),
        others={"hollow": (0, -h)},
    )


def heat_resistant_mat(_f: float) -> Shape:
    """A heat-resistant mat."""
    return Shape((slab(26, -1.6, 0, Style.SHADE),), label=(24, -0.8), top=(0, -1.6))


def splint(f: float) -> Shape:
    """A splint held at a slant, its lit end at the origin."""
    h = 40 * f
    stick = closed((-0.5, 0), (0.5, -0.4), (12.5, -h), (11.5, -h - 0.4))
    flame = rounded(
        ((-0.5, 0, 0), (-2.2, -1, 1.6), (-1.6, -6, 0.8), (0.8, -2, 1.4), (0.5, -0.4, 0))
    )
    return Shape(
        (Stroke(flame, Style.THIN), stick),
        label=(10, -h * 0.8),
        tip=(0, 0),
        others={"lit": (0, 0)},
    )
