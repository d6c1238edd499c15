"""An experiment taken apart into what a reviewer would call one thing each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manualgen.editions.catalogue import (
    TEACHER_BOXES,
    TEACHER_SECTIONS,
    question_label,
)
from manualgen.model.blocks import (
    Answer,
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
from manualgen.model.experiment import Experiment, Section
from manualgen.model.fences import (
    Calculation,
    CalculationLine,
    EquationBlock,
    Given,
    Graph,
    Readings,
    Setup,
)
from manualgen.model.walk import plain, texts, walk


@dataclass(frozen=True, slots=True)
class Piece:
    """One thing that can change."""

    kind: str
    """``step``, ``equation``, ``safety``, ``question``, ``answer`` …"""
    what: str
    """Which one, as a reviewer would call it."""
    text: str
    line: int
    teachers: bool = False
    """Whether only the teacher's edition shows it."""
    marks: int | None = None
    """A question's marks."""


def pieces_of(experiment: Experiment) -> tuple[Piece, ...]:
    """The pieces of an experiment's sections, in source order."""
    return tuple(p for s in experiment.sections for p in _of_section(s))


def _of_section(section: Section) -> Iterator[Piece]:
    teachers = section.kind in TEACHER_SECTIONS
    yield Piece(
        "section", section.heading, section.heading, section.place.line, teachers
    )
    yield from _of_blocks(section.blocks, section.heading, teachers)


def _of_blocks(blocks: Blocks, where: str, teachers: bool) -> Iterator[Piece]:
    for block in blocks:
        yield from _of_block(block, where, teachers)


def _of_block(block: Block, where: str, teachers: bool) -> Iterator[Piece]:
    line = block.place.line
    match block:
        case Step():
            what = f"step {block.number}"
            yield Piece("step", what, _own_text(block.blocks), line, teachers)
            yield from _of_blocks(_set_off(block.blocks), what, teachers)
        case Box():
            mine = teachers or block.kind in TEACHER_BOXES
            what = f"#{block.name}" if block.name else f"in {where}"
            kind = block.kind.value.lower()
            yield Piece(kind, what, _own_text(block.blocks), line, mine)
            yield from _of_blocks(_set_off(block.blocks), where, mine)
        case Question():
            yield from _of_question(block, "", teachers)
        case PartHeading():
            yield Piece(
                "part", f"{block.kind.value} {block.label}", _part_text(block), line
            )
        case Paragraph() | Subheading() | ListBlock():
            yield Piece("text", where, _own_text((block,)), line, teachers)
        case _:
            yield from _of_computed(block, where, teachers)


def _of_question(question: Question, outer: str, teachers: bool) -> Iterator[Piece]:
    label = question_label(outer, question.number)
    what = f"question {label}"
    text = _own_text(question.blocks)
    marks = question.marks.number if question.marks else None
    yield Piece("question", what, text, question.place.line, teachers, marks)
    if question.answer:
        yield from _of_answer(question.answer, what)
    yield from _of_blocks(_set_off(question.blocks), what, teachers)
    for part in question.parts:
        yield from _of_question(part, label, teachers)


def _of_answer(answer: Answer, what: str) -> Iterator[Piece]:
    yield Piece("answer", what, _own_text(answer.blocks), answer.place.line, True)
    yield from _of_blocks(_set_off(answer.blocks), what, True)


def _of_computed(block: Block, where: str, teachers: bool) -> Iterator[Piece]:
    line = block.place.line
    match block:
        case EquationBlock():
            for each in block.lines:
                yield Piece(
                    "equation", where, str(each.equation), each.place.line, teachers
                )
        case Calculation():
            for stated in block.lines:
                text = _calculation_text(stated)
                what = f"{stated.symbol} of the calculation"
                yield Piece("calculation", what, text, stated.place.line, teachers)
        case Readings():
            yield from _of_readings(block, teachers)
        case Graph():
            yield Piece("graph", _name(block.name, where), _graph_text(block), line)
        case Setup():
            yield Piece("drawing", _name(block.name, where), block.source, line)
        case PipeTable():
            text = " | ".join(plain(content) for content in texts(block))
            yield Piece("table", _name(block.name, where), text, line, teachers)
        case Figure():
            text = f"{block.picture.file} {plain(block.caption)}"
            yield Piece("figure", _name(block.name, where), text, line, teachers)
        case _:
            pass


def _of_readings(block: Readings, teachers: bool) -> Iterator[Piece]:
    name = _name(block.name, "table")
    line = block.place.line
    heads = "; ".join(
        f"{c.symbol}: {c.heading} / {c.unit.text if c.unit else ''} {c.kind.value}"
        for c in block.columns
    )
    rows = ", ".join(block.rows)
    yield Piece("readings", name, f"rows {rows}; {heads}", line, teachers)
    for column in block.columns:
        cells = ", ".join(c.text for c in column.cells)
        if cells:
            what = f"{name}.{column.symbol}"
            yield Piece("sample", what, cells, column.place.line, True)


def _calculation_text(line: CalculationLine) -> str:
    if isinstance(line, Given):
        quantity = line.quantity
        width = f" ± {quantity.half_width}" if quantity.half_width else ""
        value = f"{quantity.value}{width} {quantity.unit.text}"
    else:
        value = f"{line.source} -> {line.unit.text}" if line.unit else line.source
    return f"{line.symbol} = {value}  # {plain(line.description)}"


def _graph_text(graph: Graph) -> str:
    axes = (
        f"{a.symbol} / {a.unit.text}, {a.start} to {a.stop} step {a.step}"
        for a in (graph.x, graph.y)
    )
    return "; ".join((*axes, graph.line.kind.value))


def _part_text(part: PartHeading) -> str:
    time = f"{part.time.value} {part.time.unit.text}" if part.time else ""
    after = f"after {part.after.value} {part.after.unit.text}" if part.after else ""
    return " ".join(
        filter(None, (part.kind.value, part.label, part.title, time, after))
    )


def _name(name: str | None, otherwise: str) -> str:
    return f"#{name}" if name else f"in {otherwise}"


def _own_text(blocks: Blocks) -> str:
    """The running text of a piece, without what stands in it as a piece itself."""
    running = (b for b in blocks if _is_running(b))
    lines = [
        " ".join(plain(content) for content in texts(block))
        for outer in running
        for block in walk((outer,))
    ]
    return " ".join(" ".join(lines).split())


def _set_off(blocks: Blocks) -> Blocks:
    return tuple(b for b in blocks if not _is_running(b))


def _is_running(block: Block) -> bool:
    return isinstance(block, Paragraph | Subheading | ListBlock)
