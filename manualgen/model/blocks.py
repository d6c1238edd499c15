"""The blocks that a section is made of.

The Method and the Questions are flat: steps and questions stand in a section's
sequence beside the boxes and tables that interrupt them, and carry their own
numbers, so that numbering runs through whatever comes between.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from manualgen.model.fences import (
    Calculation,
    EquationBlock,
    Graph,
    Readings,
    Setup,
)
from manualgen.model.place import Place
from manualgen.model.text import Inlines, Marks, Picture
from manualgen.quantities import Quantity


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text."""

    content: Inlines
    place: Place


@dataclass(frozen=True, slots=True)
class Subheading:
    """A heading below a section's own."""

    level: int
    content: Inlines
    place: Place


class PartKind(StrEnum):
    """How a Method is parted."""

    LESSON = "Lesson"
    STATION = "Station"


@dataclass(frozen=True, slots=True)
class PartHeading:
    """``### Lesson 2 (40 min, after 1 week)`` or ``### Station A (10 min)``."""

    kind: PartKind
    label: str
    """``2`` or ``A``."""
    title: str
    """Words after the label, if any."""
    time: Quantity | None
    after: Quantity | None
    """How long after the part before it, where that is said."""
    place: Place


@dataclass(frozen=True, slots=True)
class ListBlock:
    """A list that is neither steps nor questions."""

    ordered: bool
    start: int
    items: tuple[Blocks, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered step of the Method."""

    number: int
    blocks: Blocks
    name: str | None
    place: Place


class Align(StrEnum):
    """How a column of a pipe table is set."""

    LEFT = "left"
    CENTRE = "center"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class TableCell:
    """A cell of a pipe table."""

    content: Inlines
    place: Place


@dataclass(frozen=True, slots=True)
class PipeTable:
    """A pipe table, with its caption and name if the line under it has them."""

    header: tuple[TableCell, ...]
    rows: tuple[tuple[TableCell, ...], ...]
    align: tuple[Align, ...]
    caption: Inlines
    name: str | None
    place: Place


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture that stands alone, with its caption."""

    picture: Picture
    caption: Inlines
    name: str | None
    place: Place


class BoxKind(StrEnum):
    """The labels that a box may have, but for ``Answer``."""

    SAFETY = "Safety"
    DISPOSAL = "Disposal"
    NOTE = "Note"
    TEACHER = "Teacher"
    TECHNICIAN = "Technician"
    CHECK = "Check"


@dataclass(frozen=True, slots=True)
class Box:
    """A block quote with a bold label."""

    kind: BoxKind
    name: str | None
    blocks: Blocks
    place: Place


@dataclass(frozen=True, slots=True)
class AnswerSpace:
    """What an answer's label says of the room for it."""

    lines: int | None = None
    """Ruled lines; None where the marks decide."""
    drawing: Quantity | None = None
    """The height of an empty frame."""
    own_work: bool = False
    """``(open)``: only the student's own work can answer."""


@dataclass(frozen=True, slots=True)
class Answer:
    """The answer to a question."""

    space: AnswerSpace
    blocks: Blocks
    place: Place


@dataclass(frozen=True, slots=True)
class Question:
    """A question, or a part of one (whose parts are its own)."""

    number: int
    blocks: Blocks
    marks: Marks | None
    answer: Answer | None
    parts: tuple[Question, ...]
    name: str | None
    place: Place


Block: TypeAlias = (
    Paragraph
    | Subheading
    | PartHeading
    | ListBlock
    | Step
    | PipeTable
    | Figure
    | Box
    | Question
    | EquationBlock
    | Readings
    | Calculation
    | Graph
    | Setup
)
Blocks: TypeAlias = tuple[Block, ...]
