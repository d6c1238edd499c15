"""A ``readings`` fence: rows, columns and the mean of one of them."""

from __future__ import annotations

from manualgen.model.fences import Cell, Column, ColumnKind, Mean, Readings
from manualgen.model.place import Place
from manualgen.reading.faults import Faults
from manualgen.reading.fences.data import read_data_column
from manualgen.reading.fences.head import Fence
from manualgen.reading.fields import Fields
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.symbols import SYMBOL
from manualgen.reading.values import (
    decimal_of,
    read_expression,
    read_quantity,
    read_unit,
)
from manualgen.reading.yaml_tree import Mapping, Scalar, compose

_KEYS = ("rows", "columns", "mean")
_COLUMN_KEYS = ("symbol", "heading", "unit", "sample", "given", "formula")
MOST_CELLS = 1000
"""Rows of a table; a logger's file may be long, a printed table is not."""


def read_readings(fence: Fence, around: Surroundings) -> Readings | None:
    """The table, or None where it has no columns."""
    faults = around.faults
    fence.note_words(faults)
    composed = compose(fence.text, faults)
    root = composed.root
    if not isinstance(root, Mapping):
        if composed.complete:
            message = "a readings block has rows: and columns:"
            faults.syntax(fence.place, message)
        return None
    fields = Fields(root, _KEYS, faults, "of readings")
    columns = tuple(_columns(fields, around, whole=composed.complete))
    if not columns:
        if composed.complete:
            faults.syntax(fence.place, "a readings block needs columns:")
        return None
    rows = _rows(fields, columns, faults)
    for column in columns:
        if composed.complete:
            _note_uneven(column, rows, faults)
    _note_twins(columns, faults)
    mean = _mean(fields, rows, columns, faults)
    return Readings(fence.name, rows, columns, mean, fence.place)


def _rows(
    fields: Fields, columns: tuple[Column, ...], faults: Faults
) -> tuple[str, ...]:
    """The rows' labels; without any, as many numbers as the longest column has cells."""
    said = fields.texts("rows")
    if (
        len(said) == 1
        and "," in said[0].text
        and isinstance(fields.node("rows"), Scalar)
    ):
        message = "several rows stand in brackets"
        faults.syntax(said[0].place(), message, f"[{said[0].text}]")
        said = tuple(said[0].split(","))
    labels = tuple(text.text for text in said)
    if labels:
        return labels
    longest = max(len(column.cells) for column in columns)
    return tuple(str(number + 1) for number in range(max(longest, 1)))


def _columns(fields: Fields, around: Surroundings, *, whole: bool) -> list[Column]:
    """The columns; of a table that is not whole, those that have a symbol."""
    found = []
    for item in fields.items("columns"):
        if isinstance(item, Mapping):
            keys = {key.text for key, _ in item.pairs}
            if not whole and "symbol" not in keys:
                continue
            of_column = Fields(item, _COLUMN_KEYS, around.faults, "of a column")
            found.append(_column(of_column, around))
        else:
            message = "a column is {symbol: V1, heading: Volume, unit: cm3}"
            around.faults.syntax(item.place, message)
    return found


def _column(fields: Fields, around: Surroundings) -> Column:
    faults = around.faults
    symbol = fields.text("symbol")
    if fields.lacks("symbol"):
        faults.syntax(fields.place, "a column has a symbol", "symbol: V1")
    elif symbol and not SYMBOL.fullmatch(symbol.text):
        message = f"{symbol.text!r} is no symbol: letters, digits and _"
        faults.syntax(symbol.place(), message)
    unit, formula = fields.text("unit"), fields.text("formula")
    kind = _kind(fields, faults)
    name = symbol.text if symbol else ""
    return Column(
        name,
        fields.string("heading") or name,
        read_unit(unit, faults) if unit else None,
        kind,
        _cells(kind, fields, around),
        read_expression(formula, faults) if formula else None,
        fields.place,
        formula.place() if formula else None,
    )


def _kind(fields: Fields, faults: Faults) -> ColumnKind:
    """Where a column's cells come from: one of three, or nowhere yet."""
    sources = (ColumnKind.SAMPLE, ColumnKind.GIVEN, ColumnKind.FORMULA)
    said = [kind for kind in sources if fields.node(kind.value)]
    if len(said) > 1:
        words = " and ".join(kind.value for kind in said)
        message = f"a column has one of sample, given and formula, not {words}"
        faults.syntax(fields.place, message)
    return said[0] if said else ColumnKind.EMPTY


def _cells(kind: ColumnKind, fields: Fields, around: Surroundings) -> tuple[Cell, ...]:
    if kind not in (ColumnKind.SAMPLE, ColumnKind.GIVEN):
        return ()
    node = fields.node(kind.value)
    if isinstance(node, Scalar) and "#" in node.text:
        return read_data_column(node.stretch, around)
    texts = [_cell_text(text) for text in fields.texts(kind.value)]
    if len(texts) > MOST_CELLS:
        message = f"a column of more than {MOST_CELLS} cells cannot be printed"
        around.faults.syntax(fields.place, message)
    return tuple(Cell(t, decimal_of(t), p) for t, p in texts[:MOST_CELLS])


def _cell_text(text: Stretch) -> tuple[str, Place]:
    return text.text, text.place()


def _note_uneven(column: Column, rows: tuple[str, ...], faults: Faults) -> None:
    if column.cells and len(column.cells) != len(rows):
        message = (
            f"column {column.symbol} has {len(column.cells)} values "
            f"and the table {len(rows)} rows"
        )
        faults.syntax(column.cells[0].place, message, _with_points(column, rows))


def _with_points(column: Column, rows: tuple[str, ...]) -> str | None:
    """``[0,10, 0,25]``: a comma parts values, so that each decimal is two of them."""
    texts = [cell.text for cell in column.cells]
    if len(texts) != 2 * len(rows) or not all(text.isdigit() for text in texts):
        return None
    pairs = zip(texts[::2], texts[1::2], strict=True)
    values = ", ".join(f"{whole}.{part}" for whole, part in pairs)
    return f"{column.kind.value}: [{values}]"


def _note_twins(columns: tuple[Column, ...], faults: Faults) -> None:
    known: set[str] = set()
    for column in columns:
        if column.symbol and column.symbol in known:
            message = f"two columns have the symbol {column.symbol}"
            faults.note("duplicate-id", column.place, message)
        known.add(column.symbol)


def _mean(
    fields: Fields, rows: tuple[str, ...], columns: tuple[Column, ...], faults: Faults
) -> Mean | None:
    said = fields.fields("mean", ("of", "rows", "concordant"))
    if said is None:
        return None
    of, range_ = said.text("of"), said.text("concordant")
    if said.lacks("of"):
        faults.syntax(said.place, "a mean says of which column", "of: Vt")
    if of is None:
        return None
    symbols = [column.symbol for column in columns]
    _note_undefined(of, "column", symbols, faults)
    named = said.texts("rows")
    concordant_rows = [n.text for n in named] == ["concordant"]
    for label in () if concordant_rows else named:
        _note_undefined(label, "row", rows, faults)
    return Mean(
        of.text,
        () if concordant_rows else tuple(n.text for n in named) or rows,
        concordant_rows,
        read_quantity(range_, faults) if range_ else None,
        said.place,
    )


def _note_undefined(
    word: Stretch, what: str, known: tuple[str, ...] | list[str], faults: Faults
) -> None:
    if word.text not in known:
        message = f"this table has no {what} {word.text!r}; it has {', '.join(known)}"
        faults.note("calculation-undefined", word.place(), message)
