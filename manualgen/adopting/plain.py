"""Typed notes, plain or in Markdown, taken apart by their lines.

Lines that were wrapped are joined again; a line that had room for the next
word ended where its author wanted it to.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import TypeAlias

from manualgen.adopting.headings import begins_with_label, with_headings
from manualgen.adopting.markers import bare_items, marked_item
from manualgen.adopting.piece import Kind, PictureFile, Piece, tidy
from manualgen.adopting.statement import MARKS

_HASHES = re.compile(r"\s{0,3}(#{1,6})\s+(.*?)\s*#*\s*")
_UNDERLINE = re.compile(r"\s*(?:=|-|_|~|\*){3,}\s*")
_PICTURE = re.compile(r"\s*!\[([^\[\]]*)\]\(([^()\s]+)\)\s*")
_RULE_ROW = re.compile(r"[\s|:-]+")
_STRONG = re.compile(r"\*\*|__|(?<!\w)[*_](?=\S)|(?<=\S)[*_](?!\w)|`")
_COLUMNS = re.compile(r"\S {3,}\S")
_SLACK = 8
"""Characters by which a wrapped line may be shorter than the longest."""
_NO_LIST = 50
"""Characters past which a line without a stop is no item of a list."""
_WIDEST = 110
"""A longer line was not wrapped."""


Fetch: TypeAlias = Callable[[str], PictureFile | None]


def no_picture(address: str) -> PictureFile | None:
    """The picture of notes that have none."""
    return None


def read_plain(
    text: str, *, markdown: bool, fetch: Fetch = no_picture
) -> tuple[Piece, ...]:
    """The pieces of typed notes; ``fetch`` gives the pictures that Markdown names."""
    reader = _LineReader(text.split("\n"), markdown, fetch)
    return tuple(with_headings(reader.pieces()))


@dataclass(slots=True)
class _LineReader:
    """Lines, and the paragraph that is being gathered."""

    lines: list[str]
    markdown: bool
    fetch: Fetch
    gap: bool = True
    gathered: list[tuple[int, str]] = field(default_factory=list)
    kind: Kind = Kind.TEXT
    marker: str = ""
    began_after_gap: bool = True
    bare: dict[int, tuple[str, str]] = field(init=False)

    def __post_init__(self) -> None:
        self.bare = bare_items(self.lines)

    def pieces(self) -> Iterator[Piece]:
        at = 0
        while at < len(self.lines):
            if columns := self._columns_end(at):
                yield from self._flush()
                yield self._columns(at, columns)
                at = columns
                continue
            if table := self._table_end(at):
                yield from self._flush()
                yield self._table(at, table)
                at = table
                continue
            yield from self._line(at)
            at += 1
        yield from self._flush()

    def _line(self, at: int) -> Iterator[Piece]:
        line = self.lines[at]
        if not tidy(line):
            yield from self._flush()
            self.gap = True
        elif _UNDERLINE.fullmatch(line):
            yield from self._underline(line)
        elif found := _HASHES.fullmatch(line) if self.markdown else None:
            yield from self._flush()
            yield self._heading(at, found[2], len(found[1]))
        elif picture := self._picture(line):
            yield from self._flush()
            yield Piece(Kind.PICTURE, "", ((0, _origin(at)),), picture=picture)
        else:
            yield from self._text(at, line)

    def _picture(self, line: str) -> PictureFile | None:
        """The picture that stands alone on a line of Markdown, if it can be had."""
        found = _PICTURE.fullmatch(line) if self.markdown else None
        picture = self.fetch(found[2]) if found else None
        if found is None or picture is None:
            return None
        return replace(picture, description=tidy(found[1]))

    def _text(self, at: int, line: str) -> Iterator[Piece]:
        item = self.bare.get(at) or marked_item(line)
        if item:
            yield from self._flush()
            self._begin(Kind.ITEM)
            self.marker = item[0]
            self.gathered.append((at, item[1]))
            return
        if self.gathered and not self._goes_on(line):
            yield from self._flush()
        if not self.gathered:
            self._begin(Kind.TEXT)
        self.gathered.append((at, line))

    def _begin(self, kind: Kind) -> None:
        self.kind, self.began_after_gap, self.gap = kind, self.gap, False
        self.marker = ""

    def _goes_on(self, line: str) -> bool:
        """Whether a line goes on with the one before it."""
        before = self.lines[self.gathered[-1][0]]
        if begins_with_label(line) or MARKS.search(before):
            return False
        if self.kind is Kind.ITEM and line[:1].isspace():
            return True
        if len(before) > _WIDEST:
            return False
        first = line.split()[0]
        is_open = before.rstrip()[-1:] not in ".!?:;" and first[:1].islower()
        if is_open and len(before) > _NO_LIST:
            return True
        width = self._width()
        if len(before.rstrip()) > width + _SLACK:
            return False
        return len(before.rstrip()) + 1 + len(first) > width - _SLACK

    def _width(self) -> int:
        """The width to which the notes were wrapped, but for a few longer lines."""
        widths = sorted(
            len(line.rstrip())
            for line, after in pairwise(self.lines)
            if len(line) <= _WIDEST and line.strip() and after.strip()
        )
        return max(widths[len(widths) * 9 // 10] if widths else 0, 48)

    def _underline(self, line: str) -> Iterator[Piece]:
        """A rule; under a line alone it makes a heading of it."""
        mark = line.strip()[0]
        if len(self.gathered) == 1 and self.kind is Kind.TEXT and mark in "=-":
            at, words = self.gathered.pop()
            yield self._heading(at, words, 1 if mark == "=" else 2)
        else:
            yield from self._flush()
        self.gap = True

    def _heading(self, at: int, words: str, level: int) -> Piece:
        self.gap = False
        text = tidy(self._plain(words))
        return Piece(Kind.HEADING, text, ((0, _origin(at)),), level, after_gap=True)

    def _flush(self) -> Iterator[Piece]:
        if not self.gathered:
            return
        text, marks = "", []
        for at, words in self.gathered:
            text += " " if text else ""
            marks.append((len(text), _origin(at)))
            text += tidy(self._plain(words))
        self.gathered = []
        yield Piece(
            self.kind,
            text.rstrip(),
            tuple(marks),
            after_gap=self.began_after_gap,
            marker=self.marker,
        )

    def _plain(self, words: str) -> str:
        return _STRONG.sub("", words) if self.markdown else words

    def _columns_end(self, at: int) -> int:
        """The line behind a block of columns parted by blanks, or 0."""
        if at and self.lines[at - 1].strip() and _COLUMNS.search(self.lines[at - 1]):
            return 0
        end = at
        while end < len(self.lines) and _is_row(self.lines[end]):
            end += 1
        parted = sum(bool(_COLUMNS.search(line)) for line in self.lines[at:end])
        return end if parted > 1 and parted * 2 >= end - at else 0

    def _columns(self, at: int, end: int) -> Piece:
        lines = self.lines[at:end]
        starts = sorted(
            {m.end() - 1 for line in lines for m in _COLUMNS.finditer(line)}
        )
        starts = [
            s for n, s in enumerate(starts) if not n or s - starts[n - 1] > _SLACK
        ]
        rows = tuple(_row_of(line, starts) for line in lines)
        self.gap = False
        return Piece(Kind.TABLE, "", ((0, _origin(at)),), rows=rows)

    def _table_end(self, at: int) -> int:
        """The line behind a pipe table that begins here, or 0."""
        if at + 1 >= len(self.lines) or "|" not in self.lines[at]:
            return 0
        rule = self.lines[at + 1]
        if "-" not in rule or "|" not in rule or not _RULE_ROW.fullmatch(rule):
            return 0
        end = at + 2
        while end < len(self.lines) and "|" in self.lines[end]:
            end += 1
        return end

    def _table(self, at: int, end: int) -> Piece:
        lines = [self.lines[at], *self.lines[at + 2 : end]]
        rows = tuple(
            tuple(tidy(self._plain(c)) for c in _cells(line)) for line in lines
        )
        self.gap = False
        return Piece(Kind.TABLE, "", ((0, _origin(at)),), rows=rows)


def _is_row(line: str) -> bool:
    """Whether a line has two columns, or only the right one of them."""
    return bool(_COLUMNS.search(line) or re.match(r"\s{12,}\S", line))


def _row_of(line: str, starts: list[int]) -> tuple[str, ...]:
    """The cells of a line, each in the column whose start is nearest."""
    cells = [""] * (len(starts) + 1)
    for found in re.finditer(r"\S+(?:\s{1,2}\S+)*", line):
        column = sum(start - _SLACK < found.start() for start in starts)
        cells[column] = tidy(f"{cells[column]} {found.group()}")
    return tuple(cells)


def _cells(line: str) -> list[str]:
    return re.split(r"(?<!\\)\|", line.strip().removeprefix("|").removesuffix("|"))


def _origin(at: int) -> str:
    return f"line {at + 1}"
