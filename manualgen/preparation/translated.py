"""The sentences of the rules in the manual's language.

The rules are kept in English, in ``preparing.yaml`` and ``disposal.yaml``; a
table for another language has each sentence with its translation.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from manualgen.knowledge.tables import read_table

_TABLES: Final = {"fr": "preparing-fr"}


def in_language(text: str, language: str) -> str:
    """A sentence of the rules in a language; in English where it has none."""
    return _sentences(language).get(text, text)


@lru_cache(maxsize=8)
def _sentences(language: str) -> Mapping[str, str]:
    if language not in _TABLES:
        return MappingProxyType({})
    rows = read_table(_TABLES[language]).rows("sentences")
    return MappingProxyType({row.text("en"): row.text("is") for row in rows})
