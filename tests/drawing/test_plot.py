"""Squared paper and graphs. The scales are worked out by hand."""

from __future__ import annotations

import itertools
from decimal import Decimal
from xml.etree.ElementTree import fromstring

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.drawing.clip import clipped
from manualgen.drawing.plot import Curve, Drawn, Lettering, plot
from manualgen.drawing.scale import Scale
from manualgen.drawing.svg import Letters, axis_title
from tests.drawing.seen import Box, Path, as_path, enters

TIME = Scale("t", "min", Decimal(0), Decimal(6), Decimal(1))
VOLUME = Scale("V", "cm³", Decimal(0), Decimal(70), Decimal(10))
LETTERING = Lettering("A graph", "10 cm")
DRAWN = Drawn(
    points=((1.0, 21.0), (2.0, 36.0), (9.0, 99.0)),
    y_errors=(1.0, 1.0, 1.0),
    curves=(Curve(((0.0, 0.0), (10.0, 200.0)), "gradient 20 cm³ min⁻¹"),),
)


@pytest.mark.parametrize(
    ("axis", "room", "pitch", "steps"),
    [
        (("0", "6", "1"), 130, 20, 6),
        (("0", "12", "1"), 130, 10, 12),
        (("0", "3", "1"), 130, 40, 3),
        (("18", "34", "2"), 120, 10, 8),
        (("0", "100", "1"), 130, 10, 10),
        (("0", "1.05", "0.1"), 130, 10, 11),
    ],
)
def test_labels_stand_on_heavy_lines(
    axis: tuple[str, str, str], room: int, pitch: int, steps: int
) -> None:
    scale = Scale("x", "", *map(Decimal, axis)).fitted(room)
    assert (scale.pitch_mm, scale.steps) == (pitch, steps)


def test_an_axis_too_fine_to_label_is_labelled_at_wider_steps() -> None:
    scale = Scale("x", "", Decimal(0), Decimal(100), Decimal(1)).fitted(130)
    assert [words for _, words in scale.labels(".")][:3] == ["0", "10", "20"]


def test_labels_carry_the_decimals_and_the_mark_of_the_house() -> None:
    scale = Scale("x", "", Decimal("-0.2"), Decimal("0.2"), Decimal("0.1")).fitted(130)
    assert [w for _, w in scale.labels(",")] == ["−0,2", "−0,1", "0,0", "0,1", "0,2"]


@given(
    st.integers(-50, 50),
    st.integers(1, 3000),
    st.sampled_from(["0.01", "0.2", "1", "5", "50"]),
)
def test_every_axis_fits_and_holds_its_values(start: int, span: int, step: str) -> None:
    stop = start + span
    scale = Scale("x", "", Decimal(start), Decimal(stop), Decimal(step)).fitted(130)
    assert 0 < scale.length_mm <= 130
    assert scale.place_mm(start) == 0
    assert scale.place_mm(stop) <= scale.length_mm + 1e-6


def size(svg: str) -> tuple[str, str, str]:
    root = fromstring(svg)
    return root.get("width", ""), root.get("height", ""), root.get("viewBox", "")


def test_what_the_teacher_draws_changes_nothing_of_the_paper() -> None:
    student, teacher = (
        plot(TIME, VOLUME, LETTERING),
        plot(TIME, VOLUME, LETTERING, DRAWN),
    )
    assert size(student) == size(teacher)
    assert teacher.startswith(student.removesuffix("</svg>"))


def test_a_graph_is_drawn_in_millimetres() -> None:
    width, height, view = size(plot(TIME, VOLUME, LETTERING))
    assert view == f"0 0 {width.removesuffix('mm')} {height.removesuffix('mm')}"


@pytest.mark.parametrize("letters", [3.2, 5.2])
def test_a_graph_with_long_numbers_keeps_to_the_column(letters: float) -> None:
    """Letter paper's column is 149 mm; what is wider would be printed smaller."""
    fine = Scale("c", "", Decimal("-0.0025"), Decimal("0.0025"), Decimal("0.0005"))
    many = Scale("t", "s", Decimal(0), Decimal(130), Decimal(10))
    width, _, _ = size(plot(many, fine, Lettering("g", "10 cm", ".", letters)))
    assert float(width.removesuffix("mm")) <= 149


def test_the_paper_has_a_line_every_two_millimetres() -> None:
    root = fromstring(plot(TIME, VOLUME, LETTERING))
    fine = next(p for p in root if p.get("class") == "fine").get("d", "")
    xs = [float(move.split()[0]) for move in fine.split("M")[1:] if "v" in move]
    assert len(xs) == 120 / 2 + 1
    assert {round(b - a, 3) for a, b in itertools.pairwise(xs)} == {2.0}


def test_the_check_line_measures_ten_centimetres() -> None:
    root = fromstring(plot(TIME, VOLUME, LETTERING))
    check = next(p for p in root if p.get("class") == "check").get("d", "")
    assert "h100m" in check


def test_points_off_the_paper_are_not_drawn() -> None:
    root = fromstring(plot(TIME, VOLUME, LETTERING, DRAWN))
    assert sum(p.get("class") == "point" for p in root) == 2


