"""The signs that typed lists and sections begin with: bullets, letters and numbers."""

from __future__ import annotations

import re

_MARKER = re.compile(
    r"\s*(?P<sign>[-*•‣▪–—·]\s+|(?-i:\d{1,2}\s+[-–]\s+(?=[A-Z]))|\(?\d{1,2}[.)]\s+|\(?[a-z]\)\s+|"
    r"step\s+\d{1,2}\s*[:.)–-]\s*|q(?:uestion\s+)?\d{1,2}[:.)–-]?\s+|"
    r"(?-i:[1-9]\d?(?:\.\d{1,2}){1,3}[.)]?\s+(?=[A-Z][A-Za-z]{2})))(?=\S)",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"\d{1,2}(?:\.\d{1,2})*")


def marked_item(line: str) -> tuple[str, str] | None:
    """The sign of a typed list's item and the words behind it, or None.

    >>> marked_item("1.3.2 Stir it."), marked_item("2.5 g of salt")
    (('1.3.2', 'Stir it.'), None)
    """
    found = _MARKER.match(line)
    return (found["sign"].strip(" .)–-") or "-", line[found.end() :]) if found else None


def depth(marker: str) -> int:
    """How deep a number stands: 1 for *2*, 3 for *1.3.2*, 0 for a bullet or letter."""
    return marker.count(".") + 1 if _NUMBER.fullmatch(marker) else 0
