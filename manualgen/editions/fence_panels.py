"""Panels for what is computed: equations, tables, worksheets, graphs, drawings.

Where a student writes there is a gap; what stands in it is the key's to say.
"""

from __future__ import annotations

from dataclasses import dataclass

from manualgen.chemistry import Equation, Formula
from manualgen.editions.line import Gap, GapKey, Line
from manualgen.model.fences import Axis
from manualgen.model.lab import StrengthWord
from manualgen.quantities import Quantity, Unit


@dataclass(frozen=True, slots=True)
class CoefficientGap:
    """The gap for a coefficient in an equation that students balance."""

    key: GapKey
    formula: Formula
    state: str | None


@dataclass(frozen=True, slots=True)
class Skeleton:
    """An equation without its coefficients."""

    reactants: tuple[CoefficientGap, ...]
    products: tuple[CoefficientGap, ...]
    arrow: str


@dataclass(frozen=True, slots=True)
class EquationRow:
    """A line of an equation panel: shown, or to be completed, or a gap."""

    content: Equation | Skeleton | Gap
    ionic: bool
    """A net ionic equation, to be headed as such."""


@dataclass(frozen=True, slots=True)
class EquationPanel:
    """An equation fence."""

    number: str
    anchor: str | None
    rows: tuple[EquationRow, ...]


@dataclass(frozen=True, slots=True)
class ColumnHead:
    """A column heading, printed as quantity / unit."""

    heading: str
    symbol: str
    unit: Unit | None


@dataclass(frozen=True, slots=True)
class ReadingsPanel:
    """A table for readings: printed cells, and gaps for the rest."""

    number: str
    anchor: str | None
    columns: tuple[ColumnHead, ...]
    rows: tuple[str, ...]
    cells: tuple[tuple[str | Gap, ...], ...]
    """Row by row; a string is a given value in the house style."""
    mean: MeanRow | None


@dataclass(frozen=True, slots=True)
class MeanRow:
    """The line under a readings table."""

    heading: str
    """The heading of the column that is averaged."""
    rows: tuple[str, ...]
    """The rows averaged; empty: those that agree."""
    concordant: Quantity | None
    unit: Unit | None
    gap: Gap


@dataclass(frozen=True, slots=True)
class WorkLine:
    """A line of a worksheet: a given value, or a gap with its unit."""

    symbol: str
    description: Line
    value: Quantity | Gap
    unit: Unit | None


@dataclass(frozen=True, slots=True)
class Worksheet:
    """A calculation, as students work it through."""

    anchor: str | None
    lines: tuple[WorkLine, ...]
    uncertain: bool = False
    """Whether its results have uncertainties, which are standard ones (k = 1)."""
    half_widths: bool = False
    """Whether values that are no results have half-widths."""
    half_widths_given: bool = False
    """Whether one of them stands in every edition and is not for students to measure."""


@dataclass(frozen=True, slots=True)
class GraphPanel:
    """Squared paper with its axes; the key holds points and line."""

    number: str
    anchor: str | None
    key: GapKey
    x: Axis
    y: Axis


@dataclass(frozen=True, slots=True)
class DrawnContent:
    """What stands inside a drawn piece, as students may know it."""

    name: str
    amount: Quantity | None
    strength: Quantity | StrengthWord | None


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece of a drawing and how it stands to another; see `SetupPiece`."""

    name: str
    capacity: Quantity | None
    stoppered: bool
    contents: tuple[DrawnContent, ...]
    relation: str | None
    by: str | None
    base: int | None


@dataclass(frozen=True, slots=True)
class DrawingPanel:
    """A drawing of apparatus."""

    number: str
    anchor: str | None
    pieces: tuple[DrawnPiece, ...]
