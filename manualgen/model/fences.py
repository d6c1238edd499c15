"""The fences: equations, readings, calculations, graphs and drawings."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TypeAlias

from manualgen.chemistry import Equation
from manualgen.model.place import Place
from manualgen.model.text import Inlines
from manualgen.quantities import Quantity, Unit
from manualgen.quantities.expression import Expression


@dataclass(frozen=True, slots=True)
class EquationLine:
    """One line of an equation fence."""

    equation: Equation
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class EquationBlock:
    """An ``equation`` fence and the words after it."""

    lines: tuple[EquationLine, ...]
    name: str | None
    answer: bool
    to_balance: bool
    with_ionic: bool
    per_mole: bool
    ionic: bool
    half: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Cell:
    """A number in a readings table, as it was typed."""

    text: str
    value: Decimal | None
    """None for an empty cell or for words."""
    place: Place


class ColumnKind(StrEnum):
    """Where the cells of a readings column come from."""

    SAMPLE = "sample"
    """The teacher's alone."""
    GIVEN = "given"
    """Printed in every edition."""
    FORMULA = "formula"
    """Computed from the other columns."""
    EMPTY = "empty"
    """For the student's own readings."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a readings table; its heading prints as quantity / unit."""

    symbol: str
    heading: str
    unit: Unit | None
    """None where the column holds words; a pure number has the unit 1."""
    kind: ColumnKind
    cells: tuple[Cell, ...]
    formula: Expression | None
    place: Place
    formula_place: Place | None


@dataclass(frozen=True, slots=True)
class Mean:
    """Which readings are averaged."""

    of: str
    rows: tuple[str, ...]
    """The labels of the rows; empty with ``concordant_rows``: all that agree."""
    concordant_rows: bool
    concordant: Quantity | None
    """The largest difference allowed between the readings averaged, inclusive."""
    place: Place


@dataclass(frozen=True, slots=True)
class Readings:
    """A ``readings`` fence: a table that the class fills in."""

    name: str | None
    rows: tuple[str, ...]
    columns: tuple[Column, ...]
    mean: Mean | None
    place: Place


@dataclass(frozen=True, slots=True)
class Given:
    """``c = 0.100 mol/dm3``: printed for everyone, or a blank where measured."""

    symbol: str
    quantity: Quantity
    measured: bool
    description: Inlines
    place: Place
    value_place: Place


@dataclass(frozen=True, slots=True)
class Computed:
    """``n = c * V -> mol``: an expression and the unit of its result."""

    symbol: str
    expression: Expression
    source: str
    unit: Unit | None
    """None where only a name is given to what has a unit: ``V = titres.mean``."""
    description: Inlines
    place: Place
    expression_place: Place
    unit_place: Place | None


CalculationLine: TypeAlias = Given | Computed
"""A `Given` whose symbol an earlier line computes is the author's own answer."""


@dataclass(frozen=True, slots=True)
class Calculation:
    """A ``calculation`` fence."""

    name: str | None
    lines: tuple[CalculationLine, ...]
    place: Place
    unread: tuple[str, ...] = ()
    """Symbols of lines that could not be read; what is wrong there is noted."""


@dataclass(frozen=True, slots=True)
class Axis:
    """``t / min, 0 to 12 step 2``."""

    symbol: str
    unit: Unit
    start: Decimal
    stop: Decimal
    step: Decimal
    place: Place


class LineKind(StrEnum):
    """The line drawn through a graph's points."""

    FIT = "fit"
    TWO_FITS = "two fits"
    CURVE = "curve"
    TANGENT = "tangent"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class GraphLine:
    """What a graph's line is: ``fit``, ``fit rows 1 to 4``, ``tangent at 2 min``."""

    kind: LineKind
    rows: tuple[tuple[str, str], ...]
    """First and last row label of each fit; empty: all rows."""
    at: Quantity | None
    """Where a tangent touches."""
    place: Place


@dataclass(frozen=True, slots=True)
class Graph:
    """A ``graph`` fence."""

    name: str | None
    x: Axis
    y: Axis
    points: tuple[Expression, Expression] | None
    points_place: Place | None
    line: GraphLine
    place: Place


@dataclass(frozen=True, slots=True)
class SetupContent:
    """Something inside a piece of a drawing."""

    name: str
    amount: Quantity | None
    strength: Quantity | None
    place: Place


class Relation(StrEnum):
    """How a piece of a drawing stands to another."""

    ON = "on"
    ABOVE = "above"
    IN = "in"
    WITH = "with"
    JOINED = "joined by"
    HEATED = "heated by"
    HELD = "held by"


@dataclass(frozen=True, slots=True)
class SetupPiece:
    """One piece of apparatus in a drawing."""

    name: str
    """As the author wrote it, without count, capacity and contents."""
    capacity: Quantity | None
    stoppered: bool
    contents: tuple[SetupContent, ...]
    relation: Relation | None
    """To the piece at ``base``; None for the first."""
    by: str | None
    """The tube of ``joined by TUBE to``."""
    base: int | None
    """The index of the piece that this one is related to."""
    place: Place


@dataclass(frozen=True, slots=True)
class Setup:
    """A ``setup`` fence: a drawing of apparatus."""

    name: str | None
    pieces: tuple[SetupPiece, ...]
    source: str
    place: Place
