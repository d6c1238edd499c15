"""A blank: ``[_pale green_]``.

The student sees a gap, the teacher the words in it, which may hold code spans.
``[_see_](#name)`` stays what it is in CommonMark, a link in italics.
"""

from __future__ import annotations

from markdown_it.rules_inline import StateInline


def blank(state: StateInline, silent: bool) -> bool:
    """Read a blank; one that is never closed is put down in ``env["open"]``."""
    start = state.pos
    if not state.src.startswith("[_", start):
        return False
    end = state.md.helpers.parseLinkLabel(state, start)
    inside = state.src[start + 1 : end]
    if end < 0 or not (inside.endswith("_") and len(inside) > 1):
        if not silent and (end < 0 or inside.count("_") == 1):
            state.env.setdefault("open", []).append(start)
        return False
    if state.src.startswith("(", end + 1):
        return False
    if not silent:
        _push(state, start + 2, end - 1)
    state.pos = end + 1
    return True


def _push(state: StateInline, start: int, end: int) -> None:
    """The blank and what stands in it, from ``start`` to ``end``."""
    state.push("blank_open", "", 1)
    behind, state.posMax = state.posMax, max(start, end)
    state.pos = start
    state.md.inline.tokenize(state)
    state.push("blank_close", "", -1)
    state.posMax = behind
