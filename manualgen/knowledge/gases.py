"""Gases by the words that say that they are made."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from manualgen.knowledge.chemical import Chemical, Form
from manualgen.knowledge.chemical_table import chemicals
from manualgen.knowledge.names import key
from manualgen.knowledge.stems import any_of
from manualgen.knowledge.tables import read_table


@lru_cache(maxsize=1)
def gases() -> Mapping[str, Chemical]:
    """Every gas of the table by the keys of its names; *ammonia* alone is one."""
    return {
        key(name): chemical
        for chemical in chemicals()
        if chemical.form is Form.GAS
        for whole in (chemical.name, *chemical.also)
        for name in (whole, whole.removesuffix(" gas"))
    }


def is_said_to_form(sentence: str, start: int, end: int) -> bool:
    """Whether a sentence reports that what it names from start to end is given off.

    A condition, a denial, a warning and a question report nothing.

    >>> is_said_to_form("Chlorine is given off.", 0, 8)
    True
    >>> is_said_to_form("Add no acid: chlorine is given off.", 13, 21)
    False
    """
    before, behind = sentence[:start], sentence[end:]
    if sentence.rstrip().endswith("?"):
        return False
    if not (_before().search(before) or _behind().match(behind)):
        return False
    return not (
        _not_so("not_so").search(before) or _not_so("not_behind").search(behind)
    )


@lru_cache(maxsize=1)
def _before() -> re.Pattern[str]:
    said = read_table("incompatible").row("said")
    between = rf"(?:(?:{any_of(said.texts('between'))}),?\s{{1,3}}){{0,4}}"
    return re.compile(
        rf"\b(?:{any_of(said.texts('before'))})\s{{1,3}}{between}$", re.IGNORECASE
    )


@lru_cache(maxsize=1)
def _behind() -> re.Pattern[str]:
    said = read_table("incompatible").row("said")
    aside = r"(?:\s{1,3}gas)?\s{0,3}(?:\([^)]{0,40}\)|,[^,.;:]{0,60},|[,)])?\s{1,3}"
    verb = r"(?:which |that )?(?P<is>(?:is|are|was|were|will be|has been|being|is being) )?"
    how = r"(?:(?:then|also|slowly|quickly|now|\w+ly) )?"
    alone = r"(?=\s*(?:[.,;:)]|$)|\s+(?:at|in|when|as|and|on|near|slowly|quickly)\b)"
    return re.compile(
        rf"{aside}{verb}{how}(?:(?:{any_of(said.texts('behind'))})|"
        rf"(?:{any_of(said.texts('behind_alone'))}){alone}|"
        rf"(?(is)(?:{any_of(said.texts('behind_is'))})|(?!)))",
        re.IGNORECASE,
    )


@lru_cache(maxsize=2)
def _not_so(which: str) -> re.Pattern[str]:
    stems = read_table("incompatible").row("said").texts(which)
    return re.compile(rf"\b(?:{any_of(stems)})", re.IGNORECASE)
