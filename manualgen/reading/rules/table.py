"""Pipe tables, whose rows here remember how they were written.

The library trims the cells and forgets where they stood; each row's token gets
the text of its line and the column at which it starts. A table that is too wide
for any page is left unread, since its short rows would be filled up with cells.
"""

from __future__ import annotations

from markdown_it.rules_block import StateBlock
from markdown_it.rules_block import table as pipe_table

MOST_COLUMNS = 25


def table(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """Read a pipe table; one that is too wide is put down in ``env["wide"]``."""
    before = len(state.tokens)
    if start + 2 <= end and _pipes(state, start + 1) > MOST_COLUMNS:
        if not silent and set(_line(state, start + 1)) <= set("|:- \t"):
            state.env.setdefault("wide", []).append(start)
        return False
    if not pipe_table(state, start, end, silent):
        return False
    if silent:
        return True
    for token in state.tokens[before:]:
        if token.type == "tr_open" and token.map:
            line = token.map[0]
            first = state.bMarks[line] + state.tShift[line]
            token.content = _line(state, line)
            token.meta["at"] = first - state.src.rfind("\n", 0, first) - 1
    return True


def _line(state: StateBlock, line: int) -> str:
    return state.src[state.bMarks[line] + state.tShift[line] : state.eMarks[line]]


def _pipes(state: StateBlock, line: int) -> int:
    return _line(state, line).count("|")
