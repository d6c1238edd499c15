"""Arrangements of apparatus: nothing loose, nothing over anything else.

What a drawing has to keep to (pieces stand on something, tubes meet what they
join, labels are legible) is common practice, no source.
"""

from __future__ import annotations

from itertools import combinations, pairwise
from xml.etree.ElementTree import fromstring

import pytest

from manualgen.drawing.geometry import Box, Point, box_of, distance, segments_cross
from manualgen.drawing.labels import Align
from manualgen.drawing.parts import Arrangement, Part, Way
from manualgen.drawing.setup import Drawing, compose, draw_setup
from manualgen.drawing.shape import Shape, Stroke
from manualgen.drawing.tubing import Run
from tests.drawing.setups import parts, parts_from, texts

TITLES = tuple(texts())
DRAWINGS = {title: compose(parts(title), 3.1) for title in TITLES}
NEAR_MM = 0.6

every = pytest.mark.parametrize("title", TITLES)


def shapes(drawing: Drawing) -> dict[int, Shape]:
    return {i: s for group in drawing.layout.groups for i, s in group.shapes.items()}


def segments(strokes: tuple[Stroke, ...]) -> list[tuple[Point, Point]]:
    found: list[tuple[Point, Point]] = []
    for stroke in strokes:
        points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
        found.extend(pairwise(points))
    return found


def gap_to(point: Point, strokes: tuple[Stroke, ...]) -> float:
    """How far a point is from the nearest of several lines."""
    return min(_to_segment(point, a, b) for a, b in segments(strokes))


def _to_segment(p: Point, a: Point, b: Point) -> float:
    length = distance(a, b) ** 2
    if length == 0:
        return distance(p, a)
    along = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length
    t = min(1.0, max(0.0, along))
    return distance(p, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))


def is_in(point: Point, box: Box, gap: float = 0.0) -> bool:
    across = box.left - gap <= point[0] <= box.right + gap
    return across and box.top - gap <= point[1] <= box.bottom + gap


def test_there_are_fifty_arrangements() -> None:
    assert len(TITLES) >= 50


@every
def test_no_two_labels_overlap(title: str) -> None:
    labels = DRAWINGS[title].labels
    for one, other in combinations(labels, 2):
        assert not one.box.meets(other.box), (one.lines, other.lines)


@every
def test_no_label_lies_over_the_drawing(title: str) -> None:
    drawing = DRAWINGS[title]
    drawn = box_of(p for s in drawing.strokes for p in s.points)
    for label in drawing.labels:
        if label.align is Align.NEAR:
            ends = [p for piece in segments(drawing.strokes) for p in piece]
            assert not any(is_in(end, label.box) for end in ends), label.lines
        else:
            assert not label.box.meets(drawn), label.lines


@every
def test_no_two_label_lines_cross(title: str) -> None:
    labels = DRAWINGS[title].labels
    for one, other in combinations(labels, 2):
        for a, b in pairwise(one.leader):
            for c, d in pairwise(other.leader):
                assert not segments_cross(a, b, c, d), (one.lines, other.lines)


def test_a_piece_in_the_middle_is_labelled_where_it_is() -> None:
    labels = DRAWINGS["dropping funnel and drying"].labels
    near = {label.lines for label in labels if label.align is Align.NEAR}
    assert ("drying tube",) in near


@every
def test_every_piece_and_what_is_in_it_has_a_label(title: str) -> None:
    written = {" ".join(label.lines) for label in DRAWINGS[title].labels}
    for index, part in enumerate(parts(title)):
        if index not in DRAWINGS[title].layout.same and part.name != "bung":
            assert part.label in written
        inside = ", ".join(c.label for c in part.contents)
        assert not inside or inside in written


@every
def test_nothing_is_below_the_bench_and_something_stands_on_it(title: str) -> None:
    bottoms = [shape.box.bottom for shape in shapes(DRAWINGS[title]).values()]
    assert max(bottoms) <= 0.01
    assert max(bottoms) > -0.01


def supported(layout: Arrangement, index: int, shape: Shape) -> bool:
    """Whether a piece has a reason not to fall down."""
    group = layout.group(index)
    others = [s for i, s in group.shapes.items() if i != index]
    bottom = shape.box.bottom
    stands = bottom > -0.01 or any(
        abs((s.top or (0, s.box.top))[1] - bottom) < 0.1 for s in others
    )
    hangs = any(held == index for held, _ in layout.held)
    inside = index in layout.inside or any(o == index for o in layout.inside.values())
    fitted = bool(shape.tip or shape.joint or shape.inlet)
    resting = any(s.mouth and abs(s.mouth.at[1] - bottom) < 12 for s in others)
    under = any(abs(p[1] - bottom) < 0.1 for s in group.fittings for p in s.points)
    return stands or hangs or inside or fitted or resting or under


