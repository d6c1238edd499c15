"""Who shares what: ``2 per class``, ``per station``."""

from __future__ import annotations

import re

from manualgen.model.lab import ShareBy, Sharing

_SHARING = re.compile(r"(?:(\d{1,3}) )?per (class|station)")


def sharing_of(text: str) -> Sharing | None:
    """The sharing that a text states, if it states one; a number left out is 1."""
    found = _SHARING.fullmatch(text)
    if not found:
        return None
    return Sharing(int(found[1] or 1), ShareBy(f"per {found[2]}"))
