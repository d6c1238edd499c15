"""How wide words are in the manual's text face.

The widths are the font's own, without kerning, which makes hardly a hundredth
of a line's length; a character that the table lacks counts as a wide one.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Final

import yaml

TEXT_PT: Final = 10.5
"""The size of the text of the manual."""

MM_PER_PT: Final = 25.4 / 72
_PT_PER_MM: Final = 72 / 25.4

_WIDE: Final = 1000

EM_MM: Final = TEXT_PT * MM_PER_PT
"""The width of an em of the text, which no character exceeds."""


@cache
def _widths() -> Mapping[str, int]:
    text = (files("manualgen") / "data" / "face.yaml").read_text(encoding="utf-8")
    table = yaml.load(text, Loader=yaml.CBaseLoader)
    rows: list[dict[str, str]] = table["widths"]
    return {c: int(row["width"]) for row in rows for c in row["characters"]}


def width_mm(text: str, size_pt: float = TEXT_PT) -> float:
    """The width of text on one line, in mm."""
    widths = _widths()
    units = sum(widths.get(character, _WIDE) for character in text)
    return units / 1000 * size_pt * MM_PER_PT


def lettering_mm(words: str, size_mm: float) -> float:
    """The width of words in a drawing, whose letters are measured in mm too."""
    return width_mm(words, size_mm * _PT_PER_MM)
