"""What lies along a line of tubing, its beginning at the origin."""

from __future__ import annotations

from manualgen.drawing.apparatus.vessel import TUBE_MM, closed, line, side_arm
from manualgen.drawing.geometry import beside, rounded
from manualgen.drawing.shape import Shape, Stroke, Style


def drying_tube(f: float) -> Shape:
    """A tube of drying agent that lies level, its inlet at the origin."""
    w, n, end = 3.6 * f, 6, 6 + 26 * f
    upper = rounded(
        (
            (0, -TUBE_MM, 0),
            (n, -TUBE_MM, 1),
            (n + 3, -w, 1.5),
            (end, -w, 1.5),
            (end + 3, -TUBE_MM, 1),
            (end + 9, -TUBE_MM, 0),
        )
    )
    lower = tuple((x, -y) for x, y in upper)
    inside = ((n + 3, -w), (end, -w), (end, w), (n + 3, w))
    return Shape(
        (Stroke(upper), Stroke(lower)),
        label=((n + end) / 2, -w),
        base=((n + end) / 2, w),
        inlet=(0, 0),
        outlet=(end + 9, 0),
        grip=((n + end) / 2, w),
        cavity=inside,
        others={"packed": (0, 0)},
    )


def hard_glass_tube(f: float) -> Shape:
    """A hard-glass tube that lies level, open to a tube at both ends."""
    w, end = 4.2 * f, 46 * f
    bungs = (
        closed((0, -w + 0.5), (5, -w), (5, w), (0, w - 0.5), style=Style.SHADE),
        closed(
            (end, -w),
            (end + 5, -w + 0.5),
            (end + 5, w - 0.5),
            (end, w),
            style=Style.SHADE,
        ),
    )
    walls = (line((3, -w), (end + 2, -w)), line((3, w), (end + 2, w)))
    return Shape(
        (*walls, *bungs),
        label=(end * 0.7, -w),
        base=(end / 2, w),
        inlet=(0, 0),
        outlet=(end + 5, 0),
        grip=(end * 0.17, w),
        flame=(end * 0.55, w),
        cavity=((5, -w), (end, -w), (end, w), (5, w)),
    )


def filter_pump(f: float) -> Shape:
    """A filter pump that hangs from a tap, the end of its side arm at the origin."""
    w, reach = 3.4 * f, 9.0
    x = reach + w
    right = (
        (x + 1.6, -16 * f),
        (x + 1.6, -9 * f),
        (x + w, -6 * f),
        (x + w, 6 * f),
        (x + 1.6, 12 * f),
        (x + 1.6, 24 * f),
    )
    left = tuple((2 * x - px, py) for px, py in right)
    jet = line((x - 1.6, -9 * f), (x - 0.5, -2 * f))
    opposite = line((x + 1.6, -9 * f), (x + 0.5, -2 * f))
    return Shape(
        (line(*right), line(*left), jet, opposite, *side_arm(reach, 0, -reach)),
        label=(x + w, 4 * f),
        base=(x, 24 * f),
        inlet=(0, 0),
        grip=(reach, 4 * f),
    )


def rubber_tubing(f: float) -> Shape:
    """A length of tubing, cut off at its far end; it begins at the origin."""
    course = rounded(
        ((0, 0, 0), (8 * f, 0, 4), (13 * f, 4, 5), (19 * f, 4, 5), (24 * f, 2, 0))
    )
    left, right = beside(course, TUBE_MM), beside(course, -TUBE_MM)
    cut = line(left[-1], right[-1])
    return Shape(
        (line(*left), line(*right), cut),
        label=course[len(course) // 2],
        base=(12 * f, 5),
        inlet=(0, 0),
        outlet=course[-1],
        grip=(12 * f, 5),
    )
