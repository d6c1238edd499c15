"""The pieces of an experiment's sections, in source order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from manualgen.editions.catalogue import (
    TEACHER_BOXES,
    TEACHER_SECTIONS,
    Numbered,
    question_label,
)
from manualgen.model.blocks import (
    Answer,
    AnswerSpace,
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
from manualgen.model.experiment import Experiment, Section, SectionKind
from manualgen.model.responses import is_answered_in_place
from manualgen.model.text import Marks
from manualgen.review.fences import fence_pieces
from manualgen.review.pieces import (
    Context,
    Fact,
    Piece,
    Source,
    running_text,
    set_off,
)
from manualgen.review.writing import quantity_text, written


def pieces_of(
    experiment: Experiment, numbers: Numbered, lines: tuple[str, ...]
) -> tuple[Piece, ...]:
    """Everything in an experiment's sections that can change by itself."""
    anchors = {place: target.anchor for place, target in numbers.by_place.items()}
    source = Source(anchors, lines)
    return tuple(p for s in experiment.sections for p in _of_section(s, source))


def _of_section(section: Section, source: Source) -> Iterator[Piece]:
    teachers = section.kind in TEACHER_SECTIONS
    heading = Fact(
        "section",
        section.heading,
        "" if teachers else section.heading,
        section.place,
    )
    is_own = section.kind is SectionKind.OTHER
    name = section.heading if is_own else section.kind.value
    piece = Piece("section", section.heading, (heading,), section.place, None, "", name)
    yield piece
    yield from _of_blocks(section.blocks, Context(source, piece, teachers))


def _of_blocks(blocks: Blocks, here: Context) -> Iterator[Piece]:
    for block in blocks:
        yield from _of_block(block, here)


def _of_block(block: Block, here: Context) -> Iterator[Piece]:
    match block:
        case Paragraph() | ListBlock():
            fact = here.running("text", running_text((block,)), block.place)
            yield here.piece("text", here.parent.what, (fact,), block.place)
            yield from _of_blocks(set_off((block,)), here)
        case Subheading():
            fact = here.running("heading", (block.content,), block.place)
            yield here.piece("heading", f"in {here.parent.what}", (fact,), block.place)
        case PartHeading():
            yield _part_heading(block, here)
        case Step():
            fact = here.running("step", running_text(block.blocks), block.place)
            yield from _holder("step", f"step {block.number}", fact, block.blocks, here)
        case Box():
            yield from _box(block, here)
        case Question():
            yield from _question(block, "", here)
        case PipeTable():
            yield from _table(block, here)
        case Figure():
            yield _figure(block, here)
        case _:
            yield from fence_pieces(block, here)


def _holder(
    kind: str, what: str, fact: Fact, blocks: Blocks, here: Context
) -> Iterator[Piece]:
    """A piece with a text of its own and others inside it."""
    piece = here.piece(kind, what, (fact,), fact.place)
    yield piece
    yield from _of_blocks(set_off(blocks), replace(here, parent=piece))


def _box(block: Box, here: Context) -> Iterator[Piece]:
    inside = replace(here, teachers=here.teachers or block.kind in TEACHER_BOXES)
    kind = block.kind.value.lower()
    fact = inside.running(kind, running_text(block.blocks), block.place)
    yield from _holder(kind, here.named(block.name), fact, block.blocks, inside)


def _question(question: Question, outer: str, here: Context) -> Iterator[Piece]:
    label = question_label(outer, question.number)
    what = f"question {label}"
    facts = [here.running("question", running_text(question.blocks), question.place)]
    if question.marks:
        text = _marks(question.marks)
        facts.append(here.minor("marks", text, question.marks.place))
    if question.answer:
        facts.append(_answer(question.answer, here))
    facts += _room(question, here)
    piece = here.piece("question", what, tuple(facts), question.place)
    yield piece
    inside = replace(here, parent=piece)
    yield from _of_blocks(set_off(question.blocks), inside)
    if question.answer:
        hidden = replace(inside, teachers=True)
        yield from _of_blocks(set_off(question.answer.blocks), hidden)
    for part in question.parts:
        yield from _question(part, label, replace(here, parent=piece))


def _marks(marks: Marks) -> str:
    return f"max {marks.number}" if marks.maximum else str(marks.number)


def _answer(answer: Answer, here: Context) -> Fact:
    hidden = replace(here, teachers=True)
    return hidden.running("answer", running_text(answer.blocks), answer.place)


def _room(question: Question, here: Context) -> Iterator[Fact]:
    """The room for an answer, where students find one.

    Where it only follows from the marks, they tell of it.
    """
    answer = question.answer
    if answer is None and (question.parts or is_answered_in_place(question)):
        return
    space = answer.space if answer else AnswerSpace()
    text = "as the marks ask"
    if space.drawing is not None:
        text = f"a frame of {quantity_text(space.drawing)}"
    elif space.lines is not None:
        text = f"{space.lines} line{'s' if space.lines != 1 else ''}"
    if space.own_work:
        text += ", the student's own work"
    place = answer.place if answer else question.place
    yield here.minor("space", text, place)


def _part_heading(part: PartHeading, here: Context) -> Piece:
    time = quantity_text(part.time)
    after = quantity_text(part.after)
    facts = filter(None, (time, after and f"after {after}"))
    name = f"{part.kind.value} {part.label}"
    text = ", ".join((" ".join(filter(None, (name, part.title))), *facts))
    return here.piece("part", name, (here.fact("part", text, part.place),), part.place)


def _table(table: PipeTable, here: Context) -> Iterator[Piece]:
    what = here.named(table.name)
    header = " | ".join(written(cell.content) for cell in table.header)
    align = ", ".join(each.value for each in table.align)
    facts = (
        here.fact("table", header, table.place),
        here.running("caption", (table.caption,), table.place),
        here.minor("alignment", align, table.place),
    )
    piece = here.piece("table", what, facts, table.place)
    yield piece
    inside = replace(here, parent=piece)
    for row in table.rows:
        contents = [cell.content for cell in row]
        place = row[0].place if row else table.place
        fact = inside.running("row", contents, place, between=" | ")
        row_piece = inside.piece("row", f"of the table {what}", (fact,), place)
        yield replace(row_piece, part=True)


def _figure(figure: Figure, here: Context) -> Piece:
    what = here.named(figure.name)
    place = figure.place
    facts = (
        here.fact("figure", figure.picture.file, place),
        here.fact("description", figure.picture.description, place),
        here.running("caption", (figure.caption,), place),
    )
    return here.piece("figure", what, facts, place)
