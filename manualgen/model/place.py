"""Where a piece of the manual was written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A stretch of a source file; lines and columns count from 1.

    ``end_column`` is the column after the last character, so a place of no
    width has its end where it starts.  Columns count characters, not bytes.
    """

    file: str
    """The path as the author would name it: ``content/vinegar.md``."""
    line: int = 1
    column: int = 1
    end_line: int = 0
    end_column: int = 0

    def __post_init__(self) -> None:
        if not self.end_line:
            object.__setattr__(self, "end_line", self.line)
            object.__setattr__(self, "end_column", self.end_column or self.column)

    def __reduce__(self) -> tuple[object, ...]:
        """As a class and its fields: there are hundreds of places in a study."""
        bounds = (self.line, self.column, self.end_line, self.end_column)
        return Place, (self.file, *bounds)

    def within(self, start: int, end: int) -> Place:
        """The part from character ``start`` to ``end`` of a one-line place."""
        return Place(
            self.file,
            self.line,
            self.column + start,
            self.line,
            self.column + max(start, end),
        )

    def line_in(self, texts: Mapping[str, Sequence[str]]) -> str:
        """The line at which it starts, in texts by file; nothing if unknown."""
        lines = texts.get(self.file, ())
        return lines[self.line - 1] if 0 < self.line <= len(lines) else ""

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"
