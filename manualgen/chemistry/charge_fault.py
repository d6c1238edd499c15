"""Compounds whose ions cannot add up to nothing: ``MgOH2``, ``NaSO4``, ``CaCl``.

Only what is plainly a salt, a base or an acid is judged: every part of the
formula must be a known ion (or water, or ammonia), and no way of reading it may
be neutral. A mixed oxide (Fe3O4) may give a metal's atoms different charges.
Silent, because the table could not tell a fault from a fact, are covalent
compounds, complexes it does not know, nitrides, phosphides and sulfides of
metals of several charges, and a bare ion that has lost its charge (an equation shows
that).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import product
from typing import TYPE_CHECKING, Final

from manualgen.chemistry.compounds import is_listed
from manualgen.chemistry.formula import Formula
from manualgen.chemistry.ion_reading import readings
from manualgen.chemistry.ions import Ion, ions
from manualgen.chemistry.salts import salt
from manualgen.chemistry.splitting import are_partners, is_water, split_ions

if TYPE_CHECKING:
    from manualgen.chemistry.formula import Count
    from manualgen.chemistry.ion_reading import Piece, Reading

LOOSE: Final = frozenset({"N", "P", "As", "S", "Se", "Te"})
"""Elements that make compounds of no fixed charge with transition metals (Co9S8)."""

MOST_ATOMS: Final = 60
"""Metal atoms of a formula that are tried charge by charge."""


@dataclass(frozen=True, slots=True)
class ChargeFault:
    """A compound that cannot be neutral, and the compounds that may be meant."""

    formula: Formula
    suggestions: tuple[Formula, ...]
    """The likeliest first; empty where the ions do not tell."""


@lru_cache(maxsize=4096)
def charge_fault(formula: Formula) -> ChargeFault | None:
    """What is wrong with the charges of a neutral compound; None if nothing is known.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> [str(f) for f in charge_fault(parse_formula("MgOH2")).suggestions]
    ['Mg(OH)2']
    """
    if formula.charge or formula.unknown or is_listed(formula) or _is_bare_ion(formula):
        return None
    if split_ions(formula) or any(not is_water(a) for a in formula.adducts):
        return None
    plain = tuple(r for r in readings(formula.parts) if _has_partners(r))
    if any(_can_be_neutral(reading) for reading in plain):
        return None
    judged = tuple(filter(_is_judged, plain))
    mended = readings(formula.parts, mend=True)
    mended = tuple(r for r in mended if r.is_mended and _is_judged(r))
    if judged or mended:
        return ChargeFault(formula, _suggestions(formula, (*mended, *judged)))
    return None


def _is_bare_ion(formula: Formula) -> bool:
    return frozenset(formula.atoms.items()) in _bare_ions()


@cache
def _bare_ions() -> frozenset[frozenset[tuple[str, Count]]]:
    return frozenset(frozenset(f.atoms.items()) for f in ions())


def _is_judged(reading: Reading) -> bool:
    """Whether the table knows enough of the ions to find fault with their charges."""
    positive = [piece for piece in reading.pieces if piece.sign > 0]
    negative = [piece for piece in reading.pieces if piece.sign < 0]
    if all(str(piece.options[0].formula) == "H^+" for piece in positive):
        return all(map(_makes_acid, negative))
    if len(positive) > 1 and all(p.options[0].is_monatomic for p in negative):
        return False
    several = any(len(piece.options) > 1 for piece in positive)
    return not (several and any(map(_is_loose, negative)))


def _makes_acid(piece: Piece) -> bool:
    """Whether protons beside it make an acid, and neither water nor a sulfane."""
    return piece.count == 1 and any(ion.acid for ion in piece.options)


def _is_loose(piece: Piece) -> bool:
    ion = piece.options[0]
    return ion.is_monatomic and ion.symbol in LOOSE


def _has_partners(reading: Reading) -> bool:
    """Whether these kinds of ions make salts at all, as hydride and iron do not."""
    return any(
        are_partners(chosen) for chosen in product(*(p.options for p in reading.pieces))
    )


def _can_be_neutral(reading: Reading) -> bool:
    """Whether any charges of the ions, atom by atom, add up to nothing."""
    sums = {0}
    for piece in reading.pieces:
        charges = {ion.charge for ion in piece.options}
        if (
            len(charges) == 1
            or not piece.options[0].is_monatomic
            or piece.count > MOST_ATOMS
        ):
            sums = {
                total + charge * piece.count for total in sums for charge in charges
            }
            continue
        for _ in range(piece.count):
            sums = {total + charge for total in sums for charge in charges}
    return 0 in sums


def _suggestions(formula: Formula, found: tuple[Reading, ...]) -> tuple[Formula, ...]:
    """The salts of the same ions: those with the numbers written, else the usual."""
    for reading in found:
        positive, negative = _kinds(reading, 1), _kinds(reading, -1)
        if len(positive) != 1 or len(negative) != 1:
            continue
        metals = tuple(ion for ion in positive[0].options if ion.in_water)
        pairs = tuple(product(metals, negative[0].options))
        counts = positive[0].count, negative[0].count
        exact = tuple(p for p in pairs if _is_neutral(p, counts))
        usual = tuple(p for p in pairs if p[0].is_usual)
        made = (salt(*pair) for pair in exact or usual or pairs)
        return tuple(Formula(s.parts, 0, formula.adducts) for s in made if s)
    return ()


def _kinds(reading: Reading, sign: int) -> list[Piece]:
    return [piece for piece in reading.pieces if piece.sign == sign]


def _is_neutral(pair: tuple[Ion, Ion], counts: tuple[int, int]) -> bool:
    return pair[0].charge * counts[0] + pair[1].charge * counts[1] == 0
