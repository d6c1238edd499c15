"""Emphasis: ``*italic*``, ``_italic_`` and ``**bold**``.

CommonMark's rule, told to give each sign of a run its own place; which of them
pair is settled by the library afterwards.
"""

from __future__ import annotations

from markdown_it.rules_inline import StateInline
from markdown_it.rules_inline.state_inline import Delimiter


def emphasis(state: StateInline, silent: bool) -> bool:
    """Read a run of ``*`` or ``_``."""
    marker = state.src[state.pos]
    if silent or marker not in "*_":
        return False
    run = state.scanDelims(state.pos, marker == "*")
    for _ in range(run.length):
        token = state.push("text", "", 0)
        token.content = marker
        state.delimiters.append(
            Delimiter(
                marker=ord(marker),
                length=run.length,
                token=len(state.tokens) - 1,
                end=-1,
                open=run.can_open,
                close=run.can_close,
            )
        )
        state.pos += 1
        token.meta["end"] = state.pos
    return True
