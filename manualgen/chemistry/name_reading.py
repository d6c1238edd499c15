"""From names to formulas.

A name is looked for in the tables first; then it is taken apart: water of
crystallisation, an ion, an acid, a salt of a cation and an anion, two elements
with number prefixes. A metal without its Stock number (``iron chloride``) has
as many formulas as it has charges.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache, lru_cache
from math import gcd
from typing import TYPE_CHECKING, Final, TypeAlias

from manualgen.chemistry.compounds import compounds
from manualgen.chemistry.elements import elements
from manualgen.chemistry.formula import Adduct, Atom, Formula
from manualgen.chemistry.ions import ROMAN, Ion, acids, anions, cations
from manualgen.chemistry.name_text import (
    LONGEST_NAME,
    in_one_spelling,
    numbered,
    parted_from_water,
)
from manualgen.chemistry.salts import salt
from manualgen.chemistry.splitting import split_ions

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

Counted: TypeAlias = "tuple[int | None, str]"
"""A bare name and the number that its prefix gives."""

WATER: Final = (Atom("H", 2), Atom("O"))


def formula_of(name: str) -> Formula | None:
    """The formula that a name means; None if unknown or if it may mean several.

    A metal without its Stock number means the ion that is usual in practicals,
    where one is: copper sulfate is CuSO4, iron chloride may be two things.

    >>> str(formula_of("copper sulphate"))
    'CuSO4'
    """
    found = formulas_of(name)
    if len(found) > 1 and not _is_settled(found[0], in_one_spelling(name)):
        return None
    return found[0] if found else None


def _is_settled(first: Formula, name: str) -> bool:
    """Whether the first of several meanings is the one that everybody means."""
    if name in _compounds_by_name() or name in _element_symbols():
        return True
    return any(ion.is_usual for ion, _ in split_ions(first))


@lru_cache(maxsize=8192)
def formulas_of(name: str) -> tuple[Formula, ...]:
    """Every formula that a name may mean, the likeliest first; none if unknown.

    >>> [str(formula) for formula in formulas_of("iron chloride")]
    ['FeCl2', 'FeCl3']
    """
    if len(name) > LONGEST_NAME:
        return ()
    text = in_one_spelling(name)
    for reader in (_listed, _hydrate, _ion, _salt, _of_two_elements):
        if found := tuple(dict.fromkeys(reader(text))):
            return found
    return ()


def formulas_loosely(name: str) -> tuple[Formula, ...]:
    """The substances that go by a name that strictly means another one."""
    return _loose_names().get(in_one_spelling(name), ())


def _listed(name: str) -> Iterator[Formula]:
    if (acid := _acids_by_name().get(name)) is not None:
        yield acid
    yield from _compounds_by_name().get(name, ())
    if (symbol := _element_symbols().get(name)) is not None:
        yield Formula((Atom(symbol),))


def _hydrate(name: str) -> Iterator[Formula]:
    if parted := parted_from_water(name):
        base, number = parted
        for formula in formulas_of(base):
            if not formula.charge and not formula.adducts:
                yield replace(formula, adducts=(Adduct(number, WATER),))


def _ion(name: str) -> Iterator[Formula]:
    """``sulfate ions``, ``copper(II) ion`` and anions alone: ``sulfate``."""
    words = name.split(" ")
    if words[-1] in ("ion", "ions", "anion", "anions", "cation", "cations"):
        bare = _one_word(words[:-1])
        found = (*_metal_ions(bare), *_anions(bare))
        yield from (ion.formula for ion in found if ion.in_water)
        return
    bare = _one_word(words)
    yield from (ion.formula for ion in _anions(bare))
    if bare in _exact_cations():
        yield from (ion.formula for ion in _metal_ions(bare))


def _salt(name: str) -> Iterator[Formula]:
    words = name.split(" ")
    for at in range(1, len(words)):
        for cation in _counted(words[:at], positive=True):
            yield from _salts_of(cation, _counted(words[at:], positive=False))


def _salts_of(cation: Counted, anions_named: Iterable[Counted]) -> Iterator[Formula]:
    """The salts by the longest anion's name that makes any.

    ``dihydrogenphosphate`` is H2PO4^-, and not two of HPO4^2-.
    """
    for anion in anions_named:
        found = tuple(_salt_of(cation, anion))
        yield from found
        if found:
            return


def _salt_of(positive: Counted, negative: Counted) -> Iterator[Formula]:
    """The salts of the ions named, with the numbers where any are given.

    A number of anions alone (``tin tetrachloride``) goes with one cation.
    """
    number, other_number = positive[0], negative[0]
    for cation in _cations_by_name()[positive[1]]:
        for anion in _anions_by_name()[negative[1]]:
            common = gcd(cation.charge, anion.charge)
            counts = -anion.charge // common, cation.charge // common
            if other_number not in (None, counts[1]):
                continue
            if (number or (other_number and 1)) not in (None, counts[0]):
                continue
            made = salt(cation, anion)
            if made is not None and str(cation.formula) != "H^+":
                yield made


def _counted(words: list[str], *, positive: bool) -> Iterator[Counted]:
    """A cation's or an anion's name, and the number that its prefix gives."""
    known = _cations_by_name() if positive else _anions_by_name()
    for number, bare in numbered(_one_word(words)):
        if bare in known:
            yield number, bare


def _of_two_elements(name: str) -> Iterator[Formula]:
    """``dinitrogen tetroxide``, ``sulfur(VI) fluoride``: molecules of two elements."""
    words = name.split(" ")
    if len(words) != 2:
        return
    for number, first in numbered(words[0]):
        for other_number, second in numbered(words[1]):
            if negative := _monatomic_anions().get(second):
                yield from _molecule(first, negative, number, other_number)


def _molecule(
    first: str, negative: Ion, number: int | None, other_number: int | None
) -> Iterator[Formula]:
    if first in _cations_by_name():
        return
    if symbol := _element_symbols().get(first):
        yield _two(symbol, negative.symbol, (number or 1, other_number or 1))
    elif number is other_number is None and (stock := _stock(first)):
        symbol, state = stock
        common = gcd(state, negative.charge)
        counts = (-negative.charge // common, state // common)
        yield _two(symbol, negative.symbol, counts)


def _two(first: str, second: str, counts: tuple[int, int]) -> Formula:
    return Formula((Atom(first, counts[0]), Atom(second, counts[1])))


def _stock(word: str) -> tuple[str, int] | None:
    """``sulfur(vi)`` as S and 6."""
    name, bracket, number = word.partition("(")
    numeral = number.removesuffix(")").upper()
    symbol = _element_symbols().get(name)
    if not bracket or not symbol or not numeral or numeral not in ROMAN:
        return None
    return symbol, ROMAN.index(numeral)


def _one_word(words: list[str]) -> str:
    """An ion's name with ``hydrogen carbonate`` and the like written together."""
    name = " ".join(words)
    for prefix in ("dihydrogen", "hydrogen"):
        name = name.replace(f"{prefix} ", prefix)
    return name


