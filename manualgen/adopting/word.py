"""A word processor's document (.docx) taken apart.

python-docx opens it; what it passes over (text boxes, content controls,
insertions under review, notes) is found by walking the document's elements.
Raised and lowered figures become those of formulas and units.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from manualgen.adopting.headings import with_headings
from manualgen.adopting.markers import marked_item
from manualgen.adopting.package import check_package
from manualgen.adopting.piece import (
    AdoptError,
    Kind,
    OldDocument,
    PictureFile,
    Piece,
    tidy,
)
from manualgen.adopting.talk import is_talk, read_talk
from manualgen.adopting.vocabulary import part_named
from manualgen.adopting.word_text import (
    heading_level,
    is_bold,
    is_list_item,
    lines_of,
    tag,
)

if TYPE_CHECKING:
    from docx.document import Document
    from docx.opc.part import Part as PackagePart
    from docx.oxml.xmlchemy import BaseOxmlElement

_EMBED = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_NOTES = ("/footnotes", "/endnotes", "/header", "/footer")
DEEPEST = 40
MOST_PIECES = 20_000


def read_word(name: str, content: bytes) -> OldDocument:
    """A .docx as a document; raises `AdoptError` where it cannot be read."""
    check_package(content)
    import docx

    try:
        reader = _WordReader(docx.Document(io.BytesIO(content)))
        pieces = tuple(_with_tabbed(tuple(reader.pieces())))
    except AdoptError:
        raise
    except Exception as error:  # whatever a damaged file makes the library raise
        raise AdoptError("is no word processor's document, or is damaged") from error
    if not any(p.text or p.rows or p.picture for p in pieces):
        raise AdoptError("has no words in it")
    said = "\n".join(p.text for p in pieces)
    if is_talk(said):
        return OldDocument(name, read_talk(said), is_talk=True)
    return OldDocument(name, tuple(with_headings(pieces)))


class _WordReader:
    """Walks a document's elements in order."""

    def __init__(self, document: Document) -> None:
        self._part: PackagePart = document.part
        self._body = document.element.body
        self._paragraphs = self._tables = 0
        self._styles = {s.style_id: s.name or "" for s in document.styles}
        self._made = 0

    def pieces(self) -> Iterator[Piece]:
        for piece in self._all():
            self._made += 1
            if self._made > MOST_PIECES:
                raise AdoptError(f"has more than {MOST_PIECES} paragraphs; part it")
            yield piece

    def _all(self) -> Iterator[Piece]:
        yield from self._inside(self._body, 0)
        for relation in self._part.rels.values():
            if relation.is_external or not relation.reltype.endswith(_NOTES):
                continue
            yield from self._note(relation.target_part)

    def _note(self, part: PackagePart) -> Iterator[Piece]:
        """Headers, footers and notes, which stand beside the text."""
        from docx.oxml.parser import parse_xml

        where = PurePosixPath(str(part.partname)).stem
        element = getattr(part, "element", None)
        root = parse_xml(part.blob) if element is None else element
        for paragraph in root.iter():
            if tag(paragraph) == "p":
                for line in lines_of(paragraph):
                    if words := tidy(line):
                        yield Piece(Kind.HEADING, "", ((0, where),), level=9)
                        yield Piece(Kind.TEXT, words, ((0, where),), after_gap=True)

    def _inside(self, element: BaseOxmlElement, depth: int) -> Iterator[Piece]:
        if depth > DEEPEST:
            raise AdoptError("is nested too deeply to be read")
        for child in element:
            match tag(child):
                case "p":
                    yield from self._paragraph(child, depth)
                case "tbl":
                    yield from self._table(child, depth)
                case "del" | "moveFrom" | "Fallback" | "sectPr":
                    continue
                case _:
                    yield from self._inside(child, depth + 1)

    def _paragraph(self, element: BaseOxmlElement, depth: int) -> Iterator[Piece]:
        self._paragraphs += 1
        marks = ((0, f"paragraph {self._paragraphs}"),)
        style = self._style(element)
        level = heading_level(style)
        for line in _columns_of(lines_of(element)):
            words = tidy(line)
            if not words:
                continue
            if level is not None:
                yield Piece(Kind.HEADING, words, marks, level, after_gap=True)
            elif is_list_item(element, style):
                yield Piece(Kind.ITEM, words, marks)
            elif is_bold(element) and len(words) <= 90 and words[-1] not in ".;,":
                yield Piece(Kind.HEADING, words, marks, 3, after_gap=True)
            elif item := marked_item(words):
                yield Piece(Kind.ITEM, item[1], marks, marker=item[0])
            else:
                rows = _tabbed(line)
                yield Piece(Kind.TEXT, words, marks, rows=rows, after_gap=True)
        yield from self._pictures(element, marks)
        for box in element.iter():
            if tag(box) == "txbxContent" and not _is_fallback(box, element):
                yield from self._inside(box, depth + 1)

    def _style(self, element: BaseOxmlElement) -> str:
        for child in element.iter():
            if tag(child) == "pStyle":
                value = next(iter(child.attrib.values()), "")
                return self._styles.get(str(value), str(value))
        return ""

    def _table(self, element: BaseOxmlElement, depth: int) -> Iterator[Piece]:
        self._tables += 1
        marks = ((0, f"table {self._tables}"),)
        rows = tuple(
            tuple(_cell_text(cell) for cell in row if tag(cell) == "tc")
            for row in element.iter()
            if tag(row) == "tr" and _own(row, element)
        )
        if _is_layout(rows):
            for cell in (c for r in element.iter() if tag(r) == "tr" for c in r):
                if tag(cell) == "tc":
                    yield from self._inside(cell, depth + 1)
            return
        if any(any(row) for row in rows):
            yield Piece(Kind.TABLE, "", marks, rows=rows)
        yield from self._pictures(element, marks)

    def _pictures(
        self, element: BaseOxmlElement, marks: tuple[tuple[int, str], ...]
    ) -> Iterator[Piece]:
        words = ""
        for child in element.iter():
            if tag(child) == "docPr":
                words = str(child.get("descr") or "")
            if tag(child) not in ("blip", "imagedata"):
                continue
            key = child.get(f"{_EMBED}embed") or child.get(f"{_EMBED}id")
            part = self._part.related_parts.get(str(key)) if key else None
            if part is None:
                text = "A picture of the document lies outside it."
                yield Piece(Kind.TEXT, text, marks, after_gap=True)
                continue
            suffix = PurePosixPath(str(part.partname)).suffix.lower()
            picture = PictureFile(suffix, part.blob, words)
            yield Piece(Kind.PICTURE, "", marks, picture=picture)


