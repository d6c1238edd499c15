"""The Method as text: its steps and its boxes, in order and by part.

Used is what the Method names: its steps, its boxes, its drawings. What boxes
for disposal, the teacher and the technician say is no use, nor are the theory
and the questions.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from manualgen.model.blocks import (
    Block,
    Blocks,
    Box,
    BoxKind,
    PartHeading,
    Step,
    Subheading,
)
from manualgen.model.experiment import Experiment, SectionKind
from manualgen.model.fences import Readings, Setup
from manualgen.model.text import Words
from manualgen.model.walk import all_blocks, children, texts, walk
from manualgen.working.prose import Prose, prose_of


class Voice(StrEnum):
    """Who speaks in a passage of the Method."""

    STEP = "step"
    """An instruction, or a note beside one."""
    SAFETY = "safety"
    OTHER = "other"
    """A table, a heading, a caption."""


@dataclass(frozen=True, slots=True)
class Passage:
    """A run of text of the Method."""

    prose: Prose
    voice: Voice
    part: int
    """Lessons and stations, counted; 0 before the first."""
    step: int | None = None


def method_passages(experiment: Experiment) -> tuple[Passage, ...]:
    """The passages of the Method, in source order."""
    return tuple(_passages(_method_blocks(experiment)))


def method_drawings(experiment: Experiment) -> tuple[Setup, ...]:
    """The drawings of apparatus in the Method."""
    blocks = walk(_method_blocks(experiment))
    return tuple(b for b in blocks if isinstance(b, Setup))


def boxes(experiment: Experiment, *kinds: BoxKind) -> Iterator[Box]:
    """The boxes of some kinds, anywhere in the experiment."""
    for block in all_blocks(experiment):
        if isinstance(block, Box) and block.kind in kinds:
            yield block


def box_texts(box: Box) -> Iterator[Prose]:
    """The runs of text of a box."""
    return prose_in(box.blocks)


def prose_in(blocks: Blocks) -> Iterator[Prose]:
    """The runs of text of some blocks and of those inside them."""
    for block in walk(blocks):
        for content in texts(block):
            if content:
                yield prose_of(content)


def _method_blocks(experiment: Experiment) -> Blocks:
    sections = (s for s in experiment.sections if s.kind is SectionKind.METHOD)
    return tuple(block for section in sections for block in section.blocks)


def _passages(blocks: Blocks) -> Iterator[Passage]:
    part = 0
    for block in blocks:
        part += isinstance(block, PartHeading)
        yield from _of_block(block, part, None)


def _of_block(block: Block, part: int, step: int | None) -> Iterator[Passage]:
    if isinstance(block, Box):
        yield from _of_box(block, part, step)
        return
    number = block.number if isinstance(block, Step) else step
    voice = Voice.STEP if number is not None else Voice.OTHER
    if isinstance(block, Subheading):
        voice = Voice.OTHER
    for content in texts(block):
        if content:
            yield Passage(prose_of(content), voice, part, number)
    if isinstance(block, Readings):
        yield from _of_readings(block, part)
    for inner in children(block):
        yield from _of_block(inner, part, number)


def _of_box(box: Box, part: int, step: int | None) -> Iterator[Passage]:
    match box.kind:
        case BoxKind.DISPOSAL | BoxKind.TEACHER | BoxKind.TECHNICIAN:
            return
        case BoxKind.SAFETY:
            voice = Voice.SAFETY
        case _:
            voice = Voice.STEP
    for prose in box_texts(box):
        yield Passage(prose, voice, part, step)


def _of_readings(block: Readings, part: int) -> Iterator[Passage]:
    """Headings of readings name what is read and with what."""
    for column in block.columns:
        if column.heading:
            heading = prose_of((Words(column.heading, column.place),))
            yield Passage(heading, Voice.OTHER, part)
