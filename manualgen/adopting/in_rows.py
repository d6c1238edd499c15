"""Tables that only set text out: risks, a method or questions, row by row."""

from __future__ import annotations

import re
from collections.abc import Sequence

from manualgen.adopting.columns import BLANK, ITEMS, Rows, column, parted_title
from manualgen.knowledge.tables import read_table


def dangers_in(rows: Rows) -> tuple[str, ...]:
    """The rows of a table of risks in its own words, or nothing where it is none."""
    head, *below = parted_title(rows)[1] or ((),)
    columns = [column(cell) for cell in head]
    kinds = {c.kind for c in columns if c}
    if "control" not in kinds or not kinds & {"hazard", "risk", *ITEMS}:
        return ()
    return tuple(said for row in below if (said := _told(head, row)))


def _told(head: Sequence[str], row: Sequence[str]) -> str:
    cells = [
        f"{name.strip(' :.')}: {cell.rstrip(' .')}" if name.strip() else cell
        for name, cell in zip(head, row, strict=False)
        if not BLANK.fullmatch(cell)
    ]
    return ". ".join(cells)


def steps_in_rows(rows: Rows) -> tuple[tuple[str, str], ...]:
    """The steps of a method set out in rows; with the first, the words of the heads.

    Beside them stand their numbers and boxes to be ticked alone; a table with
    other cells to be filled in stays a table.
    """
    head, *below = rows or ((),)
    table = read_table("document_tables")
    bare = [" ".join(cell.casefold().split()).strip(" :") for cell in head]
    doing = [n for n, cell in enumerate(bare) if cell in table.texts("doing")]
    beside = {*table.texts("number"), *table.texts("ticked")}
    is_beside = all(cell in beside for n, cell in enumerate(bare) if n not in doing)
    if len(doing) != 1 or len(bare) < 2 or not is_beside:
        return ()
    told = [row[doing[0]] for row in below if len(row) > doing[0] and row[doing[0]]]
    said = f"{' | '.join(head)}; {told[0]}" if told else ""
    return tuple((text, "" if n else said) for n, text in enumerate(told))


def questions_in_rows(rows: Rows) -> tuple[str, ...]:
    """Questions set out in rows: each with its number before it and its marks behind."""
    found = [_asked_in(row, n) for n, row in enumerate(rows, 1)]
    return tuple(found) if rows and all(found) else ()


_MARKED = re.compile(r"[(\[]\d{1,2}(?: marks?)?[)\]]$")


def _asked_in(row: Sequence[str], number: int) -> str:
    first, *rest = row
    text = " ".join(cell for cell in rest if cell)
    is_numbered = first.strip(" .)") == str(number) and len(rest) <= 2
    return text if is_numbered and _MARKED.search(text) else ""
