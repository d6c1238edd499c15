"""Widths of words, against the font files themselves."""

from __future__ import annotations

from importlib.resources import files

import pytest
from fontTools.ttLib import TTFont

from manualgen.drawing.face import MM_PER_PT, TEXT_PT, width_mm

FACE = files("font_source_serif_pro") / "files" / "SourceSerifPro-Regular.ttf"


@pytest.mark.parametrize(
    "words", ["sodium hydroxide, 0.100 mol", "Why is it so?", "ÅÄÖ é ß °C ½", "H₂O²"]
)
def test_a_width_is_the_sum_of_the_fonts_own(words: str) -> None:
    font = TTFont(str(FACE))
    names, advances = font.getBestCmap(), font["hmtx"]
    units = sum(advances[names[ord(character)]][0] for character in words)
    assert width_mm(words) == pytest.approx(units / 1000 * TEXT_PT * MM_PER_PT)


def test_a_character_that_no_table_knows_counts_as_wide() -> None:
    assert width_mm("漢", 10) == pytest.approx(10 * MM_PER_PT)
