"""A column of a file: ``sample: data/ph.csv#pH``.

The file is comma-separated text whose first line names the columns; it lies in
the content folder, as seen from the experiment's file or else from the folder.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from itertools import islice

from manualgen.model.fences import Cell
from manualgen.model.place import Place
from manualgen.reading.faults import Faults
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.text import SourceText, read_text
from manualgen.reading.values import decimal_of
from manualgen.sources import resolved

MOST_ROWS = 5000
"""Rows of a file, which a logger fills in an hour and no table can show."""


def read_data_column(address: Stretch, around: Surroundings) -> tuple[Cell, ...]:
    """The cells of a file's column; none where they cannot be had."""
    written, _, heading = address.text.partition("#")
    faults = around.faults
    path = resolved(around.text.path, written)
    if path is None:
        faults.syntax(address.place(), f"{written!r} leads out of the content folder")
        return ()
    if not around.source.exists(path):
        path = resolved("", written) or path
    text = _read(path, address, around)
    if text is None:
        return ()
    headings, *rows = _rows(text) or [[]]
    if len(rows) > MOST_ROWS:
        message = f"{written} has more than {MOST_ROWS} rows; keep every tenth"
        faults.syntax(address.place(), message)
        rows = []
    names = [name for name, _ in headings]
    if heading not in names:
        message = f"{written} has no column {heading!r}; it has {', '.join(names)}"
        faults.note("calculation-undefined", address.place(), message)
        return ()
    at = names.index(heading)
    return tuple(
        Cell(r[at][0], decimal_of(r[at][0]), r[at][1]) for r in rows if len(r) > at
    )


def _read(path: str, address: Stretch, around: Surroundings) -> SourceText | None:
    if path in around.read_too:
        return around.read_too[path]
    if not around.source.exists(path):
        message = f"there is no file {path}"
        around.faults.note("unknown-reference", address.place(), message)
        return None
    met = Faults()
    text = read_text(around.source, path, met)
    for noted in met.all():
        around.faults.syntax(address.place(), f"{path}: {noted.fault.message}")
    if text is not None:
        around.read_too[path] = text
    return text


def _rows(text: SourceText) -> list[list[tuple[str, Place]]]:
    lines = islice(_lines(text), MOST_ROWS + 2)
    return [list(_fields(line, number, text.file)) for number, line in lines]


def _lines(text: SourceText) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(text.lines, start=1):
        if line.strip():
            yield number, line


def _fields(line: str, number: int, file: str) -> Iterator[tuple[str, Place]]:
    """The fields of a line, each with its place."""
    at = 0
    for field in next(csv.reader([line], skipinitialspace=True), []):
        found = max(line.find(field, at), at)
        yield field.strip(), Place(file, number, found + 1, 0, found + len(field) + 1)
        at = found + len(field)