def test_axes_are_labelled_quantity_over_unit() -> None:
    words = ["".join(t.itertext()) for t in fromstring(plot(TIME, VOLUME, LETTERING))]
    assert "t / min" in words
    assert "V / cm3" in words


def test_a_line_is_cut_at_the_edge_of_the_paper() -> None:
    box = (0.0, 0.0, 10.0, 10.0)
    assert list(clipped([(-5, 5), (15, 5)], box)) == [((0.0, 5.0), (10.0, 5.0))]
    assert list(clipped([(-5, -5), (-1, 20)], box)) == []
    assert list(clipped([(1, 1), (5, 20), (9, 1)], box)) == [
        ((1, 1), pytest.approx((2.8947368, 10))),
        (pytest.approx((7.1052632, 10)), (9, 1)),
    ]


coordinate = st.floats(-30, 30, allow_nan=False)


@given(st.lists(st.tuples(coordinate, coordinate), min_size=2, max_size=8))
def test_nothing_that_is_left_of_a_line_lies_outside(
    points: list[tuple[float, float]],
) -> None:
    for stretch in clipped(points, (0.0, 0.0, 10.0, 10.0)):
        for x, y in stretch:
            assert -1e-6 <= x <= 10 + 1e-6
            assert -1e-6 <= y <= 10 + 1e-6


def drawn_paths(svg: str, name: str) -> list[Path]:
    found = (e for e in fromstring(svg).iterfind("path") if e.get("class") == name)
    return [as_path(element) for element in found]


@given(
    st.lists(
        st.tuples(st.floats(0, 6), st.floats(0, 70), st.floats(0, 6), st.floats(0, 70)),
        min_size=1,
        max_size=2,
    )
)
def test_a_legend_lies_over_no_line(ends: list[tuple[float, ...]]) -> None:
    curves = tuple(
        Curve(((a, b), (c, d)), "gradient 20.3 ± 0.2 cm³ min⁻¹, intercept 1.2 cm³")
        for a, b, c, d in ends
    )
    svg = plot(TIME, VOLUME, LETTERING, Drawn(curves=curves))
    (patch,) = drawn_paths(svg, "hollow")
    xs, ys = zip(*patch.points, strict=True)
    box = Box(min(xs), min(ys), max(xs), max(ys))
    for line in drawn_paths(svg, "curve"):
        assert not any(enters(piece, box.wider(-0.1)) for piece in line.pieces)


def test_a_legend_keeps_clear_of_points_and_their_bars() -> None:
    points = tuple((float(t), 60.0) for t in range(7))
    curve = Curve(((0.0, 60.0), (6.0, 60.0)), "gradient 0 cm³ min⁻¹")
    errors = (9.0,) * 7
    svg = plot(TIME, VOLUME, LETTERING, Drawn(points, (), errors, (curve,)))
    (patch,) = drawn_paths(svg, "hollow")
    (upper, *_) = (float(e.get("y", "")) for e in fromstring(svg) if e.text == "70")
    (lower, *_) = (float(e.get("y", "")) for e in fromstring(svg) if e.text == "50")
    end_of_bars = lower - (lower - upper) / 20
    assert min(y for _, y in patch.points) > end_of_bars


def test_a_legend_without_room_hides_nothing_with_its_ground() -> None:
    zigzag = tuple((t / 50, 70.0 * (t % 2)) for t in range(301))
    svg = plot(TIME, VOLUME, LETTERING, Drawn(curves=(Curve(zigzag, "everywhere"),)))
    assert drawn_paths(svg, "hollow") == []
    assert "everywhere" in svg


@pytest.mark.parametrize(
    ("symbol", "upright"),
    [("ln k", "ln"), ("1/T", "1/"), ("V", ""), ("log10 c", "log10"), ("m(water)", "")],
)
def test_functions_and_figures_of_an_axis_are_upright(
    symbol: str, upright: str
) -> None:
    """Quantities are italic, functions and figures upright (ISO 80000-2)."""
    words = fromstring(axis_title(Letters((0, 0), 3), symbol, ""))
    assert (words.text or "").strip() == upright
    (quantity,) = words
    assert quantity.get("class") == "symbol"
    assert quantity.text in ("k", "T", "V", "c", "m")


@pytest.mark.parametrize(("size_mm", "numbers"), [(3.2, 9), (4.6, 5)])
def test_numbers_that_would_run_together_stand_at_every_second_mark(
    size_mm: float, numbers: int
) -> None:
    """Nine marks 10 mm apart; ``0.00`` is some 8 mm wide in large print."""
    across = Scale("c", "mol/dm³", Decimal(0), Decimal("0.08"), Decimal("0.01"))
    lettering = Lettering("A graph", "10 cm", size_mm=size_mm)
    drawn = fromstring(plot(across, VOLUME, lettering))
    written = ["".join(t.itertext()) for t in drawn.iter() if t.tag.endswith("text")]
    assert len([w for w in written if w.startswith("0.0")]) == numbers
