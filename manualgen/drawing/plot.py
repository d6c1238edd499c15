"""Graphs on squared paper."""

from __future__ import annotations

from manualgen.editions.key import FilledGraph
from manualgen.model.fences import Axis
from manualgen.quantities import HouseStyle


def plot(x: Axis, y: Axis, drawn: FilledGraph | None, house: HouseStyle) -> str:
    """The SVG of a graph."""
    return '<svg width="140mm" height="100mm" role="img" aria-label="graph"></svg>'
