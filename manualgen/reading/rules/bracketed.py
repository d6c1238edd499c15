"""Short things in square brackets: marks ``[2]``, ``[max 2]`` and names ``[#name]``.

What they mean depends on where they stand; elsewhere ``[2]`` is only text.
"""

from __future__ import annotations

import re

from markdown_it.rules_inline import StateInline

_MARKS = re.compile(r"\[(max )?(\d{1,3})\](?![(\[])")
_NAME = re.compile(r"\[#([^\[\]\n]{0,80})\](?!\()")


def marks(state: StateInline, silent: bool) -> bool:
    """Read the marks of a question, or of a point in its answer."""
    if state.src[state.pos] != "[":
        return False
    found = _MARKS.match(state.src, state.pos)
    if not found or found[2] in state.env.get("references", ()):
        return False
    if not silent:
        token = state.push("marks", "", 0)
        token.content, token.info = found[2], found[1] or ""
        token.markup = found[0]
    state.pos = found.end()
    return True


def name(state: StateInline, silent: bool) -> bool:
    """Read the name that a step, a question or a caption is given."""
    if not state.src.startswith("[#", state.pos):
        return False
    found = _NAME.match(state.src, state.pos)
    if not found:
        return False
    if not silent:
        token = state.push("name", "", 0)
        token.content, token.markup = found[1], found[0]
    state.pos = found.end()
    return True
