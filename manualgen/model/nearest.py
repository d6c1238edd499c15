"""The known word that an unknown one was probably meant to be."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The closest known word, or None where nothing is close.

    >>> nearest("potasium nitrate", ["potassium nitrate", "sodium nitrate"])
    'potassium nitrate'
    >>> nearest("xenon", ["potassium nitrate"]) is None
    True
    """
    by_folded = {k.casefold(): k for k in known}
    found = difflib.get_close_matches(word.casefold(), by_folded, n=1, cutoff=0.75)
    return by_folded[found[0]] if found else None
