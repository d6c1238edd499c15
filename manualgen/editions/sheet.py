"""The printable sheet of an experiment, as every student gets it.

Nothing here can hold an answer.  Where a student writes there is a `Gap`, an
`AnswerSpace` or an empty cell, known by a key; the teacher's edition is this
same sheet with a `manualgen.editions.key.Key` beside it that says what stands
in each.  So both editions have the same pages, and a page made from a sheet
alone has nothing to hide.

Sheets share the leaves of running text with the model (words, formulas,
quantities, pictures); what could contain a blank or a link has a type of its
own here.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from manualgen.chemistry import Formula
from manualgen.editions.fence_panels import (
    DrawingPanel,
    EquationPanel,
    GraphPanel,
    ReadingsPanel,
    Worksheet,
)
from manualgen.editions.line import GapKey, Line
from manualgen.model.blocks import Align, BoxKind, PartKind
from manualgen.model.text import Picture
from manualgen.quantities import Quantity


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph."""

    content: Line


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading inside a section."""

    level: int
    content: Line


@dataclass(frozen=True, slots=True)
class MarginMark:
    """A place that the teacher's edition points at from the margin.

    It has no height and prints nothing by itself.
    """

    key: GapKey


@dataclass(frozen=True, slots=True)
class PartBanner:
    """Where a lesson or a station begins."""

    kind: PartKind
    label: str
    title: str
    time: Quantity | None
    after: Quantity | None


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    ordered: bool
    start: int
    items: tuple[Panels, ...]


@dataclass(frozen=True, slots=True)
class StepItem:
    """A step of the Method."""

    number: int
    anchor: str
    blocks: Panels


@dataclass(frozen=True, slots=True)
class Grid:
    """A pipe table."""

    number: str
    """``3.1``; empty where the table has no caption and no number."""
    anchor: str | None
    caption: Line
    header: tuple[Line, ...]
    rows: tuple[tuple[Line, ...], ...]
    align: tuple[Align, ...]


@dataclass(frozen=True, slots=True)
class Plate:
    """A picture that stands alone."""

    number: str
    anchor: str | None
    picture: Picture
    caption: Line


@dataclass(frozen=True, slots=True)
class BoxPanel:
    """A box that the author wrote, of a kind that students see."""

    kind: BoxKind
    number: str
    """``3.2`` for a Safety box, else empty."""
    anchor: str | None
    blocks: Panels


class SpaceKind(StrEnum):
    """What a student finds to answer in."""

    LINES = "lines"
    FRAME = "frame"
    OWN = "own"
    """Lines for an answer that only the student's own work can give."""


@dataclass(frozen=True, slots=True)
class AnswerRoom:
    """Room for an answer, of exactly this height."""

    key: GapKey
    kind: SpaceKind
    lines: int
    """Ruled lines; 0 for a frame."""
    frame_mm: float
    """Height of a frame in mm; 0 for lines."""


@dataclass(frozen=True, slots=True)
class QuestionItem:
    """A question or a part of one."""

    label: str
    """``2`` or ``2a``."""
    anchor: str
    blocks: Panels
    marks: int | None
    room: AnswerRoom | None
    parts: tuple[QuestionItem, ...]


Panel: TypeAlias = (
    Text
    | Heading
    | MarginMark
    | PartBanner
    | Items
    | StepItem
    | Grid
    | Plate
    | BoxPanel
    | QuestionItem
    | EquationPanel
    | ReadingsPanel
    | Worksheet
    | GraphPanel
    | DrawingPanel
)
Panels: TypeAlias = tuple[Panel, ...]


@dataclass(frozen=True, slots=True)
class HazardRow:
    """A substance in the hazard box, at the strength in use."""

    name: str
    strength: str
    """As printed; ``concentrated``, ``solid`` or empty."""
    signal_word: str
    """``Danger``, ``Warning`` or empty."""
    pictograms: tuple[str, ...]
    """``GHS05`` … in the order of the label."""
    statements: tuple[str, ...]
    """The texts of the H-statements."""
    remark: str
    """``not classified at this strength``, ``made in step 3: about 60 cm³`` …"""


@dataclass(frozen=True, slots=True)
class HazardPanel:
    """The hazard box that the tool makes: Safety N.1."""

    number: str
    rows: tuple[HazardRow, ...]
    controls: tuple[str, ...]
    """The laboratory's standing controls."""
    response: tuple[str, ...]
    """The texts of the P-statements for response."""
    unclassified: tuple[str, ...] = ()
    """What is used or made and not classified at its strength."""
    environment: tuple[str, ...] = ()
    """What is classified as a hazard to the environment alone."""


@dataclass(frozen=True, slots=True)
class ListRow:
    """A line of the list of chemicals or apparatus."""

    name: str
    formula: Formula | None
    details: tuple[str, ...]
    """Strength, amount, class …, each as printed."""


@dataclass(frozen=True, slots=True)
class SheetSection:
    """A section with its heading."""

    heading: str
    anchor: str
    blocks: Panels


@dataclass(frozen=True, slots=True)
class Sheet:
    """One experiment, ready to print for students."""

    id: str
    number: str
    title: str
    time: Quantity | None
    group: int | None
    techniques: tuple[str, ...]
    hazards: HazardPanel
    chemicals: tuple[ListRow, ...]
    apparatus: tuple[ListRow, ...]
    sections: tuple[SheetSection, ...]
