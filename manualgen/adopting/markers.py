"""The signs that typed lists and sections begin with: bullets, letters and numbers."""

from __future__ import annotations

import re
from collections.abc import Sequence

from manualgen.adopting.doing import imperative

_MARKER = re.compile(
    r"\s*(?P<sign>[-*•‣▪–—·]\s+|(?-i:\d{1,2}\s+[-–]\s+(?=[A-Z]))|\(?\d{1,2}[.)]\s+|\(?[a-z]\)\s+|"
    r"step\s+\d{1,2}\s*[:.)–-]\s*|q(?:uestion\s+)?\d{1,2}[:.)–-]?\s+|"
    r"(?-i:[1-9]\d?(?:\.\d{1,2}){1,3}[.)]?\s+(?=[A-Z][A-Za-z]{2})))(?=\S)",
    re.IGNORECASE,
)
_BARE = re.compile(r"\s*(?:(?P<number>\d{1,2})|(?P<letter>[a-z])\.)\s+(?=[A-Za-z])")
_FEWEST = 3
"""Lines that run on in order and so are numbered without a stop."""
_ASKED = re.compile(r"\?$|[(\[]\d{1,2}(?: marks?)?[)\]]$")
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


def bare_items(lines: Sequence[str]) -> dict[int, tuple[str, str]]:
    """Lines that are numbered 1, 2, 3 without a stop, or a. b. c., by their place.

    Each with its number and the words behind it. Other lines may stand between, which
    go on with the item before them. Most of the items tell what is done, or ask with
    marks or a question mark: *1 beaker, 2 tubes* is a list of things.
    """
    found: dict[int, tuple[str, str]] = {}
    run: dict[int, tuple[str, str]] = {}
    for at, line in enumerate([*lines, ""]):
        item = _BARE.match(line)
        order = _order(item) if item else 0
        if item and order == len(run) + 1:
            run[at] = (item["number"] or item["letter"], line[item.end() :])
            continue
        if not line.strip() or order == 1:
            found |= _if_done(run)
            run = (
                {at: (item["number"] or item["letter"], line[item.end() :])}
                if item and order == 1
                else {}
            )
    return found


def _order(item: re.Match[str]) -> int:
    letter = item["letter"]
    return ord(letter) - ord("a") + 1 if letter else int(item["number"])


def _if_done(run: dict[int, tuple[str, str]]) -> dict[int, tuple[str, str]]:
    done = sum(imperative(words) is not None for _, words in run.values())
    asked = sum(bool(_ASKED.search(words)) for _, words in run.values())
    is_done = len(run) >= _FEWEST and 2 * done >= len(run)
    return run if is_done or (len(run) > 1 and 2 * asked >= len(run)) else {}
