"""A draft: what one practical of an old document becomes.

Every piece of it remembers where in the source its words stood, and what they
were.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from manualgen.adopting.piece import PictureFile


class Place(StrEnum):
    """The sections of a draft, by their headings."""

    AIM = "Aim"
    THEORY = "Theory"
    METHOD = "Method"
    OBSERVATIONS = "Observations"
    CONCLUSION = "Conclusion"
    QUESTIONS = "Questions"
    DISPOSAL = "Disposal"
    TEACHER = "For the teacher"
    PREPARATION = "For the preparation room"
    UNPLACED = "Not placed yet"


class Form(StrEnum):
    """How a block is written."""

    STEP = "step"
    QUESTION = "question"
    ANSWER = "answer"
    BULLET = "bullet"
    PARAGRAPH = "paragraph"
    SAFETY = "safety"
    TABLE = "table"
    PICTURE = "picture"
    EQUATION = "equation"


@dataclass(frozen=True, slots=True)
class Said:
    """Words of the source and where they stood."""

    words: str
    origin: str
    number: int = 0
    """Of its statement: the same words may be said twice."""


@dataclass(frozen=True, slots=True)
class Block:
    """A block of a section."""

    form: Form
    text: str
    """Markdown; of a table nothing."""
    said: tuple[Said, ...]
    rows: tuple[tuple[str, ...], ...] = ()
    picture: PictureFile | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of a list in the front matter."""

    text: str
    said: Said


@dataclass(frozen=True, slots=True)
class Draft:
    """An experiment in the making."""

    title: str
    origin: str
    """Where in the source it begins."""
    source: str
    """The source's name."""
    opening: Said | None = None
    time: Entry | None = None
    group: Entry | None = None
    chemicals: tuple[Entry, ...] = ()
    apparatus: tuple[Entry, ...] = ()
    blocks: tuple[tuple[Place, tuple[Block, ...]], ...] = ()

    def section(self, place: Place) -> tuple[Block, ...]:
        """The blocks of a section."""
        return next((blocks for p, blocks in self.blocks if p is place), ())

    @property
    def pictures(self) -> tuple[PictureFile, ...]:
        """The pictures in the order of their blocks."""
        found = (b.picture for _, blocks in self.blocks for b in blocks)
        return tuple(p for p in found if p)
