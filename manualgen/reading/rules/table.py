"""Pipe tables, whose rows here remember how they were written.

The library trims the cells and forgets where they stood; each row's token gets
the text of its line and the column at which it starts.
"""

from __future__ import annotations

from markdown_it.rules_block import StateBlock
from markdown_it.rules_block import table as pipe_table


def table(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """Read a pipe table."""
    before = len(state.tokens)
    if not pipe_table(state, start, end, silent):
        return False
    if silent:
        return True
    for token in state.tokens[before:]:
        if token.type == "tr_open" and token.map:
            line = token.map[0]
            first = state.bMarks[line] + state.tShift[line]
            token.content = state.src[first : state.eMarks[line]]
            token.meta["at"] = first - state.src.rfind("\n", 0, first) - 1
    return True
