"""Rows for a spreadsheet, as CSV in which every cell is only text or a number.

A spreadsheet takes a cell that begins with one of a few signs for a formula and
works it out, so that a chemical's name could give orders on the technician's
computer.  Such a cell gets an apostrophe before it, which spreadsheets do not
show (Open Worldwide Application Security Project, CSV Injection).
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

_FORMULA = re.compile(r"\s*[=+\-@\t\r](?!\d+(?:\.\d+)?\Z)")


def as_csv(rows: Iterable[Sequence[str]]) -> str:
    r"""The rows as CSV, a line each.

    >>> as_csv([("sodium chloride", "-5"), ("=1+1", "+ salt")])
    "sodium chloride,-5\n'=1+1,'+ salt\n"
    """
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerows([_cell(text) for text in row] for row in rows)
    return out.getvalue().replace("\u00a0", " ")


def _cell(text: str) -> str:
    return f"'{text}" if _FORMULA.match(text) else text
