"""Whether a name and a formula that stand side by side can mean one substance.

People write a salt's name beside its ion, leave the water of crystallisation
unsaid, drop a Stock number, add in what form the substance comes. All of that
is the same substance; another salt, another hydrate than the one named, another
charge than the Stock number says are not.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache, lru_cache
from math import gcd
from typing import TYPE_CHECKING, Final

from manualgen.chemistry._tables import read_table, words
from manualgen.chemistry.compounds import composition, compound_of
from manualgen.chemistry.formula import Formula, Group
from manualgen.chemistry.ions import ion_of
from manualgen.chemistry.name_reading import WATER, formulas_loosely, formulas_of
from manualgen.chemistry.name_text import in_one_spelling
from manualgen.chemistry.splitting import is_complex, known_ions, split_ions

if TYPE_CHECKING:
    from collections.abc import Mapping

    from manualgen.chemistry.formula import Count

_ANHYDROUS: Final = "anhydrous"
_HYDRATED: Final = frozenset({"hydrated", "hydrous"})
_BRACKET: Final = re.compile(r"(?P<name>.+) \((?P<words>[^()]*)\)")


def same_substance(name: str, formula: Formula) -> bool | None:
    """Whether ``name`` can stand for ``formula``; None where the name is not known.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> same_substance("copper(II) sulfate solution", parse_formula("Cu^2+"))
    True
    >>> same_substance("anhydrous copper(II) sulfate", parse_formula("CuSO4·5H2O"))
    False
    """
    if formula.is_stand_in or formula.is_agent or formula.is_electron:
        return None
    bare, water = without_form(name)
    meant = (*formulas_of(bare), *formulas_loosely(bare))
    if not meant or all(each.unknown for each in meant):
        return None
    fits = any(_fits(each, formula) for each in meant)
    if fits and water is not None and not formula.charge:
        return water == bool(formula.adducts)
    return fits


def is_name(text: str) -> bool:
    """Whether a text is the name of a known substance, in whatever form."""
    return bool(formulas_of(without_form(text)[0]))


@lru_cache(maxsize=8192)
def without_form(name: str) -> tuple[str, bool | None]:
    """A name without the words for its form, and whether it says hydrated.

    False is for anhydrous, None for neither.

    >>> without_form("dilute sulphuric acid")
    ('sulfuric acid', None)
    """
    text = in_one_spelling(name)
    water: bool | None = None
    while not formulas_of(text):
        shorter, word = _without_word(text)
        if shorter is None:
            break
        text = shorter
        if _ANHYDROUS in word:
            water = False
        elif _HYDRATED & set(word.split()):
            water = True
    return text, water


def _without_word(text: str) -> tuple[str | None, str]:
    """A name without a word or a bracket for its form, and that word."""
    if bracket := _BRACKET.fullmatch(text):
        return bracket["name"], bracket["words"]
    first, _, rest = text.partition(" ")
    start, _, last = text.rpartition(" ")
    if rest and first in _before():
        return rest, first
    if start and last in _after():
        return start.rstrip(","), last
    return None, ""


def _fits(meant: Formula, formula: Formula) -> bool:
    if meant.adducts:
        return _is_alike(meant, formula) or (
            _is_alike(meant.anhydrous, formula.anhydrous) and bool(formula.unknown)
        )
    plain = formula.anhydrous if _is_hydrate(formula) else formula
    return (
        _is_alike(meant, plain)
        or _is_same_element(meant, plain)
        or _is_ion_of(plain, meant)
        or _is_ion_of(meant, plain)
        or _is_class_of(meant, plain)
        or _is_in_complex(meant, plain)
        or _has_lost_its_charge(meant, plain)
    )


def _is_hydrate(formula: Formula) -> bool:
    return bool(formula.adducts) and all(a.parts == WATER for a in formula.adducts)


def _is_alike(meant: Formula, formula: Formula) -> bool:
    """The same atoms and charge, in any writing; a salt may be written doubled."""
    listed = compound_of(meant)
    writings = listed.formulas if listed else (meant,)
    if any(composition(each) == composition(formula) for each in writings):
        return True
    is_salt = bool(split_ions(meant)) and not meant.charge and not formula.charge
    return is_salt and _ratio(meant.atoms) == _ratio(formula.atoms)


def _ratio(atoms: Mapping[str, Count]) -> dict[str, Fraction]:
    common = gcd(*(int(count) for count in atoms.values())) or 1
    return {symbol: Fraction(count) / common for symbol, count in atoms.items()}


def _is_same_element(meant: Formula, formula: Formula) -> bool:
    """An element beside any of its forms: S8 and S, a metal's ion, I3^- for iodine.

    Not a non-metal's own ion: chlorine is not Cl^-.
    """
    if len(meant.atoms) != 1 or meant.charge or set(meant.atoms) != set(formula.atoms):
        return False
    return formula.charge >= 0 or -formula.charge < sum(formula.atoms.values())


def _is_ion_of(ion: Formula, compound: Formula) -> bool:
    """An ion beside the compound it is an ion of, with its shell of water or not."""
    if not ion.charge:
        return False
    bare = _without_shell(ion)
    if _without_shell(compound) == bare:
        return True
    found = known_ions(compound)
    if bare in (composition(each) for each in found):
        return True
    return str(ion) == "H3O^+" and any(str(each) == "H^+" for each in found)


def _without_shell(formula: Formula) -> tuple[int, frozenset[tuple[str, Count]]]:
    """What an ion is made of without water as a ligand."""
    atoms = dict(formula.atoms)
    for ligand in _waters(formula):
        atoms["H"] -= 2 * ligand
        atoms["O"] -= ligand
    kept = {symbol: count for symbol, count in atoms.items() if count}
    return formula.charge, frozenset(kept.items())


def _waters(formula: Formula) -> tuple[int, ...]:
    inside = [
        p for part in formula.parts if isinstance(part, Group) for p in part.parts
    ]
    return tuple(
        p.count
        for p in inside
        if isinstance(p, Group) and p.parts == WATER and isinstance(p.count, int)
    )


def _is_class_of(meant: Formula, formula: Formula) -> bool:
    """``the chloride`` beside PCl5: an anion's name for a compound that holds it."""
    return (
        meant.charge < 0
        and formula.charge == 0
        and len(formula.atoms) > len(meant.atoms)
        and all(formula.atoms.get(s, 0) >= n for s, n in meant.atoms.items())
    )


def _is_in_complex(meant: Formula, formula: Formula) -> bool:
    """A metal's ion or a ligand beside a complex that holds it."""
    return (
        is_complex(formula)
        and formula.charge != 0
        and all(formula.atoms.get(s, 0) >= n for s, n in meant.atoms.items())
    )


def _has_lost_its_charge(meant: Formula, formula: Formula) -> bool:
    """``sulfate`` beside SO4 or a charge that no ion has: not the name's fault."""
    return (
        meant.charge != 0
        and len(meant.atoms) > 1
        and meant.atoms == formula.atoms
        and ion_of(formula) is None
    )


@cache
def _before() -> frozenset[str]:
    return _form_words("before")


@cache
def _after() -> frozenset[str]:
    return _form_words("after")


def _form_words(where: str) -> frozenset[str]:
    row = read_table("compounds")["words_of_form"]
    assert isinstance(row, dict)
    return frozenset(words(row, where))
