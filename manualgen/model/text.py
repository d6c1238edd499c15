"""Running text: what stands inside a paragraph, a step or a cell.

Words are kept apart from chemistry.  A code span was read as a formula, an
equation, a quantity or the name of a computed value; what could be read as
none of these stays as an `UnreadSpan`, and its fault was noted.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from manualgen.chemistry import Equation, Formula
from manualgen.model.place import Place
from manualgen.quantities import Quantity


@dataclass(frozen=True, slots=True)
class Words:
    """Plain words on one source line."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class LineBreak:
    """The end of a source line inside a paragraph; ``hard`` if it must print."""

    hard: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Emphasis:
    """Text in italics, or in bold where ``strong``."""

    content: Inlines
    strong: bool
    place: Place


@dataclass(frozen=True, slots=True)
class FormulaSpan:
    """A formula or ion in backticks, with its state if one is written."""

    formula: Formula
    state: str | None
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class EquationSpan:
    """An equation in the line."""

    equation: Equation
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class QuantitySpan:
    """A quantity in backticks."""

    quantity: Quantity
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class ValueSpan:
    """``value of SYMBOL``: a computed value, the teacher's alone."""

    symbol: str
    place: Place


@dataclass(frozen=True, slots=True)
class UnreadSpan:
    """A code span that could not be read; its fault has been noted."""

    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class Blank:
    """Words that the student writes in: ``[_pale green_]``."""

    content: Inlines
    place: Place


@dataclass(frozen=True, slots=True)
class Marks:
    """``[2]``, or ``[max 2]`` where an answer offers more points than count."""

    number: int
    maximum: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Reference:
    """A link to a named piece of this experiment or another, or to another whole.

    ``[Safety](#hot-flask)``, ``[Table](vinegar.md#titres)``, ``[Vinegar](vinegar.md)``.
    """

    content: Inlines
    experiment: str | None
    """The other experiment's id, or None for this one."""
    name: str | None
    """The piece's name without ``#``, or None for the whole experiment."""
    place: Place


@dataclass(frozen=True, slots=True)
class OutsideLink:
    """A link to an ``https`` address."""

    content: Inlines
    address: str
    place: Place


@dataclass(frozen=True, slots=True)
class Picture:
    """An image from inside the content folder."""

    file: str
    """Its path from the content folder, with forward slashes."""
    description: str
    """The alternative text."""
    place: Place


Inline: TypeAlias = (
    Words
    | LineBreak
    | Emphasis
    | FormulaSpan
    | EquationSpan
    | QuantitySpan
    | ValueSpan
    | UnreadSpan
    | Blank
    | Marks
    | Reference
    | OutsideLink
    | Picture
)
Inlines: TypeAlias = tuple[Inline, ...]
