"""What names share: one spelling, number prefixes, words for water of crystallisation."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

NUMERALS: Final = (
    *("", "mono", "di", "tri", "tetra", "penta", "hexa", "hepta", "octa", "nona"),
    *("deca", "undeca", "dodeca", "trideca", "tetradeca", "pentadeca", "hexadeca"),
    *("heptadeca", "octadeca", "nonadeca", "icosa", "henicosa", "docosa", "tricosa"),
    "tetracosa",
)
"""Multiplicative prefixes from 1 to 24 (IUPAC 2005, table IV)."""

LONGEST_NAME: Final = 120
"""Characters of a name that is still looked up."""

_PREFIXES: Final = sorted(
    ((prefix, number) for number, prefix in enumerate(NUMERALS) if prefix),
    key=lambda row: -len(row[0]),
)
_OTHER_NUMERALS: Final = {"hemi": Fraction(1, 2), "sesqui": Fraction(3, 2)}
_SPELLINGS: Final = (
    (re.compile(r"sulph"), "sulf"),
    (re.compile(r"aluminum"), "aluminium"),
    (re.compile(r"\bcesium"), "caesium"),
    (re.compile(r"[‐‑–−]"), "-"),
    (re.compile(r"[’ʼ]"), "'"),
    (re.compile(r"\s+"), " "),
    (re.compile(r" \((?=[iv]+\))"), "("),
    (re.compile(r"(?<=\([iv]) ?, ?(?=[iv]+\))"), ","),
    (re.compile(r"(?<=[iv]\)) ?- ?(?=[a-z])"), " "),
)
_WATER: Final = re.compile(r"(?P<base>.+?)[- ](?P<number>\d+)[- ]water")
_HYDRATE: Final = re.compile(r"(?P<base>.+) (?P<prefix>[a-z]+)hydrate")


def in_one_spelling(name: str) -> str:
    """A name in small letters and in IUPAC's spelling: sulfur, aluminium, caesium.

    >>> in_one_spelling("Aluminum  Sulphate")
    'aluminium sulfate'
    """
    text = name.strip().lower()
    for pattern, spelling in _SPELLINGS:
        text = pattern.sub(spelling, text)
    return text


def parted_from_water(name: str) -> tuple[str, int | Fraction] | None:
    """A hydrate's name without its water, and how much water it names.

    >>> parted_from_water("copper(II) sulfate-5-water")
    ('copper(II) sulfate', 5)
    """
    if water := _WATER.fullmatch(name):
        return water["base"], int(water["number"])
    hydrate = _HYDRATE.fullmatch(name)
    if hydrate is None:
        return None
    prefix = hydrate["prefix"]
    if prefix in _OTHER_NUMERALS:
        return hydrate["base"], _OTHER_NUMERALS[prefix]
    if prefix in NUMERALS:
        return hydrate["base"], NUMERALS.index(prefix)
    return None


def hydrate_word(number: int | Fraction) -> str | None:
    """``pentahydrate`` for 5; None where there is no usual word."""
    if isinstance(number, int):
        return f"{NUMERALS[number]}hydrate" if 0 < number < len(NUMERALS) else None
    words = {fraction: word for word, fraction in _OTHER_NUMERALS.items()}
    return f"{words[number]}hydrate" if number in words else None


def numbered(word: str) -> tuple[tuple[int | None, str], ...]:
    """The ways to read a number prefix off a word; None is for reading none.

    A vowel dropped before another is put back: ``tetroxide`` is four oxide.
    """
    found: list[tuple[int | None, str]] = [(None, word)]
    for prefix, number in _PREFIXES:
        if word.startswith(prefix):
            found.append((number, word.removeprefix(prefix)))
        if prefix[-1] in "ao" and word.startswith(prefix[:-1] + "o"):
            found.append((number, word.removeprefix(prefix[:-1])))
    return tuple(found)
