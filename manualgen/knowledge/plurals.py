"""Regular plurals of English nouns, as the names of apparatus and chemicals make them."""

from __future__ import annotations

import re

_SIBILANT = re.compile(r"(?:s|x|z|ch|sh)$")
_CONSONANT_Y = re.compile(r"[^aeiou]y$")


def plural_of(name: str) -> str:
    """The plural, in the last word or before ``of``.

    >>> plural_of("test-tube"), plural_of("piece of paper"), plural_of("Petri dish")
    ('test-tubes', 'pieces of paper', 'Petri dishes')
    """
    head, of, rest = name.partition(" of ")
    if _SIBILANT.search(head):
        return f"{head}es{of}{rest}"
    if _CONSONANT_Y.search(head):
        return f"{head[:-1]}ies{of}{rest}"
    return f"{head}s{of}{rest}"
