"""Graphs and drawings of a sheet, handed to the room that draws them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from markupsafe import Markup

from manualgen.drawing.apparatus.catalogue import joint_named, kind_named, piece_named
from manualgen.drawing.contents import Content, Kind
from manualgen.drawing.parts import Part
from manualgen.drawing.plot import EMPTY, Curve, Drawn, Lettering, plot
from manualgen.drawing.scale import Scale
from manualgen.drawing.setup import draw_setup
from manualgen.editions.fence_panels import (
    DrawingPanel,
    DrawnContent,
    DrawnPiece,
    GraphPanel,
)
from manualgen.editions.key import FilledGraph
from manualgen.knowledge.labels import ENGLISH, Say
from manualgen.model.fences import Axis
from manualgen.model.lab import StrengthWord
from manualgen.quantities import (
    DecimalMark,
    Dimension,
    HouseStyle,
    Quantity,
    printed,
    printed_unit,
)

if TYPE_CHECKING:
    from manualgen.pages.page import Page

MASS: Final = Dimension(mass=1)
VOLUME: Final = Dimension(length=3)


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
    """A drawing of apparatus; a piece that cannot be drawn is left out.

    Where none can be, as in a preview of what is being written, there is no drawing.
    """
    house = page.context.house
    size = 4.4 if page.context.large else 3.1
    say = page.say
    ports = ("water in", say["water_in"]), ("water out", say["water_out"])
    parts = parts_of(panel.pieces, house, page.say)
    if not parts:
        return Markup()
    return Markup(draw_setup(parts, _told(page, panel), size, ports))


def parts_of(
    pieces: tuple[DrawnPiece, ...], house: HouseStyle, say: Say = ENGLISH
) -> tuple[Part, ...]:
    """The pieces as the drawing room takes them.

    What stood to a piece that cannot be drawn stands to the one before it.
    """
    kept = [index for index, piece in enumerate(pieces) if piece_named(piece.name)]
    return tuple(_part(pieces[i], kept, house, say) for i in kept)


def _part(piece: DrawnPiece, kept: list[int], house: HouseStyle, say: Say) -> Part:
    earlier = [
        n for n, i in enumerate(kept) if piece.base is not None and i <= piece.base
    ]
    base = earlier[-1] if earlier else None
    return Part(
        name=piece_named(piece.name) or "",
        label=piece.name,
        capacity_cm3=_cm3(piece.capacity),
        stoppered=piece.stoppered,
        contents=tuple(_content(c, house, say) for c in piece.contents),
        relation=piece.relation if base is not None else None,
        by=joint_named(piece.by) if piece.by else None,
        base=base,
        tube=piece.by or "",
    )


def _content(content: DrawnContent, house: HouseStyle, say: Say) -> Content:
    words = content.name
    if content.amount:
        words = f"{printed(content.amount, house)} {words}"
    match content.strength:
        case Quantity() as strength:
            words = f"{words}, {printed(strength, house)}"
        case StrengthWord() as word:
            words = say["with_strength"].format(strength=say[word.value], name=words)
        case None:
            pass
    return Content(words, _kind(content), _cm3(content.amount))


def _kind(content: DrawnContent) -> Kind:
    if content.strength:
        return Kind.LIQUID
    if content.amount and content.amount.dimension == MASS:
        return Kind.SOLID
    if _cm3(content.amount) is not None:
        return Kind.LIQUID
    return kind_named(content.name)


def _cm3(quantity: Quantity | None) -> float | None:
    if quantity is None or quantity.dimension != VOLUME:
        return None
    return float(quantity.si_value) * 1e6


def _told(page: Page, panel: DrawingPanel) -> str:
    """The drawing in words, piece by piece, for who cannot see it."""
    words: list[str] = []
    for piece in panel.pieces:
        inside = "; ".join(
            _content(c, page.context.house, page.say).label for c in piece.contents
        )
        named = f"{piece.name} ({inside})" if inside else piece.name
        relation = _relation(piece, page.say)
        words.append(f"{relation} {named}".strip())
    return f"{page.say['drawing_of']}: {', '.join(words)}"


def _relation(piece: DrawnPiece, say: Say) -> str:
    if piece.relation is None:
        return ""
    if piece.relation == "joined by":
        by, to = say["told_joined_by_to"], say["told_joined_to"]
        return by.format(tube=piece.by) if piece.by else to
    return say["told_" + piece.relation.replace(" ", "_")]
