"""Words looked for in running text by their stems."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache


@lru_cache(maxsize=256)
def stem_pattern(stems: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern that finds any of the stems at the beginning of a word.

    A stem that ends in ! is a whole word. A blank matches a line's end and a
    hyphen too; the spelling of sulfur makes no difference.

    >>> bool(stem_pattern(("well ventilat",)).search("a well-ventilated room"))
    True
    """
    longest_first = sorted(stems, key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(_loose, longest_first))})", re.IGNORECASE)


def says(text: str, stems: Iterable[str]) -> bool:
    """Whether a text has any of the stems."""
    listed = tuple(stems)
    return bool(listed) and bool(stem_pattern(listed).search(text))


def _loose(stem: str) -> str:
    if stem.endswith("!"):
        return _loose(stem[:-1]) + r"\b"
    escaped = re.escape(stem.replace("-", " ")).replace(r"\ ", r"[\s\u00a0-]+")
    return escaped.replace("sulf", "sul(?:f|ph)")
