"""The words that the tool itself prints, in the manual's language.

The built-in tables have English and French whole, the technician's words in one
of their own; a department's ``labels.yaml`` is of the same form and goes before
them, for one word or for a whole language. What neither has is printed in
English.
"""

from __future__ import annotations

import string
from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import TypeAlias

from manualgen.knowledge.tables import read_table

Say: TypeAlias = Mapping[str, str]
"""The labels of one language, by key."""

OwnLabels: TypeAlias = tuple[tuple[str, str, str], ...]
"""A department's own: language, key and words of each."""

FALLBACK = "en"
_TABLES = ("labels", "technician")


@lru_cache(maxsize=32)
def labels(language: str, own: OwnLabels = ()) -> Say:
    """The labels for a language tag such as ``en-GB``.

    Words of a department's own that lack a place to be filled in, or have one
    that nothing fills, are left aside; a check tells of them.
    """
    primary = primary_of(language)
    found = {**_texts(FALLBACK), **_texts(primary)}
    for its_language, key, words in own:
        if its_language in (primary, language) and not label_fault(key, words):
            found[key] = words
    return MappingProxyType(found)


def primary_of(language: str) -> str:
    """The language of a tag, without its region: ``fr`` of ``fr-CA``."""
    return language.partition("-")[0].lower()


def label_fault(key: str, words: str) -> str | None:
    """What is wrong with words for a key, or None.

    >>> label_fault("mean_of", "Mittel von {rows}") is None
    True
    >>> label_fault("mean_of", "Mittel")
    'the words have to hold {rows}'
    """
    known = label_keys()
    if key not in known:
        return f"{key!r} is no label"
    needed, given = _fields(known[key]), _fields(words)
    if given is None:
        return "braces hold a name and nothing else; write {{ or }} for a brace itself"
    if needed == given:
        return None
    held = " and ".join(f"{{{name}}}" for name in sorted(needed or ()))
    return f"the words have to hold {held or 'no braces'}"


def label_keys() -> Say:
    """Every label that there is, with its English words."""
    return _texts(FALLBACK)


def languages() -> tuple[str, ...]:
    """The languages of the built-in table."""
    return tuple(read_table("labels").cells)


@lru_cache(maxsize=8)
def _texts(language: str) -> Say:
    rows = [read_table(table).row(language) for table in _TABLES]
    return MappingProxyType({key: row.text(key) for row in rows for key in row.cells})


def _fields(words: str) -> frozenset[str] | None:
    """The names in braces; None where braces do not pair or hold more than a name."""
    try:
        parts = tuple(string.Formatter().parse(words))
    except ValueError:
        return None
    if any(name == "" or form or conversion for _, name, form, conversion in parts):
        return None
    return frozenset(name for _, name, _, _ in parts if name)


ENGLISH = labels(FALLBACK)
