"""Whole drawings: what they tell of sizes and amounts, and that they are kept."""

from __future__ import annotations

from xml.etree.ElementTree import fromstring

import pytest

from manualgen.drawing.geometry import box_of
from manualgen.drawing.parts import Part
from manualgen.drawing.setup import compose, draw_setup
from manualgen.drawing.shape import Style
from tests.drawing.setups import parts, parts_from, texts


@pytest.mark.parametrize("title", texts())
def test_a_drawing_is_well_formed_and_says_what_it_shows(title: str) -> None:
    assert fromstring(draw_setup(parts(title), title)).get("aria-label") == title


def test_a_liquid_stands_higher_the_more_of_it_there_is() -> None:
    def level(volume: str) -> float:
        drawing = compose(parts_from(f"beaker, 250 cm3 [{volume} water]"), 3.1)
        (surface,) = (s for s in drawing.strokes if s.style is Style.SURFACE)
        return surface.points[0][1]

    assert level("200 cm3") < level("120 cm3") < level("60 cm3")


@pytest.mark.parametrize("volume", ["250 cm3", "250.0 cm3"])
def test_a_full_volumetric_flask_is_full_to_its_mark(volume: str) -> None:
    drawing = compose(parts_from(f"volumetric flask, 250 cm3 [{volume} solution]"), 3.1)
    (surface,) = (s for s in drawing.strokes if s.style is Style.SURFACE)
    (mark,) = drawing.layout.shape(0).over
    assert surface.points[0][1] == pytest.approx(mark.points[0][1], abs=0.05)


def test_a_larger_beaker_is_drawn_larger() -> None:
    def height(capacity: str) -> float:
        drawing = compose(parts_from(f"beaker, {capacity} cm3"), 3.1)
        return box_of(p for s in drawing.strokes for p in s.points).height

    assert height("100") < height("250") < height("400")


def test_lines_keep_their_weight_in_a_drawing_that_is_made_smaller() -> None:
    for title in ("titration", "dropping funnel and drying"):
        root = fromstring(draw_setup(parts(title), title))
        _, _, width, height = map(float, root.attrib["viewBox"].split())
        assert root.attrib["width"] == f"{width:g}mm"
        assert root.attrib["height"] == f"{height:g}mm"


def test_a_drawing_is_made_once_and_kept() -> None:
    before = draw_setup.cache_info().hits
    first = draw_setup(parts("titration"), "kept", 3.1)
    assert draw_setup(parts("titration"), "kept", 3.1) is first
    assert draw_setup.cache_info().hits > before


def test_labels_are_escaped() -> None:
    svg = draw_setup((Part("beaker", "<b>&"),), '"<x>')
    assert "<b>" not in svg
    assert fromstring(svg).get("aria-label") == '"<x>'


def test_a_second_piece_goes_into_a_vessel_with_the_first() -> None:
    lines = (
        "beaker, 250 cm3 [100 cm3 water]\nwith thermometer\nfrom beaker: with stirrer"
    )
    layout = compose(parts_from(lines), 3.1).layout
    assert layout.inserts == {0: [1, 2]}
