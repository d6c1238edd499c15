"""Blocks as panels: the body of a sheet, block by block."""

from __future__ import annotations

from manualgen.editions.catalogue import TEACHER_BOXES
from manualgen.editions.compositor import Compositor
from manualgen.editions.equations import set_equations
from manualgen.editions.figures import set_drawing, set_graph
from manualgen.editions.questions import set_question
from manualgen.editions.sheet import (
    BoxPanel,
    Grid,
    Heading,
    Items,
    MarginMark,
    Panel,
    Panels,
    PartBanner,
    Plate,
    StepItem,
    Text,
)
from manualgen.editions.tables import set_readings
from manualgen.editions.worksheets import set_worksheet
from manualgen.model.blocks import (
    Block,
    Blocks,
    Box,
    Figure,
    ListBlock,
    Paragraph,
    PartHeading,
    PipeTable,
    Question,
    Step,
    Subheading,
)
from manualgen.model.fences import Calculation, EquationBlock, Graph, Readings, Setup
from manualgen.working.worked import WorkedExperiment


def set_panels(
    compositor: Compositor, work: WorkedExperiment, blocks: Blocks
) -> Panels:
    """The panels that print a run of blocks, in order."""
    return tuple(_panel(compositor, work, block) for block in blocks)


def _panel(compositor: Compositor, work: WorkedExperiment, block: Block) -> Panel:
    match block:
        case Paragraph():
            return Text(compositor.line(block.content))
        case Subheading():
            return Heading(block.level, compositor.line(block.content))
        case PartHeading():
            return PartBanner(
                block.kind, block.label, block.title, block.time, block.after
            )
        case ListBlock():
            items = tuple(set_panels(compositor, work, i) for i in block.items)
            return Items(block.ordered, block.start, items)
        case Step():
            inside = set_panels(compositor, work, block.blocks)
            return StepItem(block.number, compositor.anchor_at(block.place), inside)
        case Box():
            return _box(compositor, work, block)
        case Question():
            return set_question(compositor, work, block, "", set_panels)
        case PipeTable() | Figure():
            return _table_or_plate(compositor, block)
        case _:
            return _computed(compositor, work, block)


def _computed(
    compositor: Compositor,
    work: WorkedExperiment,
    block: EquationBlock | Readings | Calculation | Graph | Setup,
) -> Panel:
    match block:
        case EquationBlock():
            return set_equations(compositor, work, block)
        case Readings():
            return set_readings(compositor, work, block)
        case Calculation():
            return set_worksheet(compositor, work, block)
        case Graph():
            return set_graph(compositor, work, block)
        case Setup():
            return set_drawing(compositor, block)


def _box(compositor: Compositor, work: WorkedExperiment, box: Box) -> Panel:
    if box.kind in TEACHER_BOXES and not compositor.showing_answers:
        inside = set_aside(compositor, work, box.blocks)
        return MarginMark(compositor.note(box.kind.value, inside))
    return BoxPanel(
        box.kind,
        compositor.number_at(box.place),
        compositor.anchor_at(box.place) or None,
        set_panels(compositor, work, box.blocks),
    )


def set_aside(compositor: Compositor, work: WorkedExperiment, blocks: Blocks) -> Panels:
    """Blocks that only the teacher sees, with nothing left blank in them."""
    before, compositor.showing_answers = compositor.showing_answers, True
    try:
        return set_panels(compositor, work, blocks)
    finally:
        compositor.showing_answers = before


def _table_or_plate(compositor: Compositor, block: PipeTable | Figure) -> Panel:
    number = compositor.number_at(block.place)
    anchor = compositor.anchor_at(block.place) or None
    caption = compositor.line(block.caption)
    if isinstance(block, Figure):
        return Plate(number, anchor, block.picture, caption)
    return Grid(
        number,
        anchor,
        caption,
        tuple(compositor.line(cell.content) for cell in block.header),
        tuple(
            tuple(compositor.line(cell.content) for cell in row) for row in block.rows
        ),
        block.align,
    )
