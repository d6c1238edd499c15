"""From formulas to names.

The tables' own names come first; a salt is named from its ions, an acid by its
anion, a hydrate by its water, a molecule of two elements by number prefixes.
The first name is the one to print, in the custom of British schools where
there are several (``potassium manganate(VII)``).
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING

from manualgen.chemistry.compounds import (
    composition,
    compound_of,
    compounds,
    compounds_by_formula,
)
from manualgen.chemistry.elements import elements
from manualgen.chemistry.formula import Atom, Formula
from manualgen.chemistry.ions import Acid, acids, anions, ion_of
from manualgen.chemistry.name_text import NUMERALS, hydrate_word
from manualgen.chemistry.splitting import is_water, split_ions

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from typing import TypeAlias

    from manualgen.chemistry.compounds import Composition, Compound
    from manualgen.chemistry.formula import Count
    from manualgen.chemistry.ions import Ion
    from manualgen.chemistry.splitting import Split

    _Atoms: TypeAlias = frozenset[tuple[str, Count]]


@lru_cache(maxsize=4096)
def names_of(formula: Formula) -> tuple[str, ...]:
    """Every name known of a substance, the one to print first; none if unknown.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> names_of(parse_formula("FeCl3"))
    ('iron(III) chloride', 'ferric chloride')
    """
    found = (
        *_listed(formula),
        *_ion(formula),
        *_acid(formula),
        *_element(formula),
        *_hydrate(formula),
        *_salt(formula),
        *_trade(formula),
    )
    others = (*_alike(formula), *_of_two_elements(formula))
    return tuple(dict.fromkeys(found or others))


def name_of(formula: Formula) -> str | None:
    """The name to print, or None if the tables know none.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> name_of(parse_formula("MgSO4·7H2O"))
    'magnesium sulfate heptahydrate'
    """
    return next(iter(names_of(formula)), None)


def _listed(formula: Formula) -> Iterator[str]:
    found = compounds_by_formula().get(formula)
    if found is not None:
        yield from found.names


def _alike(formula: Formula) -> Iterator[str]:
    """The one substance of the table that has these atoms."""
    found = compound_of(formula)
    if found is not None:
        yield from found.names


def _ion(formula: Formula) -> Iterator[str]:
    ion = ion_of(formula)
    if ion is not None:
        yield from (f"{name} ion" for name in ion.names)


def _acid(formula: Formula) -> Iterator[str]:
    for acid in _acids_by_atoms().get(_atoms(formula), ()):
        if acid.formula == formula or _gives_protons(formula):
            yield from acid.names


@cache
def _acids_by_atoms() -> Mapping[_Atoms, tuple[Acid, ...]]:
    found: dict[_Atoms, tuple[Acid, ...]] = {}
    for acid in acids():
        atoms = _atoms(acid.formula)
        found[atoms] = (*found.get(atoms, ()), acid)
    return found


def _atoms(formula: Formula) -> _Atoms:
    return frozenset(formula.atoms.items())


def _gives_protons(formula: Formula) -> bool:
    """Whether it is the same acid in another writing, HOCl, and no isomer."""
    positive, _ = _by_sign(split_ions(formula))
    return [str(ion.formula) for ion in positive] == ["H^+"]


def _element(formula: Formula) -> Iterator[str]:
    match formula.parts:
        case (Atom(symbol, 1),) if not formula.charge and symbol in elements():
            yield elements()[symbol].name
        case _:
            return


def _hydrate(formula: Formula) -> Iterator[str]:
    match formula.adducts:
        case (adduct,) if is_water(adduct) and not isinstance(adduct.count, str):
            word = hydrate_word(adduct.count)
        case _:
            return
    if word is not None:
        yield from (f"{name} {word}" for name in names_of(formula.anhydrous))
        yield from (
            f"{name}-{adduct.count}-water" for name in names_of(formula.anhydrous)[:1]
        )


def _salt(formula: Formula) -> Iterator[str]:
    if formula.charge or formula.adducts:
        return
    match _by_sign(split_ions(formula)):
        case ([cation], [anion]) if str(cation.formula) != "H^+":
            for name in cation.names:
                yield f"{name} {anion.name}"
            for name in anion.other_names:
                yield f"{cation.name} {name}"
        case _:
            return


def _by_sign(split: Split) -> tuple[list[Ion], list[Ion]]:
    ions = [ion for ion, _ in split]
    return [i for i in ions if i.charge > 0], [i for i in ions if i.charge < 0]


def _trade(formula: Formula) -> Iterator[str]:
    for compound in _traded().get(composition(formula), ()):
        yield from compound.names


@cache
def _traded() -> Mapping[Composition, tuple[Compound, ...]]:
    """What has a trade name, by what it is made of."""
    found: dict[Composition, tuple[Compound, ...]] = {}
    for compound in compounds():
        if compound.is_trade_name:
            made_of = composition(compound.formula)
            found[made_of] = (*found.get(made_of, ()), compound)
    return found


def _of_two_elements(formula: Formula) -> Iterator[str]:
    match formula.parts, formula.charge, formula.adducts:
        case (Atom(first, n_first), Atom(second, n_second)), 0, ():
            ending = {ion.symbol: ion.name for ion in anions() if ion.is_monatomic}
        case _:
            return
    if second not in ending or first not in elements() or first == second:
        return
    if max(n_first, n_second) < len(NUMERALS):
        start = NUMERALS[n_first] if n_first > 1 else ""
        yield f"{start}{elements()[first].name} {_prefixed(n_second, ending[second])}"


def _prefixed(number: int, word: str) -> str:
    """``monoxide``, ``tetroxide``: the prefix loses its vowel before an oxide."""
    prefix = NUMERALS[number]
    if word.startswith("o") and prefix[-1] in "ao":
        prefix = prefix[:-1]
    return prefix + word
