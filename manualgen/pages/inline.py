"""Running text as HTML: words, chemistry, links, and gaps to write in.

A gap has the same width and height whether anything stands in it or not; what
does not fit its line is set smaller, so that both editions break alike.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, assert_never

from markupsafe import Markup, escape

from manualgen.drawing.face import width_mm
from manualgen.editions.key import FilledLine, FilledMark
from manualgen.editions.line import (
    Gap,
    GapKey,
    GapWidth,
    Line,
    Link,
    Outside,
    Piece,
    Styled,
)
from manualgen.model.text import (
    EquationSpan,
    FormulaSpan,
    LineBreak,
    Marks,
    Picture,
    QuantitySpan,
    Words,
)
from manualgen.pages import typeset
from manualgen.quantities import Quantity, printed

if TYPE_CHECKING:
    from manualgen.pages.page import Page

GAP_MM = {
    GapWidth.SHORT: 18.0,
    GapWidth.MEDIUM: 36.0,
    GapWidth.LONG: 64.0,
    GapWidth.FULL: 140.0,
}
"""How wide the style sheet makes each gap."""

LARGE_FULL_MM = 80.0
"""A whole line in large print, in the ordinary size of type."""
EQUATION_MM = 128.0
"""The room for an equation beside its number."""
LARGE_EQUATION_MM = 70.0

COEFFICIENT_MM = 9.0
READING_MM = 18.0
"""The room in a cell of a readings table."""

FITS = {"roomy": 1.0, "tight": 0.8, "tightest": 0.64}
"""The style sheet's classes, and the size of type in each."""

TIGHT = 0.92
"""The part of a gap that words at full size may take up."""


_CLOSING = re.compile(r"[.,;:!?)\]’”]+")


def set_line(
    page: Page, line: Line, gaps_mm: Mapping[GapWidth, float] | None = None
) -> Markup:
    """A line as HTML; its gaps are at least so wide, or as the style sheet makes them."""
    if gaps_mm is None:
        large = {**GAP_MM, GapWidth.FULL: LARGE_FULL_MM}
        gaps_mm = large if page.context.large else GAP_MM
    return Markup().join(_pieces(page, line, gaps_mm))


def _pieces(
    page: Page, line: Line, gaps_mm: Mapping[GapWidth, float]
) -> Iterator[Markup]:
    """The pieces of a line, each gap together with the stop or comma behind it."""
    closed = 0
    for index, piece in enumerate(line):
        following = line[index + 1] if index + 1 < len(line) else None
        if isinstance(piece, Gap) and isinstance(following, Words):
            stop = _CLOSING.match(following.text)
            closed = stop.end() if stop and piece.width is not GapWidth.FULL else 0
            yield _kept(gap(page, piece, gaps_mm), following.text[:closed])
        elif isinstance(piece, Words):
            yield typeset.small_figures(piece.text[closed:])
            closed = 0
        else:
            yield _piece(page, piece, gaps_mm)


def _kept(place: Markup, stop: str) -> Markup:
    if not stop:
        return place
    return Markup('<span class="kept">{}{}</span>').format(place, stop)


def quantity(page: Page, value: Quantity) -> Markup:
    """A quantity in the house style, whole on one line."""
    text = typeset.small_figures(printed(value, page.context.house))
    return Markup('<span class="quantity">{}</span>').format(text)


def _piece(page: Page, piece: Piece, gaps_mm: Mapping[GapWidth, float]) -> Markup:
    match piece:
        case Words(text):
            return typeset.small_figures(text)
        case LineBreak(hard):
            return Markup("<br>") if hard else Markup("\n")
        case FormulaSpan(formula, state):
            return typeset.formula(formula, state, page.say)
        case EquationSpan(equation):
            return typeset.equation(equation, page.say)
        case QuantitySpan(value):
            return quantity(page, value)
        case Gap():
            return gap(page, piece, gaps_mm)
        case _:
            return _around(page, piece)


def _around(page: Page, piece: Styled | Link | Outside | Picture | Marks) -> Markup:
    """Pieces that stand around text of their own, or in place of it."""
    match piece:
        case Styled(content, strong):
            name = "strong" if strong else "em"
            return Markup(f"<{name}>{{}}</{name}>").format(set_line(page, content))
        case Link():
            return _link(page, piece)
        case Outside(content, address):
            return Markup(
                '<a class="outside" href="{}" rel="noreferrer">{}</a>'
            ).format(address, set_line(page, content))
        case Picture("", description):
            return escape(description)
        case Picture(file, description):
            return Markup('<img src="{}" alt="{}">').format(
                page.context.picture(file), description
            )
        case Marks(number, maximum):
            words = f"max {number}" if maximum else str(number)
            return Markup('<span class="point">[{}]</span>').format(words)
        case _:
            assert_never(piece)


def _link(page: Page, link: Link) -> Markup:
    words = set_line(page, link.content)
    if link.number:
        words += Markup("\u00a0{}").format(link.number)
    is_here = page.is_here(link.experiment)
    address = "" if is_here else page.context.address(link.experiment)
    anchor = f"#{link.anchor}" if link.anchor else ""
    return Markup('<a href="{}">{}</a>').format(
        address + anchor or "#experiment.top", words
    )


def mark(page: Page, key: GapKey) -> Markup:
    """The number of a teacher note in the margin, where this edition has one."""
    filling = page.filling(key)
    if not isinstance(filling, FilledMark):
        return Markup()
    return Markup('<a class="mark" href="#note.{0}">{0}</a>').format(filling.label)


def gap(page: Page, piece: Gap, gaps_mm: Mapping[GapWidth, float]) -> Markup:
    """A place to write in, with the words that stand there if any do."""
    return writing_place(page, piece.key, piece.width.value, gaps_mm[piece.width])


def coefficient_gap(page: Page, key: GapKey) -> Markup:
    """The place for a coefficient, before its formula."""
    return writing_place(page, key, "coefficient", COEFFICIENT_MM)


def writing_place(page: Page, key: GapKey, name: str, room_mm: float) -> Markup:
    """A place of a width that the style sheet knows by name."""
    filling = page.filling(key)
    if not isinstance(filling, FilledLine):
        place = '<span class="gap {}" role="img" aria-label="{}"></span>'
        return Markup(place).format(name, page.say["gap"])
    words = set_line(page, filling.content)
    tight = fit(words.striptags(), room_mm)
    return Markup('<span class="gap {}"><span class="{}">{}</span></span>').format(
        name, tight, words
    )


def fit(text: str, room_mm: float) -> str:
    """The class for text in a room of one line: as it is, or so much smaller."""
    return fit_width(width_mm(text), room_mm * TIGHT)


def fit_width(needed_mm: float, room_mm: float) -> str:
    """The class for what is so wide: the largest that fits, else two small lines."""
    fitting = (name for name, size in FITS.items() if needed_mm * size <= room_mm)
    return next(fitting, "doubled")
