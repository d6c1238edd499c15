"""Where a student's answer to a question goes, and what the model answer says."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.model.blocks import Answer, Blocks, Question
from manualgen.model.fences import Calculation, EquationBlock, Graph, Readings
from manualgen.model.text import Blank, Marks, ValueSpan
from manualgen.model.walk import inlines, plain, texts, walk

LINES_PER_MARK = 2
LINES_WITHOUT_MARKS = 2


def is_answered_in_place(question: Question) -> bool:
    """Whether the question itself holds what is to be filled in.

    A blank, an equation to balance or to write, a table, a graph: such a
    question needs no writing lines, and its answer stands where it belongs.
    """
    for block in walk(question.blocks):
        match block:
            case EquationBlock():
                if block.to_balance or block.answer:
                    return True
            case Readings() | Graph() | Calculation():
                return True
            case _:
                spans = (i for content in texts(block) for i in inlines(content))
                if any(isinstance(i, Blank | ValueSpan) for i in spans):
                    return True
    return False


def answer_lines(question: Question) -> int:
    """Ruled lines for an answer: what the author asks for, or two a mark."""
    answer = question.answer
    if answer and answer.space.lines is not None:
        return answer.space.lines
    if question.marks:
        return LINES_PER_MARK * question.marks.number
    return LINES_WITHOUT_MARKS


def frame_mm(answer: Answer) -> float:
    """The height of a drawing frame in mm; 0 where lines are ruled."""
    drawing = answer.space.drawing
    return float(drawing.si_value) * 1000 if drawing else 0.0


def marks_inside(blocks: Blocks) -> tuple[Marks, ...]:
    """The marks that stand in a run of blocks, in order."""
    return tuple(
        inline
        for block in walk(blocks)
        for content in texts(block)
        for inline in inlines(content)
        if isinstance(inline, Marks)
    )


def paragraphs(blocks: Blocks) -> tuple[str, ...]:
    """The lines of text that blocks come to, for reckoning how much room they take."""
    return tuple(_paragraphs(blocks))


def _paragraphs(blocks: Blocks) -> Iterator[str]:
    for block in walk(blocks):
        if isinstance(block, EquationBlock):
            yield from (line.source for line in block.lines)
        elif texts(block):
            yield "".join(plain(content) for content in texts(block))
