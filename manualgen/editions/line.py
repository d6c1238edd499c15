"""Running text as it is printed, and the gaps in it.

A line shares its leaves with the model (words, formulas, quantities, pictures);
what could contain a blank or a link has a type of its own here.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from manualgen.model.text import (
    EquationSpan,
    FormulaSpan,
    LineBreak,
    Marks,
    Picture,
    QuantitySpan,
    Words,
)

GapKey: TypeAlias = int
"""Counts the places to write in, through one sheet."""


class GapWidth(StrEnum):
    """The widths of a gap; four, so that a width tells nothing of the word."""

    SHORT = "short"
    MEDIUM = "medium"
    LONG = "long"
    FULL = "full"


@dataclass(frozen=True, slots=True)
class Gap:
    """A place in the line where a student writes."""

    key: GapKey
    width: GapWidth


@dataclass(frozen=True, slots=True)
class Styled:
    """Text in italics, or in bold where ``strong``."""

    content: Line
    strong: bool


@dataclass(frozen=True, slots=True)
class Link:
    """A resolved cross-reference: its words, the number, and where it leads."""

    content: Line
    number: str
    """``3.2``, or a step's or experiment's number."""
    experiment: str
    """The id of the experiment whose page it leads to, this one included."""
    anchor: str | None
    """The anchor on that page; None for its top."""


@dataclass(frozen=True, slots=True)
class Outside:
    """A link that leads out of the manual."""

    content: Line
    address: str


Piece: TypeAlias = (
    Words
    | LineBreak
    | FormulaSpan
    | EquationSpan
    | QuantitySpan
    | Picture
    | Marks
    | Styled
    | Link
    | Outside
    | Gap
)
Line: TypeAlias = tuple[Piece, ...]
