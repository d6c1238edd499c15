"""Graphs and drawings as panels."""

from __future__ import annotations

from manualgen.editions.compositor import Compositor
from manualgen.editions.sheet import (
    DrawingPanel,
    DrawnContent,
    DrawnPiece,
    GraphPanel,
)
from manualgen.model.fences import Graph, Setup, SetupPiece
from manualgen.working.worked import WorkedExperiment


def set_graph(
    compositor: Compositor, work: WorkedExperiment, graph: Graph
) -> GraphPanel:
    """Squared paper with its axes; points and line stand in the key."""
    return GraphPanel(
        compositor.number_at(graph.place),
        compositor.anchor_at(graph.place) or None,
        compositor.new_key(),
        graph.x,
        graph.y,
    )


def set_drawing(compositor: Compositor, setup: Setup) -> DrawingPanel:
    """A drawing of apparatus, with the contents as the author names them."""
    return DrawingPanel(
        compositor.number_at(setup.place),
        compositor.anchor_at(setup.place) or None,
        tuple(_drawn(piece) for piece in setup.pieces),
    )


def _drawn(piece: SetupPiece) -> DrawnPiece:
    return DrawnPiece(
        piece.name,
        piece.capacity,
        piece.stoppered,
        tuple(DrawnContent(c.name, c.amount, c.strength) for c in piece.contents),
        piece.relation.value if piece.relation else None,
        piece.by,
        piece.base,
    )
