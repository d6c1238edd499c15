"""The results as a page: each ratio as a bar, its limit as a line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape

ROW_MM = 9
LIMIT_MM = 100
WIDTH_MM = 150

STYLE = """
body { font: 16px/1.5 serif; max-width: 60em; margin: 2em auto; padding: 0 1em }
td, th { padding: .2em .8em; text-align: left } td.n { text-align: right }
svg { width: 100%; height: auto } .over { font-weight: bold }
"""


def page(rows: Sequence[Mapping[str, object]]) -> str:
    """The table and the plot of the results, in one file that loads nothing."""
    lines = "".join(map(_line, rows))
    return (
        '<!DOCTYPE html><html lang="en-GB"><meta charset="utf-8">'
        f"<title>How fast the pipeline is</title><style>{STYLE}</style>"
        "<h1>How fast the pipeline is</h1>"
        "<p>Each bar is what was measured, as a share of what it may be at most: "
        f"the line.</p>{_plot(rows)}"
        "<table><tr><th>What<th>Measured<th>At most<th></tr>"
        f"{lines}</table></html>\n"
    )


def _line(row: Mapping[str, object]) -> str:
    kind = "" if row["holds"] else ' class="over"'
    unit = escape(str(row["unit"]))
    return (
        f"<tr{kind}><td>{escape(str(row['what']))}"
        f'<td class="n">{_number(row["value"]):.2f} {unit}'
        f'<td class="n">{_number(row["limit"]):g} {unit}'
        f"<td>{escape(str(row['detail']))}</tr>"
    )


def _plot(rows: Sequence[Mapping[str, object]]) -> str:
    height = ROW_MM * len(rows) + 4
    bars = "".join(_bar(n, row) for n, row in enumerate(rows))
    return (
        f'<svg viewBox="0 0 {WIDTH_MM} {height}" role="img" '
        f'aria-label="Each result beside its limit" font-size="3">{bars}'
        f'<path d="M{LIMIT_MM} 0V{height}" stroke="currentColor" fill="none"/></svg>'
    )


def _bar(n: int, row: Mapping[str, object]) -> str:
    share = _number(row["value"]) / _number(row["limit"])
    length = max(0.0, min(share * LIMIT_MM, WIDTH_MM - 4))
    y = n * ROW_MM + 2
    return (
        f'<text x="0" y="{y + 2.5}">{escape(str(row["what"]))}</text>'
        f'<rect x="0" y="{y + 3.5}" width="{length:.2f}" height="3" '
        f'fill="{"#777" if row["holds"] else "#000"}"/>'
    )


def _number(value: object) -> float:
    if not isinstance(value, int | float):
        raise TypeError(value)
    return value