FLOATING = {("heat of combustion", "metal can")}
"""What the author of the arrangement left unheld."""


@every
def test_no_piece_hangs_in_the_air(title: str) -> None:
    drawing = DRAWINGS[title]
    for index, shape in shapes(drawing).items():
        name = parts(title)[index].name
        if name in ("clamp stand", "pipeclay triangle") or (title, name) in FLOATING:
            continue
        assert supported(drawing.layout, index, shape), name


@every
def test_what_stands_on_something_touches_it(title: str) -> None:
    drawing = DRAWINGS[title]
    for index, part in enumerate(parts(title)):
        if part.relation != "on" or part.base is None:
            continue
        below, above = drawing.layout.shape(index), drawing.layout.shape(part.base)
        if part.name in ("pipeclay triangle", "heating mantle") or above.joint:
            continue
        box = above.box
        rests = below.mouth is not None and below.top is None
        top = (
            below.mouth.at[1]
            if rests and below.mouth
            else (below.top or (0, below.box.top))[1]
        )
        assert box.bottom == pytest.approx(top, abs=12 if rests else 0.05)


@every
def test_a_clamp_grips_what_it_holds(title: str) -> None:
    drawing = DRAWINGS[title]
    for held, stand in drawing.layout.held:
        jaw = drawing.layout.shape(stand).others["jaw"]
        shape = drawing.layout.shape(held)
        assert gap_to(jaw, shape.strokes) < NEAR_MM


@every
def test_a_flame_burns_under_what_it_heats(title: str) -> None:
    drawing = DRAWINGS[title]
    for index, part in enumerate(parts(title)):
        if part.relation != "heated by" or part.base is None:
            continue
        flame = drawing.layout.shape(index).others["heat"]
        piece = drawing.layout.shape(part.base)
        heated = piece.box
        bottom = heated.top if "under" in piece.others else heated.bottom
        assert heated.left < flame[0] < heated.right
        assert flame[1] > bottom - 0.1
        assert flame[1] - bottom < 6


def joins(run: Run, shape: Shape, end: Point) -> bool:
    """Whether an end of a tube or a lead is where the piece takes it."""
    ports = [p for p in (shape.outlet, shape.inlet, *shape.terminals) if p]
    if any(distance(end, port) < 0.05 for port in ports):
        return True
    return run.connection.way is not Way.LEAD and is_in(end, shape.box, 0.5)


@every
def test_every_tube_and_lead_meets_what_it_joins(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in drawing.runs:
        for index, end in (
            (run.connection.source, run.points[0]),
            (run.connection.target, run.points[-1]),
        ):
            ends = (run.points[0], run.points[-1])
            shape = drawing.layout.shape(index)
            assert joins(run, shape, end) or any(joins(run, shape, e) for e in ends)


@every
def test_a_tube_through_a_bung_passes_the_mouth(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in drawing.runs:
        source = drawing.layout.shape(run.connection.source)
        if run.connection.way is Way.TUBE and source.mouth and not source.outlet:
            x, rim = source.mouth.at
            assert abs(run.points[0][0] - x) < source.mouth.width / 2
            assert run.points[0][1] > rim


@every
def test_pieces_side_by_side_keep_apart(title: str) -> None:
    groups = [g for g in DRAWINGS[title].layout.groups if g.shapes]
    for one, other in combinations(groups, 2):
        for a in one.shapes.values():
            for b in other.shapes.values():
                assert not a.box.meets(b.box)


@every
def test_a_drawing_is_well_formed_and_fits_the_column(title: str) -> None:
    svg = draw_setup(parts(title), title)
    root = fromstring(svg)
    assert root.get("aria-label") == title
    assert float(root.get("width", "").removesuffix("mm")) <= 148.01
    assert float(root.get("height", "").removesuffix("mm")) <= 104.01


def test_a_liquid_stands_higher_the_more_of_it_there_is() -> None:
    def level(volume: str) -> float:
        drawing = compose(parts_from(f"beaker, 250 cm3 [{volume} water]"), 3.1)
        (surface,) = (s for s in drawing.strokes if s.style == "surface")
        return surface.points[0][1]

    assert level("200 cm3") < level("120 cm3") < level("60 cm3")


def test_a_larger_beaker_is_drawn_larger() -> None:
    def height(capacity: str) -> float:
        drawing = compose(parts_from(f"beaker, {capacity} cm3"), 3.1)
        return box_of(p for s in drawing.strokes for p in s.points).height

    assert height("100") < height("250") < height("400")


def test_labels_are_escaped() -> None:
    svg = draw_setup((Part("beaker", "<b>&"),), '"<x>')
    assert "<b>" not in svg
    assert fromstring(svg).get("aria-label") == '"<x>'
