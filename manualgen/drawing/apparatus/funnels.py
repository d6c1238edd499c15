"""Funnels, and what stands in the neck of a flask."""

from __future__ import annotations

from dataclasses import replace

from manualgen.drawing.apparatus.vessel import (
    closed,
    line,
    slab,
    wall_at,
)
from manualgen.drawing.geometry import Corner, arc, mirrored, rounded
from manualgen.drawing.shape import Mouth, Shape, Stroke, Style


def _through(corners: tuple[Corner, ...], grip: float, label: float) -> Shape:
    """A piece open below: its right wall from rim to tip, and the left one."""
    right = rounded(corners)
    left = tuple(mirrored(p) for p in reversed(right))
    top = corners[0]
    inner = right[1:]
    return Shape(
        (Stroke(right), Stroke(left)),
        label=wall_at(right, label * top[1]),
        mouth=Mouth((0, top[1]), 2 * top[0]),
        tip=(0, 0),
        grip=mirrored(wall_at(right, grip * top[1])),
        cavity=(*inner, *(mirrored(p) for p in reversed(inner))),
        outline=(*right, *left),
    )


def filter_funnel(f: float) -> Shape:
    """A filter funnel, the end of its stem at the origin."""
    w, h, stem = 13 * f, 33 * f, 1.5
    funnel = _through(
        (
            (w, -h, 0),
            (w - 0.5, -h + 0.6, 0),
            (stem, -16 * f, 1),
            (stem, 0, 0),
        ),
        0.99,
        0.85,
    )
    cone = funnel.cavity
    bowl = tuple(p for p in cone if p[1] <= -16 * f + 1)
    return replace(funnel, cavity=bowl)


def with_filter_paper(f: float) -> Shape:
    """A filter funnel with its folded paper."""
    funnel = filter_funnel(f)
    h = 33 * f
    w = 10.4 * f
    cone = ((-w, -h + 2.6), (0, -16.6 * f), (w, -h + 2.6))
    paper = line(*cone, style=Style.THIN)
    return replace(funnel, over=(paper,), cavity=cone)


def separating_funnel(f: float) -> Shape:
    """A separating funnel with tap and stopper, the end of its stem at the origin."""
    h, neck, w = 60 * f, 3.2, 11 * f
    funnel = _through(
        (
            (neck, -h, 0),
            (neck, -h + 0.5, 0),
            (neck, -h + 9, 2),
            (w, -h + 18, 8),
            (w * 0.8, -h + 30, 9),
            (1.4, -14, 3),
            (1.4, 0, 0),
        ),
        1 - 6.4 / h,
        0.6,
    )
    bulb = tuple(p for p in funnel.cavity if p[1] <= -12)
    return replace(
        funnel,
        over=(*_tap(-10, 1.4), _stopper(neck, -h)),
        cavity=bulb,
        others={"layers": (0, 0)},
    )


def dropping_funnel(f: float) -> Shape:
    """A dropping funnel, open above, with its tap."""
    h, w, stem, tap = 52 * f, 6 * f, 1.1, -23 * f
    funnel = _through(
        (
            (w + 0.5, -h, 0),
            (w, -h + 1, 0),
            (w, -34 * f, 4),
            (stem, -27 * f, 2),
            (stem, 0, 0),
        ),
        0.9,
        0.8,
    )
    bulb = tuple(p for p in funnel.cavity if p[1] <= tap - 1)
    return replace(funnel, over=_tap(tap, stem), cavity=bulb)


def thistle_funnel(f: float) -> Shape:
    """A thistle funnel, the end of its stem at the origin."""
    h, w = 63 * f, 5.2 * f
    funnel = _through(
        (
            (w, -h, 0),
            (w * 0.85, -h + 1, 1),
            (w, -h + 5, 3),
            (1.1, -h + 9, 2),
            (1.1, 0, 0),
        ),
        0.9,
        0.95,
    )
    return replace(funnel, cavity=(), others={"head": (0, -h + 9)})


def buchner_funnel(f: float) -> Shape:
    """A Büchner funnel with its plate."""
    w, h = 11 * f, 34 * f
    funnel = _through(
        (
            (w, -h, 0),
            (w, -h + 0.5, 0),
            (w, -h + 12, 1),
            (2.0, -h + 20, 2),
            (2.0, 0, 0),
        ),
        0.9,
        0.85,
    )
    paper = line((-w + 1, -h + 9.3), (w - 1, -h + 9.3))
    plate = line((-w, -h + 10), (w, -h + 10))
    holes = tuple(
        line((x, -h + 9.5), (x, -h + 10.7), style=Style.THIN)
        for x in (-8 * f, -4 * f, 0, 4 * f, 8 * f)
    )
    bowl = ((w, -h), (w, -h + 9.1), (-w, -h + 9.1), (-w, -h))
    return replace(
        funnel, over=(plate, *holes, paper), cavity=bowl, others={"seat": (0, -11)}
    )


def _tap(y: float, bore: float) -> tuple[Stroke, ...]:
    key = slab(bore + 1, y - 1.5, y + 1.5, Style.SHADE)
    x = bore + 1
    handle = closed(
        (x, y - 0.5),
        (x + 2.6, y - 0.5),
        (x + 2.6, y + 0.5),
        (x, y + 0.5),
        style=Style.SHADE,
    )
    return key, handle


def _stopper(neck: float, y: float) -> Stroke:
    return closed(
        (-neck - 0.8, y - 3.2),
        (neck + 0.8, y - 3.2),
        (neck - 0.3, y + 3),
        (-neck + 0.3, y + 3),
        style=Style.SHADE,
    )


def pestle(f: float) -> Shape:
    """A pestle, its working end at the origin."""
    h = 30 * f
    body = rounded(
        (
            (-1.2, -h, 1),
            (-1.2, -8, 1),
            (-3, -3, 2),
            (-2, 0, 2),
            (2, 0, 2),
            (3, -3, 2),
            (1.2, -8, 1),
            (1.2, -h, 1),
        )
    )
    return Shape(
        (Stroke(body, Style.BODY, closed=True),), label=(1.2, -h * 0.8), tip=(0, 0)
    )


def glass_rod(f: float) -> Shape:
    """A glass rod, its end at the origin."""
    h, w = 58 * f, 0.8
    rod = (*arc((0, -w), w, 0, 180), (-w, -h), (w, -h))
    return Shape(
        (Stroke(rod, Style.BODY, closed=True),),
        label=(w, -h * 0.9),
        tip=(0, 0),
        grip=(-w, -h * 0.8),
    )


def stirrer(f: float) -> Shape:
    """A stirrer bent to a loop, seen from the side."""
    h = 56 * f
    rod = line((3.4, -h), (3.4, -1.6))
    ring = Stroke(tuple((x * 3.4, -1.2 + y * 1.2) for x, y in arc((0, 0), 1, 0, 360)))
    hook = line((3.4, -h), (5.4, -h))
    return Shape(
        (rod, ring, hook),
        label=(3.4, -h * 0.9),
        tip=(0, 0),
        grip=(3.4, -h * 0.8),
    )
