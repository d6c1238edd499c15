"""What drafts are called: the file's stem, which becomes the experiment's id."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection

LONGEST = 48
_RESERVED = frozenset({"index", "manual"})


def identity(title: str, taken: Collection[str]) -> str:
    """A name of letters, digits and hyphens that nobody has, in any case of letters.

    >>> identity("Salt in crisps", {"salt-in-crisps"})
    'salt-in-crisps-2'
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    words = re.findall(r"[a-z0-9]+", plain.casefold())
    name = ""
    for word in words:
        if name and len(name) + 1 + len(word) > LONGEST:
            break
        name = f"{name}-{word[:LONGEST]}" if name else word[:LONGEST]
    name = name or "draft"
    used = {t.casefold() for t in taken} | _RESERVED
    number, found = 1, name
    while found in used:
        number += 1
        found = f"{name}-{number}"
    return found
