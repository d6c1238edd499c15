"""Graphs and drawings as panels."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from manualgen.editions.compositor import Compositor
from manualgen.editions.fence_panels import (
    DrawingPanel,
    DrawnContent,
    DrawnPiece,
    GraphPanel,
)
from manualgen.editions.key import FilledGraph, PlottedLine
from manualgen.editions.results import printed_result
from manualgen.editions.wording import wording_of
from manualgen.model.fences import Graph, Setup, SetupPiece
from manualgen.working.graphs import WorkedGraph
from manualgen.working.worked import WorkedExperiment


def set_graph(
    compositor: Compositor, work: WorkedExperiment, graph: Graph
) -> GraphPanel:
    """Squared paper with its axes; points and lines stand in the key."""
    worked = next(g for g in work.numbers.graphs if g.block is graph)
    return GraphPanel(
        compositor.number_at(graph.place),
        compositor.anchor_at(graph.place) or None,
        compositor.new_key(_plotted(work, worked) if worked.points else None),
        graph.x,
        graph.y,
    )


def _plotted(work: WorkedExperiment, worked: WorkedGraph) -> FilledGraph:
    points = worked.points
    return FilledGraph(
        tuple((float(p.at.x), float(p.at.y)) for p in points),
        tuple(p.x_error or 0.0 for p in points),
        tuple(p.y_error or 0.0 for p in points),
        tuple(_lines(work, worked)),
    )


def _lines(work: WorkedExperiment, worked: WorkedGraph) -> Iterator[PlottedLine]:
    """What is drawn through the points, each with what it tells."""
    ends = float(worked.block.x.start), float(worked.block.x.stop)
    told = _told(work, worked)
    if worked.curve:
        points = tuple((p.x, p.y) for p in worked.curve)
        yield PlottedLine(points, "" if worked.tangent else told)
    for line in worked.lines:
        straight = tuple((x, float(line.at(Fraction(x)))) for x in ends)
        yield PlottedLine(straight, told)
        told = ""
    if worked.tangent:
        touching = worked.tangent
        straight = tuple((x, touching.intercept + touching.gradient * x) for x in ends)
        yield PlottedLine(straight, told)


def _told(work: WorkedExperiment, graph: WorkedGraph) -> str:
    """The values that the lines give, as printed: gradient, intercept, crossing."""
    wording = wording_of(work.settings)
    values = (
        f"{wording.say[name]} {printed_result(value, wording.house)}"
        for name, value in graph.told.items()
    )
    return "; ".join(values)


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
