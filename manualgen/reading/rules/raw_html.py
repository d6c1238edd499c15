"""Raw HTML, which the format does not have: it is caught so that it can be refused.

A comment is caught by its opening alone. It may well be a note to the teacher,
and without this rule it would stand in the student's text as plain words.
"""

from __future__ import annotations

import re

from markdown_it.rules_inline import StateInline

_MARKUP = re.compile(
    r"<(?:!--|[!?][A-Za-z\[]|/?[A-Za-z][A-Za-z0-9-]*(?=[\s/>])[^<>]*>)"
)


def raw_html(state: StateInline, silent: bool) -> bool:
    """Catch a tag, a comment, a declaration or an instruction."""
    if state.src[state.pos] != "<":
        return False
    found = _MARKUP.match(state.src, state.pos)
    if not found:
        return False
    if not silent:
        token = state.push("raw_html", "", 0)
        token.content = found[0]
    state.pos = found.end()
    return True
