"""An old document taken apart: its headings, texts, tables and pictures, in order.

Whatever form it had, each piece knows where it stood: on a line, at a time, in
a paragraph.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass
from enum import StrEnum


class AdoptError(Exception):
    """A document that cannot be taken over; the message says why."""


class Kind(StrEnum):
    """What a piece of a document is."""

    HEADING = "heading"
    TEXT = "text"
    ITEM = "item"
    TABLE = "table"
    PICTURE = "picture"


@dataclass(frozen=True, slots=True)
class PictureFile:
    """A picture that a document carries."""

    suffix: str
    """With its stop: ``.png``."""
    content: bytes
    description: str = ""


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a document."""

    kind: Kind
    text: str
    marks: tuple[tuple[int, str], ...]
    """Where its text stood: an offset, and the line, time or paragraph from there on."""
    level: int = 0
    """Of a heading: 1 for the highest."""
    rows: tuple[tuple[str, ...], ...] = ()
    picture: PictureFile | None = None
    after_gap: bool = False
    """Whether an empty line stands before it."""
    is_label: bool = False
    """A heading on the line of its text, which ends with the paragraph."""
    marker: str = ""
    """The typed number, letter or bullet of an item."""

    @property
    def is_numbered_question(self) -> bool:
        """Whether its marker numbers a question: *Q1*."""
        return bool(re.fullmatch(r"q\w*\s*\d+\W*", self.marker, re.IGNORECASE))

    @property
    def origin(self) -> str:
        """Where it begins."""
        return self.marks[0][1]

    def origin_at(self, offset: int) -> str:
        """Where a character of its text stood."""
        at = bisect_right(self.marks, offset, key=lambda mark: mark[0]) - 1
        return self.marks[max(0, at)][1]


@dataclass(frozen=True, slots=True)
class OldDocument:
    """A document, and whether it is the record of talk."""

    name: str
    pieces: tuple[Piece, ...]
    is_talk: bool = False


_BLANKS = re.compile(
    r"[\s\x00-\x1f\x7f-\x9f\u00a0\u2000-\u200d\u2028\u2029\u202a-\u202f\u2060\ufeff\ufffe\uffff\ud800-\udfff]+"
)


def tidy(text: str) -> str:
    """A text with one blank wherever there were blanks, line ends or control characters."""
    return _BLANKS.sub(" ", text).strip()
