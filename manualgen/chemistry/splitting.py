"""The ions that a compound is made of.

A formula is split only where the ions of the table account for every atom and
their charges add up to nothing; a covalent compound has none.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise, product
from typing import TYPE_CHECKING, TypeAlias

from manualgen.chemistry.formula import Adduct, Atom, Formula, Group
from manualgen.chemistry.ion_reading import readings
from manualgen.chemistry.ions import Ion, acids, ion_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from manualgen.chemistry.ion_reading import Reading

Split: TypeAlias = "tuple[tuple[Ion, int], ...]"


@lru_cache(maxsize=4096)
def split_ions(formula: Formula) -> Split:
    """The ions of a salt, an acid or an ion itself with their numbers, else ().

    Water of crystallisation is left out. Where a metal must have two charges
    (Fe3O4), both ions are given. An unknown complex in square brackets gets
    the charge that the other ions leave to it.
    """
    if formula.charge:
        alone = ion_of(formula)
        return ((alone, 1),) if alone else ()
    main = _split_parts(formula)
    for adduct in formula.adducts:
        if is_water(adduct):
            continue
        more = _split_parts(Formula(adduct.parts))
        if not more or not isinstance(adduct.count, int):
            return ()
        main = _joined(main, more, adduct.count)
    return main


def known_ions(formula: Formula) -> tuple[Formula, ...]:
    """The different ions of a formula, in the order in which it writes them.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> [str(ion) for ion in known_ions(parse_formula("MgSO4·7H2O"))]
    ['Mg^2+', 'SO4^2-']
    """
    return tuple(dict.fromkeys(ion.formula for ion, _ in split_ions(formula)))


def is_water(adduct: Adduct) -> bool:
    """Whether what follows the dot is water of crystallisation."""
    return adduct.parts == (Atom("H", 2), Atom("O"))


def is_complex(formula: Formula) -> bool:
    """Whether a formula is one complex in square brackets."""
    match formula.parts:
        case (Group("[", _, 1),):
            return True
        case _:
            return False


def choices(reading: Reading) -> Iterator[Split]:
    """The ways to give every piece of a reading one charge, all adding up to nothing."""
    known = [piece for piece in reading.pieces if piece.options]
    for chosen in product(*(piece.options for piece in known)):
        found = tuple((ion, p.count) for ion, p in zip(chosen, known, strict=True))
        if not are_partners(chosen):
            continue
        if len(known) == len(reading.pieces):
            if total_charge(found) == 0:
                yield found
        elif complex_ion := _complex_ion(reading, total_charge(found)):
            yield (*found, complex_ion)


def total_charge(split: Split) -> int:
    """What the charges of the ions add up to."""
    return sum(ion.charge * count for ion, count in split)


def are_partners(chosen: tuple[Ion, ...]) -> bool:
    """Whether every ion that makes salts with few others has only those beside it."""
    positive = {ion.formula for ion in chosen if ion.charge > 0}
    return all(ion.partners >= positive for ion in chosen if ion.partners)


def _split_parts(formula: Formula) -> Split:
    neutral = Formula(formula.parts)
    for reading in readings(formula.parts):
        for choice in choices(reading):
            if _is_acid_or_salt(neutral, choice):
                return choice
    return _with_mixed_charges(neutral)


def _is_acid_or_salt(formula: Formula, choice: Split) -> bool:
    """Whether such a substance exists: protons make only the table's acids.

    Water is none of them, and ammonium hydroxide but a name for ammonia in
    water. The acid of a complex ion, H2[CoCl4], needs no row.
    """
    found = {str(ion.formula) for ion, _ in choice}
    if found == {"NH4^+", "OH^-"}:
        return False
    positive = {str(ion.formula) for ion, _ in choice if ion.charge > 0}
    if positive != {"H^+"} or any(is_complex(ion.formula) for ion, _ in choice):
        return True
    return any(acid.formula.atoms == formula.atoms for acid in acids())


def _complex_ion(reading: Reading, others: int) -> tuple[Ion, int] | None:
    """The complex that the table lacks, with the charge that the others leave it."""
    for piece in reading.pieces:
        charge, left = divmod(-others, piece.count)
        if not piece.options and charge and not left:
            formula = Formula(piece.body, charge)
            return Ion(formula, str(Formula(piece.body))), piece.count
    return None


def _with_mixed_charges(formula: Formula) -> Split:
    """Fe3O4 and the like: one metal of which some atoms have the higher charge."""
    for reading in readings(formula.parts):
        metal, *others = reading.pieces
        if any(len(piece.options) != 1 for piece in others):
            continue
        rest = tuple((piece.options[0], piece.count) for piece in others)
        for low, high in pairwise(metal.options):
            spare = -total_charge(rest) - low.charge * metal.count
            number, left = divmod(spare, high.charge - low.charge)
            if left == 0 and 0 < number < metal.count:
                return ((low, metal.count - number), (high, number), *rest)
    return ()


def _joined(first: Split, second: Split, times: int) -> Split:
    if not first:
        return ()
    counts = dict(first)
    for ion, number in second:
        counts[ion] = counts.get(ion, 0) + number * times
    return tuple(counts.items())
