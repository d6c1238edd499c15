"""One page in the making: a sheet, its key and the surroundings, as templates see it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup, escape

from manualgen.chemistry import Equation, Formula, Term
from manualgen.drawing.face import width_mm
from manualgen.drawing.pictograms import pictogram
from manualgen.drawing.room import LARGE_RULING_MM, Fit, fit_text
from manualgen.editions.fence_panels import (
    ColumnHead,
    DrawingPanel,
    EquationPanel,
    GraphPanel,
    MeanRow,
    WorkLine,
)
from manualgen.editions.key import (
    Filled,
    FilledLine,
    FilledRoom,
    FilledWork,
    Key,
)
from manualgen.editions.line import Gap, GapKey, GapWidth, Line
from manualgen.editions.sheet import (
    AnswerRoom,
    Grid,
    Panel,
    Panels,
    QuestionItem,
    Sheet,
)
from manualgen.editions.within import within
from manualgen.model.text import Words
from manualgen.pages import figures, inline, typeset
from manualgen.pages.columns import (
    COLUMN_MM,
    LARGE_MM,
    PADDING_MM,
    column_widths,
)
from manualgen.pages.context import PageContext
from manualgen.pages.environment import template_of
from manualgen.pages.mathematics import set_math
from manualgen.pages.workings import fit_working
from manualgen.quantities import Quantity, Unit, printed, printed_unit

_PIECE_MM = 15.0
"""About as wide as a formula, a quantity or a gap is."""


@dataclass(frozen=True, slots=True)
class Result:
    """A result of a calculation, as printed."""

    symbol: str
    value: str
    description: Line


@dataclass(frozen=True, slots=True)
class Page:
    """What the templates print from."""

    sheet: Sheet
    key: Key
    context: PageContext
    document: str | None = None
    """The experiment whose page this stands on, if that is not the sheet's own."""

    @property
    def say(self) -> Mapping[str, str]:
        """The tool's own words in the manual's language."""
        return self.context.say

    @property
    def has_key(self) -> bool:
        """Whether this edition shows what students are to write."""
        return bool(self.key.filled)

    def is_here(self, experiment: str) -> bool:
        """Whether an experiment's page is the one that is being made."""
        own = self.sheet.id if self.document is None else self.document
        return experiment == own

    def filling(self, gap: GapKey) -> Filled | None:
        """What stands in a gap of this edition, if anything does."""
        return self.key.filled.get(gap)

    def blocks(self, panels: Panels) -> Markup:
        """Panels as HTML, one after the other."""
        return Markup().join(self.panel(panel) for panel in panels)

    def panel(self, panel: Panel | AnswerRoom) -> Markup:
        """One panel, by the template that bears its name."""
        template = template_of(type(panel).__name__)
        return Markup(template.render(page=self, panel=panel, say=self.say))

    def line(self, line: Line) -> Markup:
        """Running text as HTML."""
        return inline.set_line(self, line)

    def is_short(self, line: Line) -> bool:
        """Whether a paragraph has about three lines at most.

        Of three, two cannot stand on each of two pages; both editions think alike.
        """
        words = sum(width_mm(piece.text) for piece in within(line, Words))
        others = sum(not isinstance(piece, Words) for piece in line)
        column = LARGE_MM if self.context.large else COLUMN_MM
        return words + others * _PIECE_MM < 3.2 * column

    def column_widths(self, grid: Grid) -> tuple[float, ...]:
        """The widths of a table's columns in mm, where students write in it."""
        return column_widths(grid, LARGE_MM if self.context.large else COLUMN_MM)

    def equation_line(self, line: Line) -> Markup:
        """A gap for an equation, beside its number."""
        is_large = self.context.large
        room = inline.LARGE_EQUATION_MM if is_large else inline.EQUATION_MM
        return inline.set_line(self, line, dict.fromkeys(GapWidth, room))

    def cell_line(self, line: Line, width_mm: float) -> Markup:
        """Running text in a cell, whose gaps are as wide as the cell."""
        room = width_mm - PADDING_MM
        return inline.set_line(self, line, dict.fromkeys(GapWidth, room))

    def words(self, text: str) -> Markup:
        """Plain text, its small figures marked up."""
        return typeset.small_figures(text)

    def formula(self, formula: Formula, state: str | None = None) -> Markup:
        """A formula, with its state if it has one."""
        return typeset.formula(formula, state, self.say)

    def side(self, terms: tuple[Term, ...]) -> Markup:
        """One side of an equation."""
        return typeset.side(terms)

    def arrow(self, arrow: str) -> Markup:
        """An equation's arrow as it is printed."""
        return typeset.arrow(arrow)

    def spoken(self, equation: Equation) -> str:
        """An equation as a voice should read it."""
        return typeset.spoken_equation(equation, self.say)

    def coefficient(self, key: GapKey) -> Markup:
        """The gap for a coefficient."""
        return inline.coefficient_gap(self, key)

    def quantity(self, quantity: Quantity) -> Markup:
        """A quantity in the house style."""
        return inline.quantity(self, quantity)

    def unit(self, unit: Unit | None) -> Markup:
        """A unit in the house style; nothing for a pure number."""
        if unit is None or not unit.parts:
            return Markup()
        return typeset.small_figures(printed_unit(unit, self.context.house))

    def symbol(self, symbol: str) -> Markup:
        """A quantity's symbol: italic, what follows `_` below it."""
        return typeset.symbol(symbol)

    def heading(self, column: ColumnHead) -> Markup:
        """A column's heading as quantity / unit."""
        unit = self.unit(column.unit)
        heading = typeset.small_figures(column.heading)
        if not unit:
            return heading
        return Markup('{} <span class="per">/ {}</span>').format(heading, unit)

    def group(self, size: int) -> str:
        """How many students work together, in words."""
        name = {1: "alone", 2: "pairs"}.get(size, "group_of")
        return self.say[name].format(number=size)

    def later(self, time: Quantity) -> Markup:
        """How long after the part before it a lesson is."""
        return escape(self.say["after"]).format(time=self.quantity(time))

    def mark(self, key: GapKey) -> Markup:
        """The number of a teacher note, where this edition has one."""
        return inline.mark(self, key)

    def pictogram(self, code: str) -> Markup:
        """A hazard pictogram as SVG."""
        return Markup(pictogram(code, name=self.say[f"pictogram_{code}"]))

    def cell(self, gap: Gap) -> Markup:
        """What stands in a cell that students fill in; empty for them."""
        filling = self.filling(gap.key)
        if not isinstance(filling, FilledLine):
            return Markup()
        words = self.line(filling.content)
        tight = inline.fit(words.striptags(), inline.READING_MM)
        return Markup('<span class="filled {}">{}</span>').format(tight, words)

    def room_fit(self, room: AnswerRoom, filled: FilledRoom) -> Fit:
        """How closely an answer is set; large print reckons with its own type."""
        if not self.context.large:
            return filled.fit
        told = [self.panel(block).striptags() for block in filled.blocks]
        height = room.frame_mm or room.lines * LARGE_RULING_MM
        return fit_text(told, height, large=True) or Fit.CLOSEST

    def mean_words(self, mean: MeanRow) -> Markup:
        """What the line under a readings table asks for."""
        rows = self.say["mean_concordant"]
        if mean.rows:
            rows = self.say["mean_of"].format(rows=", ".join(mean.rows))
        words = escape(f"{rows}: {mean.heading}")
        if mean.concordant:
            difference = printed(mean.concordant, self.context.house)
            within = self.say["within"].format(difference=difference)
            words += Markup(" ({})").format(typeset.small_figures(within))
        return words

    def working(self, line: WorkLine) -> FilledWork | None:
        """A worksheet line worked out, where this edition has it."""
        if not isinstance(line.value, Gap):
            return None
        filling = self.filling(line.value.key)
        return filling if isinstance(filling, FilledWork) else None

    def results(self) -> Iterator[Result]:
        """The results of all worksheets that this edition works out."""
        for line in within(self.sheet, WorkLine):
            working = self.working(line)
            if working and working.algebra:
                yield Result(line.symbol, working.value, line.description)

    def written_in(self, question: QuestionItem) -> Markup:
        """The equations and tables that a question has students complete."""
        return self.blocks(
            tuple(
                replace(panel, number="", anchor=None)
                for panel in question.blocks
                if isinstance(panel, EquationPanel | Grid)
            )
        )

    def math(self, mathml: str) -> Markup:
        """Presentation MathML that a voice can read too."""
        return set_math(mathml, self.say)

    def math_fit(self, work: FilledWork) -> str:
        """The classes for a working: how large it is set, and on how many lines."""
        return fit_working((work.algebra, work.substitution), self.context.large)

    def boxed(self, gap: Gap, unit: Unit | None) -> Markup:
        """What stands in the box for a result: the result, or its unit to write before."""
        filling = self.filling(gap.key)
        if isinstance(filling, FilledLine):
            return self.line(filling.content)
        return Markup('<span class="unit">{}</span>').format(self.unit(unit))

    def graph(self, panel: GraphPanel) -> Markup:
        """Squared paper, with what this edition draws on it."""
        return figures.set_graph(self, panel)

    def drawing(self, panel: DrawingPanel) -> Markup:
        """A drawing of apparatus."""
        return figures.set_drawing(self, panel)
