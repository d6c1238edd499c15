"""Graphs and drawings of a sheet, handed to the room that draws them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from markupsafe import Markup

from manualgen.drawing.plot import EMPTY, Curve, Drawn, Lettering, plot
from manualgen.drawing.scale import Scale
from manualgen.drawing.setup import draw_setup
from manualgen.editions.fence_panels import DrawingPanel, GraphPanel
from manualgen.editions.key import FilledGraph
from manualgen.model.fences import Axis
from manualgen.pages.drawn_apparatus import parts_of, told
from manualgen.quantities import DecimalMark, printed_unit

if TYPE_CHECKING:
    from manualgen.pages.page import Page


PORTS: Final = (
    ("water in", "water_in"),
    ("water out", "water_out"),
    ("paper", "tank_paper"),
    ("start", "start_line"),
)
"""Places of pieces that want a label of their own, and the label of each."""


def set_graph(page: Page, panel: GraphPanel) -> Markup:
    """Squared paper, with what this edition draws on it."""
    filling = page.filling(panel.key)
    drawn = _drawn(filling) if isinstance(filling, FilledGraph) else EMPTY
    x, y = _scale(page, panel.x), _scale(page, panel.y)
    comma = page.context.house.decimal is DecimalMark.COMMA
    lettering = Lettering(
        _description(page, x, y, drawn),
        page.say["ten_cm"],
        "," if comma else ".",
        5.2 if page.context.large else 3.2,
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
    told = [f"({a:.4g}, {b:.4g})" for a, b in drawn.points]
    told += [curve.label for curve in drawn.curves if curve.label]
    return ". ".join((words, "; ".join(told))) if told else words


def set_drawing(page: Page, panel: DrawingPanel) -> Markup:
    """A drawing of apparatus; a piece that cannot be drawn is left out.

    Where none can be, as in a preview of what is being written, there is no drawing.
    """
    house = page.context.house
    size = 5.3 if page.context.large else 3.1
    say = page.say
    ports = tuple((place, say[label]) for place, label in PORTS)
    parts = parts_of(panel.pieces, house, say)
    if not parts:
        return Markup()
    return Markup(draw_setup(parts, told(panel.pieces, house, say), size, ports))
