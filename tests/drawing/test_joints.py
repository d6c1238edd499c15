"""The joints of every arrangement, measured on its lines.

Pieces are told apart by the arrangement, but where each of them is, is measured
on what is drawn of it.  What has to touch, to dip and to close is common
practice, no source; 0.1 mm is a quarter of a line's weight.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

import pytest

from manualgen.drawing.parts import Arrangement, Way
from manualgen.drawing.setup import Drawing, compose
from manualgen.drawing.shape import Shape, Stroke, Style
from manualgen.drawing.tubing import Run
from tests.drawing.seen import Box, Piece, Point, crosses, far_from, is_inside
from tests.drawing.setups import parts, texts

TITLES = tuple(texts())
DRAWINGS = {title: compose(parts(title), 3.1) for title in TITLES}
NEAR_MM = 0.1
LEVEL = (
    "gas syringe",
    "drying tube",
    "hard-glass tube",
    "rubber tubing",
    "filter pump",
)

IN_THE_HAND = ("pipette", "dropping pipette")

every = pytest.mark.parametrize("title", TITLES)


def pieces_of(strokes: tuple[Stroke, ...]) -> list[Piece]:
    found: list[Piece] = []
    for stroke in strokes:
        if stroke.style not in (Style.HOLLOW, Style.LIQUID):
            ends = stroke.points[:1] if stroke.closed else ()
            found.extend(pairwise((*stroke.points, *ends)))
    return found


def inked(shape: Shape) -> list[Piece]:
    """The lines of a piece and of what is in it."""
    return pieces_of((*shape.strokes, *shape.over))


def glass(shape: Shape) -> list[Piece]:
    """The lines of a piece alone."""
    own = (Style.LINE, Style.BODY, Style.SHADE, Style.SOLID)
    return pieces_of(tuple(s for s in shape.strokes if s.style in own))


def extent(pieces: list[Piece]) -> Box:
    xs = [x for piece in pieces for x, _ in piece]
    ys = [y for piece in pieces for _, y in piece]
    return Box(min(xs), min(ys), max(xs), max(ys))


def walls_at(shape: Shape, y: float) -> list[float]:
    """Where the lines of a piece are at a height."""
    return sorted(
        ax + (bx - ax) * (y - ay) / (by - ay)
        for (ax, ay), (bx, by) in glass(shape)
        if (ay < y) != (by < y)
    )


def shapes(drawing: Drawing) -> dict[int, Shape]:
    return {i: s for group in drawing.layout.groups for i, s in group.shapes.items()}


def liquids(shape: Shape) -> Iterator[tuple[Point, ...]]:
    return (s.points for s in shape.strokes if s.style is Style.LIQUID)


def level(shape: Shape) -> float | None:
    """The height of the surface of what a vessel holds."""
    return min((y for body in liquids(shape) for _, y in body), default=None)


def bungs(drawing: Drawing) -> list[Stroke]:
    return [
        stroke
        for group in drawing.layout.groups
        for stroke in group.fittings
        if stroke.style is Style.SHADE and len(stroke.points) == 4
    ]


def ends_of(run: Run) -> tuple[tuple[int, Point, tuple[Point, Point]], ...]:
    """Each end of a tube: the piece there, its middle, and the ends of both walls."""
    _, left, right = run.strokes
    return tuple(
        (index, run.points[end], (left.points[end], right.points[end]))
        for index, end in ((run.connection.source, 0), (run.connection.target, -1))
    )


def tubes(title: str) -> list[Run]:
    return [r for r in DRAWINGS[title].runs if r.connection.way is Way.TUBE]


def test_a_tube_is_drawn_as_two_walls_about_its_course() -> None:
    for title in TITLES:
        for run in tubes(title):
            for wall in run.strokes[1:]:
                for point in wall.points:
                    off = far_from(point, list(pairwise(run.points)))
                    assert off == pytest.approx(1.05, abs=0.08)


@every
def test_every_end_of_a_tube_is_joined_or_inside(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in tubes(title):
        for index, middle, walls in ends_of(run):
            shape = drawing.layout.shape(index)
            at_glass = all(far_from(w, glass(shape)) < NEAR_MM for w in walls)
            assert at_glass or is_within(shape, middle), (title, index)


def is_within(shape: Shape, point: Point) -> bool:
    """Whether a point has the walls of a piece on either side."""
    walls = walls_at(shape, point[1])
    return bool(walls) and walls[0] < point[0] < walls[-1]


@every
def test_a_tube_passes_through_its_bung_and_ends_above_the_liquid(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in tubes(title):
        shape = drawing.layout.shape(run.connection.source)
        middle = run.points[0]
        if far_from(middle, glass(shape)) < 1.2 or not shape.mouth:
            continue
        holding = [b for b in bungs(drawing) if _spans(b, middle[0], shape)]
        assert len(holding) == 1
        (bung,) = holding
        low = max(y for _, y in bung.points)
        walls = [wall.points[0] for wall in run.strokes[1:]]
        for x, y in walls:
            assert is_inside((x, low - 0.05), bung.points)
            assert y > low
        surface = level(shape)
        assert surface is None or middle[1] < surface


def _spans(bung: Stroke, x: float, vessel: Shape) -> bool:
    """Whether a bung is in the mouth of a vessel, where a tube goes through."""
    rim = extent(glass(vessel)).top
    ys = [y for _, y in bung.points]
    xs = [x for x, _ in bung.points]
    return min(ys) < rim + 0.1 < max(ys) and min(xs) < x < max(xs)


@every
def test_a_bung_closes_the_mouth_it_is_in(title: str) -> None:
    drawing = DRAWINGS[title]
    for index in drawing.layout.closed:
        shape = drawing.layout.shape(index)
        assert shape.mouth
        x, rim = shape.mouth.at
        fits = [b for b in bungs(drawing) if is_inside((x, rim), b.points)]
        assert len(fits) == 1
        top, low = (e(y for _, y in fits[0].points) for e in (min, max))
        width = {
            y: max(x for x, py in fits[0].points if py == y) - x for y in (top, low)
        }
        necks = [w - x for w in walls_at(shape, low) if 0 < w - x < 20]
        rims = [w - x for w in walls_at(shape, rim + 2.3) if 0 < w - x < 20]
        assert width[low] <= min(necks) + 0.01
        assert width[top] > min(rims)


@every
def test_a_tube_into_a_liquid_dips_below_its_surface(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in tubes(title):
        shape = drawing.layout.shape(run.connection.target)
        end = run.points[-1]
        if (
            far_from(end, glass(shape)) < 1.2
            and parts(title)[run.connection.target].name in LEVEL
        ):
            continue
        surface = level(shape)
        floor = extent(glass(shape)).bottom
        if "rim" in shape.others:
            rim = floor
            assert end[1] < rim - 1
        else:
            assert end[1] < floor - 1
        if surface is not None:
            assert end[1] > surface + 1


@every
def test_a_liquid_reaches_from_wall_to_wall_and_no_farther(title: str) -> None:
    for shape in shapes(DRAWINGS[title]).values():
        for body in liquids(shape):
            top, bottom = min(y for _, y in body), max(y for _, y in body)
            for part in (0.03, 0.3, 0.6):
                y = top + (bottom - top) * part
                edges = sorted(
                    ax + (bx - ax) * (y - ay) / (by - ay)
                    for (ax, ay), (bx, by) in pairwise((*body, body[0]))
                    if (ay < y) != (by < y)
                )
                holder = inked(shape)
                assert far_from((edges[0], y), holder) < NEAR_MM
                assert far_from((edges[-1], y), holder) < NEAR_MM


@every
def test_a_surface_lies_where_its_liquid_ends(title: str) -> None:
    for shape in shapes(DRAWINGS[title]).values():
        surfaces = [s.points for s in shape.strokes if s.style is Style.SURFACE]
        for a, b in surfaces:
            assert a[1] == b[1]
        if surfaces:
            assert min(a[1] for a, _ in surfaces) == pytest.approx(level(shape))


@every
def test_lumps_lie_inside_their_vessel(title: str) -> None:
    for shape in shapes(DRAWINGS[title]).values():
        for lump in (s for s in shape.strokes if s.style is Style.GRAIN):
            for x, y in lump.points:
                walls = walls_at(shape, y)
                if len(walls) > 1:
                    assert walls[0] - 0.05 < x < walls[-1] + 0.05


@every
def test_what_a_vessel_holds_is_drawn(title: str) -> None:
    for index, part in enumerate(parts(title)):
        if index in DRAWINGS[title].layout.same:
            continue
        drawn = {s.style for s in DRAWINGS[title].layout.shape(index).strokes}
        for content in part.contents:
            assert {"liquid": Style.LIQUID, "gas": Style.LINE}.get(
                content.kind.value, Style.GRAIN
            ) in drawn or content.kind.value == "gas"


def clamped(drawing: Drawing) -> Iterator[tuple[Shape, Shape]]:
    for held, stand in drawing.layout.held:
        yield drawing.layout.shape(held), drawing.layout.shape(stand)


@every
def test_a_clamp_touches_what_it_holds(title: str) -> None:
    for held, stand in clamped(DRAWINGS[title]):
        jaws = [s for s in stand.strokes if s.style is Style.SHADE]
        corners = [p for jaw in jaws for p in sides_of(jaw)]
        assert min(far_from(p, glass(held)) for p in corners) < NEAR_MM


def sides_of(stroke: Stroke) -> Iterator[Point]:
    """The corners of a closed stroke and points between them."""
    for (ax, ay), (bx, by) in pairwise((*stroke.points, stroke.points[0])):
        for part in (0, 0.25, 0.5, 0.75):
            yield ax + (bx - ax) * part, ay + (by - ay) * part


@every
def test_the_foot_of_a_stand_is_clear_of_everything_on_the_bench(title: str) -> None:
    drawing = DRAWINGS[title]
    for _, stand in clamped(drawing):
        foot = extent(pieces_of((stand.strokes[1],)))
        for shape in shapes(drawing).values():
            if shape is not stand:
                crossing = [p for p in inked(shape) if extent([p]).meets(foot)]
                assert crossing == []


@every
def test_a_flame_burns_right_under_what_it_heats(title: str) -> None:
    drawing = DRAWINGS[title]
    for index, part in enumerate(parts(title)):
        if part.name not in ("burner", "spirit burner"):
            continue
        burner = drawing.layout.shape(index)
        flame = extent(
            pieces_of(tuple(s for s in burner.strokes if s.style is Style.THIN))
        )
        tip = ((flame.left + flame.right) / 2, flame.top)
        over = [
            y
            for i, shape in drawing.layout.group(index).shapes.items()
            if i != index
            for (ax, y), (bx, _) in glass(shape)
            if min(ax, bx) <= tip[0] <= max(ax, bx) and y <= tip[1] + 0.05
        ]
        assert over
        assert 0 <= tip[1] - max(over) + 0.05 < 9


@every
def test_every_lead_ends_on_metal(title: str) -> None:
    drawing = DRAWINGS[title]
    ink = [p for shape in shapes(drawing).values() for p in glass(shape)]
    for run in drawing.runs:
        if run.connection.way is Way.LEAD:
            assert far_from(run.points[0], ink) < NEAR_MM
            assert far_from(run.points[-1], ink) < NEAR_MM


@every
def test_a_salt_bridge_dips_into_both_liquids(title: str) -> None:
    drawing = DRAWINGS[title]
    for run in drawing.runs:
        if run.connection.way is not Way.BRIDGE:
            continue
        ends = run.connection.source, run.points[0], run.connection.target
        for index, end in ((ends[0], run.points[0]), (ends[2], run.points[-1])):
            shape = drawing.layout.shape(index)
            assert any(is_inside(end, body) for body in liquids(shape))


DIPS = ("thermometer", "probe", "electrode", "electrodes", "metal strip", "stirrer")


@every
def test_what_is_to_dip_ends_in_the_liquid_or_the_solid(title: str) -> None:
    drawing = DRAWINGS[title]
    for vessel, inserts in drawing.layout.inserts.items():
        holder = drawing.layout.shape(vessel)
        for index in inserts:
            if parts(title)[index].name not in DIPS:
                continue
            tip = extent(glass(drawing.layout.shape(index))).bottom
            top = min(
                (
                    y
                    for s in holder.strokes
                    if s.style in (Style.LIQUID, Style.GRAIN)
                    for _, y in s.points
                ),
                default=None,
            )
            floor = extent(glass(holder)).bottom
            assert top is None or top < tip < floor


@every
def test_what_is_in_one_vessel_keeps_apart(title: str) -> None:
    drawing = DRAWINGS[title]
    for vessel, inserts in drawing.layout.inserts.items():
        holder = drawing.layout.shape(vessel)
        rim = extent(glass(holder)).top
        boxes = [below(drawing.layout.shape(i), rim) for i in inserts]
        for one, other in combinations(boxes, 2):
            assert not one.meets(other)
        for box in boxes:
            walls = walls_at(holder, box.bottom)
            assert walls[0] < box.left
            assert box.right < walls[-1]


def below(shape: Shape, rim: float) -> Box:
    """What a piece takes up below a height."""
    low = [p for piece in glass(shape) for p in piece if p[1] > rim]
    return extent(list(pairwise(low)))


@every
def test_what_goes_through_one_bung_keeps_apart(title: str) -> None:
    drawing = DRAWINGS[title]
    through: dict[int, list[list[Piece]]] = {}
    for index, vessel in drawing.layout.through.items():
        through.setdefault(vessel, []).append(glass(drawing.layout.shape(index)))
    for run in tubes(title):
        for vessel in (run.connection.source, run.connection.target):
            if vessel in drawing.layout.closed:
                through.setdefault(vessel, []).append(pieces_of(run.strokes))
    for several in through.values():
        for one, other in combinations(several, 2):
            assert not any(crosses(p, q) for p in one for q in other)


@every
def test_pieces_side_by_side_keep_apart(title: str) -> None:
    groups = [g for g in DRAWINGS[title].layout.groups if g.shapes]
    for one, other in combinations(groups, 2):
        for a in one.shapes.values():
            for b in other.shapes.values():
                assert not extent(inked(a)).meets(extent(inked(b)))


@every
def test_nothing_is_below_the_bench_and_something_stands_on_it(title: str) -> None:
    lowest = max(extent(inked(s)).bottom for s in shapes(DRAWINGS[title]).values())
    assert lowest == pytest.approx(0, abs=0.01)


@every
def test_no_piece_hangs_in_the_air(title: str) -> None:
    drawing = DRAWINGS[title]
    for index, shape in shapes(drawing).items():
        assert is_supported(drawing.layout, index, shape), parts(title)[index].name


def is_supported(layout: Arrangement, index: int, shape: Shape) -> bool:
    """Whether a piece stands, is held, hangs at its tube, dips in, or rests on another."""
    part, group = layout.parts[index], layout.group(index)
    own = inked(shape)
    others = [p for i, s in group.shapes.items() if i != index for p in glass(s)]
    others += pieces_of(tuple(group.fittings))
    return (
        extent(own).bottom > -0.01
        or any(held == index for held, _ in layout.held)
        or "sign" in shape.others
        or part.name in (*LEVEL, *IN_THE_HAND)
        or index in {i for several in layout.inserts.values() for i in several}
        or is_touching(own, others)
    )


def is_touching(some: list[Piece], others: list[Piece]) -> bool:
    """Whether lines cross, or come nearer than can be seen."""
    ends = [p for piece in some for p in piece]
    their_ends = [p for piece in others for p in piece]
    return (
        any(far_from(p, others) < NEAR_MM for p in ends)
        or any(far_from(p, some) < NEAR_MM for p in their_ends)
        or any(crosses(a, b) for a in some for b in others)
    )


def test_water_goes_in_low_and_leaves_high_so_that_a_condenser_fills() -> None:
    for title in ("reflux", "distillation", "fractional distillation"):
        for shape in shapes(DRAWINGS[title]).values():
            if "water in" in shape.others:
                into, out = shape.others["water in"], shape.others["water out"]
                jacket = extent(pieces_of(shape.strokes[:1]))
                assert into[1] > out[1]
                if title != "reflux":
                    assert into[1] > (jacket.top + jacket.bottom) / 2
                    assert out[1] < (jacket.top + jacket.bottom) / 2


def test_the_bulb_of_a_thermometer_is_at_the_arm_of_the_still_head() -> None:
    for title in ("distillation", "fractional distillation"):
        named = {p.name: i for i, p in enumerate(parts(title))}
        layout = DRAWINGS[title].layout
        head, thermometer = (
            layout.shape(named[n]) for n in ("still head", "thermometer")
        )
        bulb = extent(
            pieces_of(tuple(s for s in thermometer.strokes if s.style is Style.SOLID))
        )
        right = max(x for (x, _), _ in glass(head))
        arm = [
            y
            for (x, y), _ in glass(head)
            if 0 < x - extent(glass(thermometer)).right < 3
        ]
        assert right > bulb.right
        assert min(arm) < bulb.bottom < max(arm)


def test_a_distilling_condenser_takes_the_arm_and_ends_in_the_adapter() -> None:
    layout = DRAWINGS["distillation"].layout
    named = {p.name: i for i, p in enumerate(parts("distillation"))}
    head, condenser, adapter = (
        layout.shape(named[n]) for n in ("still head", "condenser", "receiver adapter")
    )
    assert head.outlet
    assert condenser.outlet
    for end, taken in ((head.outlet, condenser), (condenser.outlet, adapter)):
        walls = [far_from(end, [piece]) for piece in glass(taken)]
        assert 1.0 < min(walls) < 2.4


def test_a_gas_syringe_lies_level_at_the_height_of_its_tube() -> None:
    for title in ("gas syringe", "gas syringe held", "syringe through a bung"):
        for run in tubes(title):
            assert run.points[-1][1] == pytest.approx(run.points[-2][1])


def test_a_funnel_rests_in_the_neck_of_a_flask_its_stem_inside() -> None:
    for title in ("volumetric flask", "filtration"):
        layout = DRAWINGS[title].layout
        named = {p.name: i for i, p in enumerate(parts(title))}
        funnel = next(layout.shape(i) for n, i in named.items() if "funnel" in n)
        flask = next(layout.shape(i) for n, i in named.items() if "flask" in n)
        assert flask.mouth
        rim = flask.mouth.at[1]
        assert is_touching(glass(funnel), glass(flask))
        assert rim < extent(glass(funnel)).bottom < rim + 25


def test_a_clamp_that_is_moved_off_is_found_loose() -> None:
    (held, stand) = next(clamped(DRAWINGS["titration"]))
    off = stand.moved(lambda p: (p[0] - 0.5, p[1]))
    jaws = [s for s in off.strokes if s.style is Style.SHADE]
    corners = [p for jaw in jaws for p in sides_of(jaw)]
    assert min(far_from(p, glass(held)) for p in corners) > NEAR_MM
