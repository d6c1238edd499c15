"""Pipe tables, and the line under one that is its caption.

In GitHub's Markdown a line directly under a table becomes its last row; here a
last row without a single pipe is the caption.
"""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.model.blocks import Align, PipeTable, TableCell
from manualgen.model.text import Inlines, LineBreak
from manualgen.reading.inline import Name, read_inlines
from manualgen.reading.rules.table import MOST_COLUMNS
from manualgen.reading.stretch import Start, Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.tree import Body, Node

_ALIGN = {
    "text-align:left": Align.LEFT,
    "text-align:center": Align.CENTRE,
    "text-align:right": Align.RIGHT,
}

MOST_ROWS = 200


def note_wide_tables(body: Body, around: Surroundings) -> None:
    """Note the tables that the parser left as they are, since no page could hold them."""
    for line in around.env.pop("wide", ()):
        place = body.place(line, 0)
        message = f"a table of more than {MOST_COLUMNS} columns is not read"
        around.faults.syntax(place, message, "part it")


def read_table(node: Node, body: Body, around: Surroundings) -> PipeTable:
    """A table with its caption, if that stands directly under it."""
    header_row = node.children[0].children[0]
    rows = node.children[1].children if len(node.children) > 1 else []
    width = len(header_row.children)
    captions = _caption_rows(rows, width)
    rows = rows[: len(rows) - len(captions)]
    caption, name = _caption(captions, body, around)
    if len(rows) > MOST_ROWS:
        place = _row_text(rows[MOST_ROWS], body).place()
        around.faults.syntax(place, f"only the first {MOST_ROWS} rows are read")
        rows = rows[:MOST_ROWS]
    for row in rows:
        _note_lost_cells(row, width, body, around)
    return PipeTable(
        _cells(header_row, body, around),
        tuple(_cells(row, body, around) for row in rows),
        tuple(_align(cell) for cell in header_row.children),
        caption,
        name.text if name else None,
        body.place_of(node, header_row.token.content[:1]),
    )


def _align(cell: Node) -> Align:
    return _ALIGN.get(str(cell.token.attrs.get("style", "")), Align.LEFT)


def _caption_rows(rows: list[Node], width: int) -> list[Node]:
    """The last rows, if they have no pipes: lines of a caption."""
    found: list[Node] = []
    for row in reversed(rows):
        text = row.token.content
        if "|" in text or (width == 1 and not text.rstrip().endswith("]")):
            break
        found.insert(0, row)
    return found


def _caption(
    rows: list[Node], body: Body, around: Surroundings
) -> tuple[Inlines, Name | None]:
    content: list[Inlines] = []
    name = None
    for row in rows:
        text = _row_text(row, body)
        run = read_inlines(text, around)
        if content:
            content.append((LineBreak(False, text.place(0, 0)),))
        content.append(run.content)
        name = run.name or name
    return tuple(inline for part in content for inline in part), name


def _row_text(row: Node, body: Body) -> Stretch:
    line = body.first + row.line + 1
    column = int(row.token.meta["at"]) + 1
    return Stretch(body.file, row.token.content, ((0, line, column),)).strip()


def _cells(row: Node, body: Body, around: Surroundings) -> tuple[TableCell, ...]:
    texts = list(_split(_row_text(row, body)))
    cells = []
    for index, _ in enumerate(row.children):
        text = texts[index] if index < len(texts) else _end_of(row, body)
        run = read_inlines(text, around)
        if run.name:
            message = "a table is named by the line under it, not in a cell"
            around.faults.syntax(run.name.place, message)
        cells.append(TableCell(run.content, text.place()))
    return tuple(cells)


def _end_of(row: Node, body: Body) -> Stretch:
    text = _row_text(row, body)
    return text.cut(len(text.text), len(text.text))


def _split(row: Stretch) -> Iterator[Stretch]:
    """The cells of a row, as GitHub's Markdown parts them.

    A pipe behind a backslash is part of its cell, and the backslash is not.
    """
    text = row.text
    start = 1 if text.startswith("|") else 0
    dropped: list[int] = []
    for at in range(start, len(text)):
        if text[at] != "|":
            continue
        if at and text[at - 1] == "\\":
            dropped.append(at - 1)
            continue
        yield _without(row, start, at, dropped)
        start, dropped = at + 1, []
    if start < len(text):
        yield _without(row, start, len(text), dropped)


def _without(row: Stretch, start: int, end: int, dropped: list[int]) -> Stretch:
    """The cell from ``start`` to ``end`` without the characters at ``dropped``."""
    if not dropped:
        return row.cut(start, end).strip()
    text, starts = "", list[Start]()
    for first, last in zip(
        [start, *(d + 1 for d in dropped)], [*dropped, end], strict=True
    ):
        piece = row.cut(first, last)
        starts.append((len(text), *piece.starts[0][1:]))
        text += piece.text
    return Stretch(row.file, text, tuple(starts)).strip()


def _note_lost_cells(row: Node, width: int, body: Body, around: Surroundings) -> None:
    """Markdown passes over cells for which the head has no column."""
    cells = list(_split(_row_text(row, body)))
    if len(cells) > width:
        message = f"this row has {len(cells)} cells and the head of the table {width}"
        mend = "put a backslash before a | that belongs to a cell"
        around.faults.syntax(cells[width].place(), message, mend)
