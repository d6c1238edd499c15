"""Regular plurals of English nouns, as the names of apparatus and chemicals make them."""

from __future__ import annotations

import re

_SIBILANT = re.compile(r"(?:s|x|z|ch|sh)$")
_CONSONANT_Y = re.compile(r"[^aeiou]y$")
_SINGULAR_S = re.compile(r"(?:ss|us|is|gas|lens|molasses|'s)$")
_HEAD_ENDS = re.compile(r",| (?:of|for|with|in|from|on|to) |\s*\(")


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


def is_plural(name: str) -> bool:
    """Whether a verb after the name is in the plural.

    >>> is_plural("conical flasks"), is_plural("watch glass"), is_plural("pieces of foil")
    (True, False, True)
    >>> is_plural("filter funnel and paper"), is_plural("town gas")
    (True, False)
    """
    head = _HEAD_ENDS.split(name.casefold().strip(), maxsplit=1)[0]
    if " and " in head:
        return True
    last = head.rpartition(" ")[2]
    return last.endswith("s") and not _SINGULAR_S.search(last)
