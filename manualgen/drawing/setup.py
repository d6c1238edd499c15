"""Apparatus."""

from __future__ import annotations

from manualgen.editions.sheet import DrawnPiece
from manualgen.quantities import HouseStyle


def draw_setup(pieces: tuple[DrawnPiece, ...], house: HouseStyle) -> str:
    """The SVG of an arrangement."""
    return '<svg width="100mm" height="60mm" role="img" aria-label="drawing"></svg>'
