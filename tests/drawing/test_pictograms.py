"""The nine pictograms of the UN GHS (1.4.10.4 and Annex 1; names from memory)."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from manualgen.drawing.pictograms import PICTOGRAMS, RED, pictogram


def test_there_are_the_nine_pictograms_of_the_standard() -> None:
    assert list(PICTOGRAMS) == [f"GHS0{n}" for n in range(1, 10)]


@pytest.mark.parametrize("code", PICTOGRAMS)
def test_a_pictogram_is_a_framed_square_on_a_point_with_its_name(code: str) -> None:
    svg = ET.fromstring(pictogram(code))
    assert svg.get("width") == svg.get("height") == "10mm"
    assert svg.findtext("{*}title") == PICTOGRAMS[code][0]
    frame = svg.find("{*}path")
    assert frame is not None
    assert frame.get("stroke") == RED
    assert frame.get("fill") == "#fff"
    assert len(list(svg)) > 2, "a symbol stands in the frame"


def test_the_frame_stays_dark_in_grey() -> None:
    """Luminance by ITU-R BT.601; white paper is 255."""
    red, green, blue = (int(RED[n : n + 2], 16) for n in (1, 3, 5))
    assert 0.299 * red + 0.587 * green + 0.114 * blue < 100


def test_no_two_symbols_are_alike() -> None:
    assert len({symbol() for _, symbol in PICTOGRAMS.values()}) == 9


def test_a_code_that_the_standard_does_not_have_is_refused() -> None:
    with pytest.raises(KeyError):
        pictogram("GHS10")
