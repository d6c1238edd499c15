"""Ways through the tree of an experiment, so that nobody else recurses.

Thirty checks ask one after the other for pieces of the same experiment, so the
tree is walked once and what was found is kept for the few last asked about.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import TypeVar

from manualgen.model.blocks import (
    Answer,
    Block,
    Blocks,
    Box,
    Figure,
    ListBlock,
    Paragraph,
    PipeTable,
    Question,
    Step,
    Subheading,
)
from manualgen.model.experiment import Experiment
from manualgen.model.fences import Calculation
from manualgen.model.text import (
    Blank,
    Emphasis,
    EquationSpan,
    FormulaSpan,
    Inline,
    Inlines,
    LineBreak,
    Marks,
    OutsideLink,
    Picture,
    QuantitySpan,
    Reference,
    UnreadSpan,
    ValueSpan,
    Words,
)

B = TypeVar("B")


def children(block: Block) -> Blocks:
    """The blocks directly inside a block, an answer's included."""
    match block:
        case Step() | Box():
            return block.blocks
        case ListBlock():
            return tuple(b for item in block.items for b in item)
        case Question():
            answer = block.answer.blocks if block.answer else ()
            return (*block.blocks, *answer, *block.parts)
        case _:
            return ()


def walk(blocks: Blocks) -> Iterator[Block]:
    """Every block, outer before inner, in source order."""
    for block in blocks:
        yield block
        yield from walk(children(block))


def blocks_of(experiment: Experiment, kind: type[B]) -> Iterator[B]:
    """Every block of one type in an experiment."""
    for block in all_blocks(experiment):
        if isinstance(block, kind):
            yield block


@lru_cache(maxsize=4)
def all_blocks(experiment: Experiment) -> Blocks:
    """Every block of an experiment, outer before inner, in source order."""
    return tuple(walk(experiment.blocks()))


@lru_cache(maxsize=4)
def runs_of_text(experiment: Experiment) -> tuple[tuple[Inlines, str], ...]:
    """Every run of text of an experiment, and its words alone."""
    blocks = all_blocks(experiment)
    return tuple((run, plain(run)) for block in blocks for run in texts(block) if run)


@lru_cache(maxsize=4)
def _inlines_by_type(experiment: Experiment) -> Mapping[type, tuple[Inline, ...]]:
    found: dict[type, list[Inline]] = {}
    for block in all_blocks(experiment):
        for content in texts(block):
            for inline in inlines(content):
                found.setdefault(type(inline), []).append(inline)
    return {kind: tuple(listed) for kind, listed in found.items()}


def texts(block: Block) -> tuple[Inlines, ...]:
    """The runs of text that belong to a block itself, not to its children."""
    match block:
        case Paragraph() | Subheading():
            return (block.content,)
        case PipeTable():
            cells = (*block.header, *(c for row in block.rows for c in row))
            return (*(c.content for c in cells), block.caption)
        case Figure():
            return (block.caption,)
        case Calculation():
            return tuple(line.description for line in block.lines)
        case _:
            return ()


_HOLDERS = (Emphasis, Blank, Reference, OutsideLink)
"""Inlines with others in them."""


def inlines(content: Inlines) -> Iterator[Inline]:
    """Every inline, outer before inner."""
    for inline in content:
        yield inline
        if isinstance(inline, _HOLDERS):
            yield from inlines(inline.content)


def inlines_of(experiment: Experiment, kind: type[B]) -> Iterator[B]:
    """Every inline of one type in an experiment."""
    for inline in _inlines_by_type(experiment).get(kind, ()):
        if isinstance(inline, kind):
            yield inline


def answers(experiment: Experiment) -> Iterator[tuple[Question, Answer]]:
    """Every answer with its question."""
    for question in blocks_of(experiment, Question):
        if question.answer:
            yield question, question.answer


def plain(content: Inlines) -> str:
    """The words alone, spans as they were typed, line ends as blanks."""
    return "".join(_plain(inline) for inline in content)


def _plain(inline: Inline) -> str:
    match inline:
        case Words():
            return inline.text
        case LineBreak():
            return " "
        case Emphasis() | Blank() | Reference() | OutsideLink():
            return plain(inline.content)
        case FormulaSpan() | EquationSpan() | QuantitySpan() | UnreadSpan():
            return inline.source
        case Picture():
            return inline.description
        case ValueSpan() | Marks():
            return ""
