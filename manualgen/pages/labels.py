"""The words that the tool itself prints, in the manual's language."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

import yaml

FALLBACK = "en"


@cache
def labels(language: str) -> Mapping[str, str]:
    """The labels for a language tag such as ``en-GB``; English where it has none."""
    text = (files("manualgen") / "data" / "labels.yaml").read_text(encoding="utf-8")
    tables: dict[str, dict[str, str]] = yaml.load(text, Loader=yaml.CBaseLoader)
    primary = language.partition("-")[0].lower()
    return MappingProxyType({**tables[FALLBACK], **tables.get(primary, {})})
