"""What oxidation numbers are worked out from, as the table has it."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeAlias

from manualgen.chemistry._tables import read_rows
from manualgen.chemistry.formula_text import parse_formula

if TYPE_CHECKING:
    from collections.abc import Mapping

    from manualgen.chemistry.formula import Formula, Part

Body: TypeAlias = "tuple[Part, ...]"
Sites: TypeAlias = tuple[tuple[str, Fraction], ...]


@cache
def fixed() -> Mapping[str, Fraction]:
    """The elements with one number in all their compounds."""
    return _numbers("fixed")


@cache
def negative() -> Mapping[str, Fraction]:
    """What each non-metal takes, in the order in which it is given out."""
    rows = read_rows("oxidation", "negative")
    return MappingProxyType({r["symbol"]: Fraction(r["number"]) for r in rows})


@cache
def highest() -> Mapping[str, Fraction]:
    """The highest number of each element that has been asked to give more."""
    return _numbers("highest")


@cache
def nonmetals() -> frozenset[str]:
    """The elements that are no metals, germanium and antimony among them."""
    return _elements("nonmetals")


@cache
def hydridic() -> frozenset[str]:
    """The non-metals beside which hydrogen is the negative one."""
    return _elements("hydridic")


@cache
def positive_by_school() -> frozenset[str]:
    """The elements beside which schools call hydrogen positive and Allen's scale does not."""
    return _elements("by_school")


@cache
def neutral_ligands() -> frozenset[Body]:
    """Molecules that a metal holds without giving or taking electrons."""
    return frozenset(f.parts for f in _formulas("neutral_ligands"))


@cache
def bare_ligands() -> Mapping[Body, Formula]:
    """Anions that are written behind a metal without brackets."""
    return MappingProxyType({f.parts: f for f in _formulas("bare_ligands")})


@cache
def non_innocent() -> frozenset[Body]:
    """Ligands whose own charge nobody can tell."""
    return frozenset(f.parts for f in _formulas("non_innocent"))


@cache
def known_sites() -> Mapping[Formula, Sites]:
    """Ions in which one element is in two states, atom by atom."""
    found = {}
    for row in read_rows("oxidation", "sites"):
        words = row["sites"].split()
        pairs = zip(words[::2], map(Fraction, words[1::2]), strict=True)
        found[parse_formula(row["formula"])] = tuple(pairs)
    return MappingProxyType(found)


def _numbers(key: str) -> Mapping[str, Fraction]:
    return MappingProxyType(
        {
            symbol: Fraction(row["number"])
            for row in read_rows("oxidation", key)
            for symbol in row["elements"].split()
        }
    )


def _elements(key: str) -> frozenset[str]:
    rows = read_rows("oxidation", key)
    return frozenset(symbol for row in rows for symbol in row["elements"].split())


def _formulas(key: str) -> tuple[Formula, ...]:
    rows = read_rows("oxidation", key)
    texts = [text for row in rows for text in row["formulas"].split()]
    return tuple(map(parse_formula, texts))
