"""What the teacher's edition adds to a sheet: the key to its gaps, and its own pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TypeAlias

from manualgen.drawing.room import Fit
from manualgen.editions.line import GapKey, Line
from manualgen.editions.sheet import HazardRow, ListRow, Panels, SheetSection


@dataclass(frozen=True, slots=True)
class FilledLine:
    """Words that stand in a gap or a cell."""

    content: Line


@dataclass(frozen=True, slots=True)
class FilledRoom:
    """An answer that stands in its room."""

    blocks: Panels
    fit: Fit = Fit.ON_LINES
    """How closely it is set."""
    note: str = ""
    """The teacher note that holds the answer, where its room is too small."""


@dataclass(frozen=True, slots=True)
class FilledWork:
    """A worksheet line worked out: algebra, substitution and value."""

    algebra: str
    """Presentation MathML, or empty for a measured value."""
    substitution: str
    """Presentation MathML, or empty."""
    value: str
    """As printed, with its unit and, where the data have one, uncertainty."""


@dataclass(frozen=True, slots=True)
class PlottedLine:
    """A straight or curved line through points, in axis units."""

    points: tuple[tuple[float, float], ...]
    label: str
    """What it tells, such as its gradient, as printed."""


@dataclass(frozen=True, slots=True)
class FilledGraph:
    """The points and lines of a graph, in the units of its axes."""

    points: tuple[tuple[float, float], ...]
    x_errors: tuple[float, ...]
    y_errors: tuple[float, ...]
    lines: tuple[PlottedLine, ...]


@dataclass(frozen=True, slots=True)
class FilledMark:
    """The number of the teacher note that belongs here: ``T2``."""

    label: str


Filled: TypeAlias = FilledLine | FilledRoom | FilledWork | FilledGraph | FilledMark


@dataclass(frozen=True, slots=True)
class TeacherNote:
    """A teacher or technician box, gathered on the teacher pages."""

    label: str
    """``T1``, also printed in the margin where it belongs."""
    kind: str
    """``Teacher``, ``Technician`` or ``Answer`` for the rest of a long answer."""
    blocks: Panels


@dataclass(frozen=True, slots=True)
class UnknownRow:
    """What an unknown is, for which groups."""

    shown: str
    groups: str
    identity: str


@dataclass(frozen=True, slots=True)
class TeacherPages:
    """The pages after an experiment's last student page."""

    notes: tuple[TeacherNote, ...] = ()
    sections: tuple[SheetSection, ...] = ()
    """``For the teacher``, then ``For the preparation room``."""
    unknowns: tuple[UnknownRow, ...] = ()
    chemicals: tuple[ListRow, ...] = ()
    """The list by its true names, where it differs from the students'."""
    hazards: tuple[HazardRow, ...] = ()
    """What the students' box leaves out, such as environmental statements."""
    reviewed: str = ""


@dataclass(frozen=True, slots=True)
class Key:
    """What stands in each gap of one sheet, and the teacher's own pages."""

    filled: Mapping[GapKey, Filled] = field(
        default_factory=lambda: MappingProxyType({})
    )
    pages: TeacherPages | None = None


NO_KEY = Key()
"""What the student edition is printed with."""