def _metal_ions(name: str) -> tuple[Ion, ...]:
    return _cations_by_name().get(name, ())


def _anions(name: str) -> tuple[Ion, ...]:
    return _anions_by_name().get(name, ())


@cache
def _exact_cations() -> frozenset[str]:
    """Names that no element bears: ammonium, copper(II)."""
    return frozenset(in_one_spelling(name) for ion in cations() for name in ion.names)


@cache
def _cations_by_name() -> dict[str, tuple[Ion, ...]]:
    """Cations by every name.

    A metal without its Stock number is any of its ions, the usual one first.
    """
    found: dict[str, tuple[Ion, ...]] = {}
    for ion in cations():
        for name in (*ion.names, ion.stock_name or ion.name):
            _add(found, name, ion)
    for ion in sorted(cations(), key=lambda ion: not ion.is_usual):
        bare, bracket, _ = ion.name.partition("(")
        if bracket and all(other.name != bare for other in found.get(bare, ())):
            _add(found, bare, ion)
    return found


@cache
def _anions_by_name() -> dict[str, tuple[Ion, ...]]:
    found: dict[str, tuple[Ion, ...]] = {}
    for ion in anions():
        for name in ion.names:
            _add(found, name, ion)
    return found


def _add(found: dict[str, tuple[Ion, ...]], name: str, ion: Ion) -> None:
    key = in_one_spelling(name)
    if ion not in found.get(key, ()):
        found[key] = (*found.get(key, ()), ion)


@cache
def _monatomic_anions() -> dict[str, Ion]:
    return {ion.name: ion for ion in anions() if ion.is_monatomic}


@cache
def _acids_by_name() -> dict[str, Formula]:
    return {
        in_one_spelling(name): acid.formula for acid in acids() for name in acid.names
    }


@cache
def _compounds_by_name() -> dict[str, tuple[Formula, ...]]:
    """The substances of the table by every name, those that are called so first."""
    found: dict[str, tuple[Formula, ...]] = {}
    first = [(compound.name, compound.formula) for compound in compounds()]
    others = [(name, c.formula) for c in compounds() for name in c.other_names]
    for name, formula in (*first, *others):
        key = in_one_spelling(name)
        found[key] = (*found.get(key, ()), formula)
    return found


@cache
def _loose_names() -> dict[str, tuple[Formula, ...]]:
    found: dict[str, tuple[Formula, ...]] = {}
    for compound in compounds():
        for name in compound.loose_names:
            key = in_one_spelling(name)
            found[key] = (*found.get(key, ()), compound.formula)
    return found


@cache
def _element_symbols() -> dict[str, str]:
    return {in_one_spelling(e.name): e.symbol for e in elements().values()}
