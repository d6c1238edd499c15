"""Graphs and drawings of a sheet, handed to the room that draws them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from manualgen.drawing.plot import Curve, Drawn, Lettering, plot
from manualgen.drawing.scale import Scale
from manualgen.editions.key import FilledGraph
from manualgen.editions.sheet import DrawingPanel, GraphPanel
from manualgen.model.fences import Axis
from manualgen.quantities import DecimalMark, printed_unit

if TYPE_CHECKING:
    from manualgen.pages.page import Page

NO_DRAWING = Drawn()


def set_graph(page: Page, panel: GraphPanel) -> Markup:
    """Squared paper, with what this edition draws on it."""
    filling = page.filling(panel.key)
    drawn = _drawn(filling) if isinstance(filling, FilledGraph) else NO_DRAWING
    x, y = _scale(page, panel.x), _scale(page, panel.y)
    comma = page.context.house.decimal is DecimalMark.COMMA
    lettering = Lettering(
        _description(page, x, y, drawn),
        page.say["ten_cm"],
        "," if comma else ".",
        4.6 if page.context.large else 3.2,
    )
    return Markup(plot(x, y, lettering, drawn))


def _scale(page: Page, axis: Axis) -> Scale:
    unit = printed_unit(axis.unit, page.context.house) if axis.unit.parts else ""
    return Scale(axis.symbol, unit, axis.start, axis.stop, axis.step)


def _drawn(filling: FilledGraph) -> Drawn:
    curves = tuple(Curve(line.points, line.label) for line in filling.lines)
    return Drawn(filling.points, filling.x_errors, filling.y_errors, curves)


def _description(page: Page, x: Scale, y: Scale, drawn: Drawn) -> str:
    words = page.say["graph_paper"].format(
        y=y.title, y0=y.start, y1=y.stop, x=x.title, x0=x.start, x1=x.stop
    )
    told = [f"({a:g}, {b:g})" for a, b in drawn.points]
    told += [curve.label for curve in drawn.curves if curve.label]
    return ". ".join((words, "; ".join(told))) if told else words


def set_drawing(page: Page, panel: DrawingPanel) -> Markup:
    """A drawing of apparatus."""
    return Markup(
        '<svg width="100mm" height="60mm" role="img" aria-label="drawing"></svg>'
    )
