"""What in a list of needs cannot be parted surely, and goes into the draft whole.

*Three salts A, B and C (potassium chloride, sodium bromide), a spatula of each*
names things by letters and in brackets: which is which, only the author knows.
"""

from __future__ import annotations

import re

from manualgen.adopting.spans import quantities_in, right_formula
from manualgen.knowledge import find_apparatus, find_chemical, mentions

_LETTER = r"(?<![\w'’.-])[A-Z](?![\w'’.°-])"
_LETTERS = re.compile(
    rf"{_LETTER}(?:\s*(?:,|&|-|–|\band\b|\bor\b|\bto\b)+\s*{_LETTER})+"
)
SERIES = re.compile(r"\b(?:\w{3,}(?:ides|ates|ites)|salts) of\b", re.IGNORECASE)
"""*The chlorides of sodium and potassium*: none of them is sodium."""
_BRACKETS = re.compile(r"\(([^()]*)\)")
_SHARE = re.compile(
    r"(?:about\s+)?(?:an?|one|two|three|four|five|six|\d{1,2}|some|a few)\s+(?:\w+\s+){0,2}?of\s+(?:each|them|both|every one)(?:\s+of\s+them)?",
    re.IGNORECASE,
)


def is_letter(name: str) -> bool:
    """Whether a name is a single letter, which names a sample and no chemical."""
    return bool(re.fullmatch(_LETTER, name.strip()))


def follows_letter(text: str, start: int, end: int) -> bool:
    """Whether a joint in a list stands between two letters: *A, B and C*."""
    before = re.search(rf"{_LETTER}$", text[:start])
    return bool(before and re.match(_LETTER, text[end:]))


def is_share(item: str) -> bool:
    """Whether an item tells only how much of those before it: *a spatula of each*."""
    return bool(_SHARE.fullmatch(item.strip(" .")))


def is_unsure(item: str) -> bool:
    """Whether an item names several things by letters, or others in brackets."""
    is_many = _LETTERS.search(item) or SERIES.search(item)
    return bool(is_many) or _has_others_in_brackets(item)


def _has_others_in_brackets(item: str) -> bool:
    head = item.partition("(")[0].strip(" ,.")
    return any(
        _names_another(said, _substance(head)) for said in _BRACKETS.findall(item)
    )


def _substance(name: str) -> str | None:
    chemical = find_chemical(name)
    return chemical.substance if chemical else None


def _names_another(said: str, own: str | None) -> bool:
    """Whether brackets name a thing that is not the one before them."""
    bare = said.strip()
    if right_formula(bare) or (own is not None and _substance(bare) == own):
        return False
    for start, end, _ in reversed(list(quantities_in(bare))):
        bare = bare[:start] + bare[end:]
    named = mentions(bare)
    return bool(named.chemicals or named.apparatus or find_apparatus(bare))
