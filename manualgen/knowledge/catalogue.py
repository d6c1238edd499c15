"""Finding a chemical by a name or by a formula."""

from __future__ import annotations

from collections import defaultdict
from functools import lru_cache

from manualgen.chemistry import ChemistryError, Formula, parse_formula
from manualgen.knowledge.chemical import Chemical, Form
from manualgen.knowledge.chemical_table import chemicals
from manualgen.knowledge.index import builtin_index
from manualgen.knowledge.names import bare_key, key
from manualgen.knowledge.store import NO_STORE, Store

_FORMS = {"g": Form.GAS, "aq": Form.SOLUTION, "l": Form.LIQUID, "s": Form.SOLID}


@lru_cache(maxsize=4096)
def find_chemical(name: str, store: Store = NO_STORE) -> Chemical | None:
    """The chemical that a name names, the store's entry before the built-in one.

    Synonyms, capitals, both spellings of sulfur, hydrates by either custom and
    words of form (``dilute``, ``solution``, ``turnings``) are understood; a
    formula is a name too. None where nobody knows it.

    >>> find_chemical("Copper(II) sulphate pentahydrate").substance
    'copper(II) sulfate'
    >>> find_chemical("unobtainium") is None
    True
    """
    for index in (store.index, builtin_index()):
        if (found := index.get(key(name))) is not None:
            return found
    for index in (store.index, builtin_index()):
        if (found := index.get(bare_key(name))) is not None:
            return found
    return _by_formula_text(name, store)


def find_by_formula(
    formula: Formula, state: str | None = None, store: Store = NO_STORE
) -> Chemical | None:
    """The chemical of a formula, water of crystallisation aside.

    The state tells ammonia from its solution. A formula written in another way
    (``C2H4O2``) counts where one chemical only is made of these atoms.
    """
    same = _by_formula().get(str(formula.anhydrous), ()) or _of_atoms(formula.anhydrous)
    if not same:
        return None
    wanted = _FORMS.get(state or "")
    chosen = next((c for c in same if c.form is wanted), same[0])
    return (
        store.kept.get(chosen.substance, chosen)
        if chosen.form is not Form.GAS
        else chosen
    )


def _by_formula_text(text: str, store: Store) -> Chemical | None:
    if not any(c.isupper() or c.isdigit() for c in text):
        return None
    try:
        formula = parse_formula(text)
    except ChemistryError:
        return None
    return find_by_formula(formula, None, store)


@lru_cache(maxsize=1)
def _by_formula() -> dict[str, tuple[Chemical, ...]]:
    found: defaultdict[str, list[Chemical]] = defaultdict(list)
    for chemical in sorted(chemicals(), key=lambda c: c.name != c.substance):
        if chemical.formula:
            found[str(chemical.formula.anhydrous)].append(chemical)
    return {formula: tuple(same) for formula, same in found.items()}


@lru_cache(maxsize=1)
def _by_atoms() -> dict[frozenset[tuple[str, object]], set[str]]:
    found: defaultdict[frozenset[tuple[str, object]], set[str]] = defaultdict(set)
    for written, same in _by_formula().items():
        formula = same[0].formula
        assert formula is not None
        found[frozenset(formula.anhydrous.atoms.items())].add(written)
    return found


def _of_atoms(formula: Formula) -> tuple[Chemical, ...]:
    """The chemicals of these atoms, where all are written with one formula."""
    if formula.charge:
        return ()
    written = _by_atoms().get(frozenset(formula.atoms.items()), set())
    same = _by_formula()[next(iter(written))] if len(written) == 1 else ()
    return same if len({c.substance for c in same}) <= 2 else ()
