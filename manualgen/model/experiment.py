"""One experiment as its author wrote it."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from enum import StrEnum

from manualgen.model.blocks import Block, Blocks
from manualgen.model.finding import Noted
from manualgen.model.lab import ListedApparatus, ListedChemical
from manualgen.model.place import Place
from manualgen.model.text import Inlines
from manualgen.quantities import Quantity


class SectionKind(StrEnum):
    """The sections that the format gives a meaning to."""

    AIM = "Aim"
    THEORY = "Theory"
    METHOD = "Method"
    OBSERVATIONS = "Observations"
    CALCULATION = "Calculation"
    CONCLUSION = "Conclusion"
    QUESTIONS = "Questions"
    DISPOSAL = "Disposal"
    TEACHER = "For the teacher"
    TECHNICIAN = "For the preparation room"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Section:
    """A second-level heading and what stands under it."""

    kind: SectionKind
    heading: str
    """As the author wrote it: ``Results`` for an OBSERVATIONS section."""
    blocks: Blocks
    place: Place
    content: Inlines = ()
    """The heading with its chemistry read."""


@dataclass(frozen=True, slots=True)
class Accept:
    """A finding that the author accepts, and why."""

    check: str
    why: str
    words: str | None
    """``at:`` words of the line that is accepted; None for the whole file."""
    place: Place


@dataclass(frozen=True, slots=True)
class Reviewed:
    """Who read the experiment through, when, and when it is due again."""

    by: str
    date: datetime.date | None
    due: datetime.date | None
    place: Place


@dataclass(frozen=True, slots=True, eq=False)
class Experiment:
    """One source file; each is like itself alone."""

    id: str
    file: str
    title: str
    title_place: Place
    time: Quantity | None = None
    group: int | None = None
    chemicals: tuple[ListedChemical, ...] = ()
    apparatus: tuple[ListedApparatus, ...] = ()
    techniques: tuple[str, ...] = ()
    reviewed: Reviewed | None = None
    accepts: tuple[Accept, ...] = ()
    sections: tuple[Section, ...] = ()
    noted: tuple[Noted, ...] = ()
    """What reading found wrong in this file."""
    complete: bool = True
    """Whether the file was read to its end; where not, what seems to be missing
    from its lists may well be there.
    """

    def section(self, kind: SectionKind) -> Section | None:
        """The first section of a kind."""
        return next((s for s in self.sections if s.kind is kind), None)

    def blocks(self) -> tuple[Block, ...]:
        """Every section's blocks, one after the other."""
        return tuple(b for s in self.sections for b in s.blocks)
