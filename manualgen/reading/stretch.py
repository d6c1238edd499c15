"""Text cut from a source file that still knows where it stands there.

Front matter, fences, paragraphs, table cells and code spans are handed from
reader to reader as a `Stretch`: the text, and the place of each piece of it in
the file. `Stretch.place` is the one function that turns an offset into a line
and a column; nobody else adds anything to a line number.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from manualgen.model.place import Place

Start: TypeAlias = tuple[int, int, int]
"""An offset in the text, and the line and column in the file from there on."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A text and where it stands."""

    file: str
    text: str
    starts: tuple[Start, ...]
    """In order; the first has offset 0."""
    whole: Place | None = None
    """The place of the whole, where offsets mean nothing: words with escapes."""

    def place(self, start: int = 0, end: int | None = None) -> Place:
        """The place of the characters from ``start`` to ``end``, or of all of them.

        Offsets outside the text are brought into it, and the line end that a text
        or a part of it ends with is left out.
        """
        if self.whole:
            return self.whole
        last = self._last()
        start = min(max(start, 0), last)
        end = last if end is None else min(end, last)
        at = self._start_of(start)
        begin, line, column = self.starts[at]
        column += start - begin
        if end <= start:
            return Place(self.file, line, column, line, column)
        if len(self.starts) == 1:
            return Place(self.file, line, column, line, column + end - start)
        shown = self.text[end - 1] != "\n"
        if at + 1 == len(self.starts) or end <= self.starts[at + 1][0]:
            end_column = column + end - 1 - start + shown
            return Place(self.file, line, column, line, end_column)
        end_line, end_column = self._position(end - 1)
        return Place(self.file, line, column, end_line, end_column + shown)

    def _last(self) -> int:
        """The offset of the end, which is before the line end that may stand there."""
        return len(self.text) - self.text.endswith("\n")

    def _position(self, offset: int) -> tuple[int, int]:
        begin, line, column = self.starts[self._start_of(offset)]
        return line, column + offset - begin

    def _start_of(self, offset: int) -> int:
        """Which of the starts an offset is counted from."""
        return bisect_right(self.starts, (offset, 1 << 60, 0)) - 1

    def cut(self, start: int, end: int) -> Stretch:
        """The part from ``start`` to ``end``."""
        if self.whole:
            return Stretch(self.file, self.text[start:end], self.starts, self.whole)
        if len(self.starts) == 1:
            ((begin, line, column),) = self.starts
            first = (0, line, column + start - begin)
            return Stretch(self.file, self.text[start:end], (first,))
        first = (0, *self._position(min(start, self._last())))
        later = ((o - start, x, y) for o, x, y in self._later(start, end))
        return Stretch(self.file, self.text[start:end], (first, *later))

    def strip(self) -> Stretch:
        """The text without blanks around it."""
        text = self.text
        start = len(text) - len(text.lstrip())
        return self.cut(start, max(start, len(text.rstrip())))

    def split(self, by: str) -> Iterator[Stretch]:
        """The parts between each ``by``, blanks around them taken off."""
        start = 0
        for part in self.text.split(by):
            yield self.cut(start, start + len(part)).strip()
            start += len(part) + len(by)

    def pieces(self, start: int, end: int) -> Iterator[tuple[str, Place]]:
        """The parts that stand in the file as they stand in the text, and where."""
        later = [offset for offset, _, _ in self._later(start, end)]
        for begin, finish in pairwise((start, *later, end)):
            yield self.text[begin:finish], self.place(begin, finish)

    def _later(self, start: int, end: int) -> tuple[Start, ...]:
        """The starts that lie between two offsets."""
        if len(self.starts) == 1:
            return ()
        low = bisect_right(self.starts, (start, 1 << 60, 0))
        return self.starts[low : bisect_left(self.starts, (end, 0, 0), low)]

    def lines(self) -> Iterator[Stretch]:
        """The text line by line, without line ends."""
        start = 0
        for line in self.text.split("\n"):
            yield self.cut(start, start + len(line))
            start += len(line) + 1


def joined_lines(
    file: str, lines: tuple[str, ...], first: int, columns: tuple[int, ...] = ()
) -> Stretch:
    """Whole lines of a file, the first of them line ``first``, with their line ends.

    ``columns`` are those at which they start, 1 if left out.
    """
    starts = []
    offset = 0
    for index, line in enumerate(lines):
        starts.append((offset, first + index, columns[index] if columns else 1))
        offset += len(line) + 1
    text = "".join(f"{line}\n" for line in lines)
    return Stretch(file, text, tuple(starts) or ((0, first, 1),))
