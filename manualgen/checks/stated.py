"""Every quantity and unit that an experiment states, with its place.

Lists, text, readings, calculations, graphs and drawings state them in types of
their own; the checks of units want them in one row.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from manualgen.model.blocks import Block, Blocks, Box, BoxKind, PartHeading
from manualgen.model.experiment import Experiment, SectionKind
from manualgen.model.fences import Calculation, Computed, Given, Graph, Readings, Setup
from manualgen.model.lab import ListedApparatus, ListedChemical, Strength
from manualgen.model.place import Place
from manualgen.model.text import Inlines, QuantitySpan
from manualgen.model.walk import all_blocks, children, inlines, texts
from manualgen.quantities import Quantity, Slip, Unit
from manualgen.quantities.expression import Expression, Measured, parts

_QUOTED = re.compile(r"\b(?:label|labelled|dose|packet|tablets?|contains?|states?)\b")
_NOT_FOR_STUDENTS = (BoxKind.TEACHER, BoxKind.TECHNICIAN)


@dataclass(frozen=True, slots=True)
class Stated:
    """A quantity, or a unit alone, and where it is written."""

    value: Quantity | Unit
    place: Place
    is_exact: bool = True
    """Whether the place holds these words and nothing else."""

    def place_of(self, slip: Slip) -> Place:
        """Where the words of a slip stand."""
        if self.is_exact and self.place.line == self.place.end_line:
            return self.place.within(slip.start, slip.end)
        return self.place


def stated_in(experiment: Experiment) -> Iterator[Stated]:
    """Every quantity and unit, lists first, then in the order of the text."""
    for chemical in experiment.chemicals:
        yield from _of_chemical(chemical)
    for piece in experiment.apparatus:
        yield from _of_apparatus(piece)
    for block in all_blocks(experiment):
        yield from _of_block(block)


def _of_chemical(chemical: ListedChemical) -> Iterator[Stated]:
    strengths = (chemical.strength, chemical.solvent_strength, chemical.made)
    for strength in strengths:
        if isinstance(strength, Strength) and isinstance(strength.value, Quantity):
            yield Stated(strength.value, strength.place)
    if chemical.amount:
        yield Stated(chemical.amount.value, chemical.amount.place)


def _of_apparatus(piece: ListedApparatus) -> Iterator[Stated]:
    for quantity in (piece.capacity, piece.resolution):
        if quantity:
            yield Stated(quantity, piece.place, is_exact=False)


def _of_block(block: Block) -> Iterator[Stated]:
    match block:
        case PartHeading():
            for time in (block.time, block.after):
                if time:
                    yield Stated(time, block.place, is_exact=False)
        case Calculation():
            yield from _of_calculation(block)
            for content in texts(block):
                yield from spans_in(content)
        case Readings():
            yield from _of_readings(block)
        case Graph():
            yield Stated(block.x.unit, block.x.place, is_exact=False)
            yield Stated(block.y.unit, block.y.place, is_exact=False)
        case Setup():
            yield from _of_setup(block)
        case _:
            for content in texts(block):
                yield from spans_in(content)


def is_quoted(words: str) -> bool:
    """Whether words speak of what a label says, which nobody measures out."""
    return bool(_QUOTED.search(words))


def spans_in(content: Inlines) -> Iterator[Stated]:
    """The quantities of a run of text."""
    for inline in inlines(content):
        if isinstance(inline, QuantitySpan):
            yield Stated(inline.quantity, inline.place)


def method_blocks(experiment: Experiment) -> Iterator[Block]:
    """The blocks of the Method that students work by, outer before inner."""
    method = experiment.section(SectionKind.METHOD)
    if method:
        yield from _for_students(method.blocks)


def _for_students(blocks: Blocks) -> Iterator[Block]:
    for block in blocks:
        if isinstance(block, Box) and block.kind in _NOT_FOR_STUDENTS:
            continue
        yield block
        yield from _for_students(children(block))


def _of_calculation(block: Calculation) -> Iterator[Stated]:
    for line in block.lines:
        match line:
            case Given():
                yield Stated(line.quantity, line.value_place)
            case Computed():
                yield from _of_expression(line.expression, line.expression_place)
                if line.unit and line.unit_place:
                    yield Stated(line.unit, line.unit_place)


def _of_expression(expression: Expression, place: Place) -> Iterator[Stated]:
    for part in parts(expression):
        if isinstance(part, Measured):
            # The brackets belong to the expression, the quantity stands inside.
            inside = place.within(part.start + 1, part.end - 1)
            yield Stated(part.quantity, inside, _width(inside) == len(part.text))


def _width(place: Place) -> int:
    return place.end_column - place.column


def _of_readings(block: Readings) -> Iterator[Stated]:
    for column in block.columns:
        if column.unit:
            yield Stated(column.unit, column.place, is_exact=False)
        if column.formula and column.formula_place:
            yield from _of_expression(column.formula, column.formula_place)
    if block.mean and block.mean.concordant:
        yield Stated(block.mean.concordant, block.mean.place, is_exact=False)


def _of_setup(block: Setup) -> Iterator[Stated]:
    for piece in block.pieces:
        if piece.capacity:
            yield Stated(piece.capacity, piece.place, is_exact=False)
        for content in piece.contents:
            for quantity in (content.amount, content.strength):
                if quantity:
                    yield Stated(quantity, content.place, is_exact=False)