_GAP = re.compile(r"\s{4,}(?=[A-Z][\w']+(?:\s\w|:))")
"""Blanks that set two things apart on a line: *Time: 50 minutes      Work in pairs*."""


def _columns_of(lines: Iterable[str]) -> Iterator[str]:
    for line in lines:
        yield from _GAP.split(line)


_WIDEST_CELL = 40
_FEWEST_ROWS = 3


def _tabbed(line: str) -> tuple[tuple[str, ...], ...]:
    """The cells of a line with tabs in it, as a table of one row."""
    cells = tuple(tidy(cell) for cell in line.strip().split("\t"))
    is_row = sum(map(bool, cells)) > 1 and not cells[0].endswith((":", ".", ")"))
    return (cells,) if is_row and max(map(len, cells)) <= _WIDEST_CELL else ()


def _with_tabbed(pieces: Sequence[Piece]) -> Iterator[Piece]:
    """Lines with tabs that stand under each other as the rows of one table."""
    for is_row, group in groupby(
        pieces, lambda p: p.kind is Kind.TEXT and bool(p.rows)
    ):
        row = tuple(group)
        if is_row and len(row) >= _FEWEST_ROWS:
            cells = tuple(cells for piece in row for cells in piece.rows)
            yield Piece(Kind.TABLE, "", row[0].marks, rows=cells)
        else:
            yield from (replace(p, rows=()) for p in row) if is_row else row


def _cell_text(cell: BaseOxmlElement) -> str:
    lines = (line for p in cell.iter() if tag(p) == "p" for line in lines_of(p))
    return tidy(" ".join(lines))


def _own(row: BaseOxmlElement, table: BaseOxmlElement) -> bool:
    """Whether a row is of this table and not of one inside it."""
    above = row.getparent()
    while above is not None and tag(above) != "tbl":
        above = above.getparent()
    return above is table


def _is_layout(rows: tuple[tuple[str, ...], ...]) -> bool:
    """Whether a table only sets text out: one cell, or a label beside each text."""
    if all(len(row) <= 1 for row in rows):
        return True
    labels = [part_named(row[0]) for row in rows if row and row[0]]
    named = sum(label is not None for label in labels)
    return len(rows) > 1 and named * 2 > len(rows) and part_named(rows[0][-1]) is None


def _is_fallback(box: BaseOxmlElement, paragraph: BaseOxmlElement) -> bool:
    """Whether a text box is the copy for older programs, or stands in another box."""
    above = box.getparent()
    while above is not None and above is not paragraph:
        if tag(above) in ("Fallback", "txbxContent"):
            return True
        above = above.getparent()
    return False
