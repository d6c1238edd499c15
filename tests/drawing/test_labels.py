"""The words of every arrangement, measured on the drawing as it is printed.

That nothing may lie over anything else is common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from manualgen.drawing.labels import Align
from manualgen.drawing.setup import compose, draw_setup
from tests.drawing.seen import INK, faults_of_labels, faults_of_page, seen
from tests.drawing.setups import parts, texts

TITLES = tuple(texts())
PORTS = (
    ("water in", "water in"),
    ("water out", "water out"),
    ("paper", "paper"),
    ("start", "start line"),
)
SIZES = (3.1, 5.3)
"""Of letters, in mm: ordinary and large print."""

every = pytest.mark.parametrize("title", TITLES)


def test_there_are_fifty_arrangements() -> None:
    assert len(TITLES) >= 50


@every
@pytest.mark.parametrize("size", SIZES)
def test_no_label_collides_with_anything(title: str, size: float) -> None:
    drawing = seen(draw_setup(parts(title), title, size, PORTS))
    assert list(faults_of_labels(drawing)) == []


@every
@pytest.mark.parametrize("size", SIZES)
def test_a_drawing_fits_its_frame_and_the_column(title: str, size: float) -> None:
    drawing = seen(draw_setup(parts(title), title, size, PORTS))
    assert list(faults_of_page(drawing)) == []
    assert drawing.view.right - drawing.view.left <= 148.01
    assert drawing.view.bottom - drawing.view.top <= 104.01


@every
@pytest.mark.parametrize("size", SIZES)
def test_letters_are_as_large_as_they_should_be(title: str, size: float) -> None:
    svg = draw_setup(parts(title), title, size, PORTS)
    sizes = {float(found) for found in re.findall(r'font-size="([\d.]+)"', svg)}
    assert all(0.97 * size < found <= size for found in sizes)


@every
def test_every_piece_and_what_is_in_it_has_a_label(title: str) -> None:
    drawing = compose(parts(title), 3.1)
    written = " | ".join(" ".join(label.lines) for label in drawing.labels)
    for index, part in enumerate(parts(title)):
        if index not in drawing.layout.same and part.name != "bung":
            assert part.label in written
        assert all(content.label in written for content in part.contents)


def test_a_piece_in_the_middle_is_labelled_where_it_is() -> None:
    labels = compose(parts("dropping funnel and drying"), 3.1).labels
    near = {label.lines for label in labels if label.align is Align.NEAR}
    assert ("drying tube",) in near


def test_two_layers_of_liquid_have_a_label_each() -> None:
    labels = compose(parts("separating funnel"), 3.1).labels
    heights = {" ".join(label.lines): label.leader[0][1] for label in labels}
    assert heights["ester"] < heights["water"]


def spoilt(name: str, d: str) -> list[str]:
    """The faults of a titration's drawing with one more path."""
    svg = draw_setup(parts("titration"), "t", 3.1)
    added = f'<path class="{name}" d="{d}"/></svg>'
    return list(faults_of_labels(seen(svg.replace("</svg>", added))))


def test_the_measure_finds_a_stroke_over_words() -> None:
    drawing = seen(draw_setup(parts("titration"), "t", 3.1))
    for words in drawing.words:
        box = words.box
        faults = spoilt("line", f"M{box.left} {box.top}L{box.right} {box.bottom}")
        assert f"{words.text} lies over the drawing" in faults


def test_the_measure_finds_words_over_words() -> None:
    drawing = seen(draw_setup(parts("titration"), "t", 3.1))
    twice = replace(drawing, words=(*drawing.words, drawing.words[0]))
    assert any("lies over" in fault for fault in faults_of_labels(twice))


def test_the_measure_finds_lines_of_labels_that_cross() -> None:
    drawing = seen(draw_setup(parts("titration"), "t", 3.1))
    (ax, ay), *_ = drawing.named("leader")[0].points
    faults = spoilt("leader", f"M{ax - 1} {ay - 90}L{ax - 1} {ay + 90}")
    assert "two lines of labels cross" in faults


def test_the_measure_finds_a_line_that_points_at_nothing() -> None:
    assert any("at nothing" in fault for fault in spoilt("leader", "M-50 -80L-49 -80"))
    assert any("at no words" in fault for fault in spoilt("leader", "M0 -80L-49 -80"))


def test_the_measure_finds_what_is_over_the_edge() -> None:
    svg = draw_setup(parts("titration"), "t", 3.1)
    moved = re.sub(r'viewBox="(\S+) (\S+) (\S+) ', r'viewBox="0 \2 \3 ', svg)
    assert list(faults_of_page(seen(moved)))


@pytest.mark.parametrize("title", ["gas syringe", "titration", "gas over water"])
def test_labels_make_no_drawing_taller_where_they_have_room_beside_it(
    title: str,
) -> None:
    drawing = seen(draw_setup(parts(title), title, 3.1, PORTS))
    ink = [y for path in drawing.paths if path.name in INK for _, y in path.points]
    for words in drawing.words:
        assert min(ink) - 0.1 < words.box.top
        assert words.box.bottom < max(ink) + 0.1
