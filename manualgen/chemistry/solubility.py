"""Which salts dissolve in water, by a textbook's rules.

The rules are those of OpenStax's table; a table of our own adds anions that it
leaves out, salts that it gets wrong and salts on the border, of which books
write both ``(s)`` and ``(aq)``. Of a salt that no rule covers nothing is said.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Literal, TypeAlias

from manualgen.chemistry._tables import read_records, read_rows, words
from manualgen.chemistry.formula_text import parse_formula
from manualgen.chemistry.ions import ions
from manualgen.chemistry.splitting import is_complex, split_ions

if TYPE_CHECKING:
    from manualgen.chemistry._tables import Raw
    from manualgen.chemistry.formula import Formula

Dissolved: TypeAlias = Literal["aq", "s"]
Pair: TypeAlias = "tuple[Formula, Formula]"


@dataclass(frozen=True, slots=True)
class Solubility:
    """Whether a salt is found dissolved or solid in water."""

    state: Dissolved
    rule: str
    """The rule's name in the table: ``R2``, ``R2 exception``."""
    borderline: str | None = None
    """Why the other state may stand as well."""


@dataclass(frozen=True, slots=True)
class _Rule:
    name: str
    state: Dissolved
    anions: frozenset[Formula]
    cations: frozenset[Formula]
    exceptions: frozenset[Formula]

    def applied(self, cation: Formula) -> Solubility:
        if cation not in self.exceptions:
            return Solubility(self.state, self.name)
        other: Dissolved = "s" if self.state == "aq" else "aq"
        return Solubility(other, f"{self.name} exception")


def solubility(cation: Formula, anion: Formula) -> Solubility | None:
    """Whether the salt of two ions dissolves; None where no rule says.

    The rules are not for complex cations, whose salts are made as crystals.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> solubility(parse_formula("Ag^+"), parse_formula("Cl^-"))
    Solubility(state='s', rule='R2 exception', borderline=None)
    """
    if is_complex(cation):
        return None
    ruled = _ruled(cation, anion)
    why = _borderline().get((cation, anion))
    return ruled and Solubility(ruled.state, ruled.rule, why)


def solubility_of(formula: Formula) -> Solubility | None:
    """Whether a salt or base dissolves; None for what is none, or not known.

    A salt of several kinds of ion dissolves where every pair does; of one that
    does not, nothing is said.
    """
    split = split_ions(formula)
    positive = [ion for ion, _ in split if ion.charge > 0]
    negative = [ion.formula for ion, _ in split if ion.charge < 0]
    if not negative or any(not _is_metal_like(str(i.formula)) for i in positive):
        return None
    if any(not ion.in_water for ion in positive):
        return None
    pairs = [solubility(c.formula, a) for c in positive for a in negative]
    found = [each for each in pairs if each is not None]
    if len(found) < len(pairs) or not found:
        return None
    if len(found) == 1 or all(each.state == "aq" for each in found):
        return next((each for each in found if each.borderline), found[0])
    return None


def dissolves_whole(formula: Formula) -> bool:
    """Whether a salt dissolves as molecules, as mercury(II) chloride does."""
    kinds = frozenset(ion.formula for ion, _ in split_ions(formula))
    return kinds in _molecular()


def _is_metal_like(ion: str) -> bool:
    """A cation that makes salts: any but the proton, whose compounds are acids."""
    return ion not in ("H^+", "H3O^+")


def _ruled(cation: Formula, anion: Formula) -> Solubility | None:
    apart, first, *others = _rules()
    if anion in apart.anions:
        return apart.applied(cation)
    if state := _pairs().get((cation, anion)):
        return Solubility(state, "single salt")
    if cation in first.cations:
        return None if anion in first.exceptions else first.applied(cation)
    for rule in others:
        if anion in rule.anions:
            return rule.applied(cation)
    return None


@cache
def _rules() -> tuple[_Rule, ...]:
    """Anions that water takes apart, then R1 and the rest in the table's order."""
    sections = ("not_in_water", "rules", "further")
    return tuple(_rule(r) for s in sections for r in read_records("solubility", s))


def _rule(row: dict[str, Raw]) -> _Rule:
    return _Rule(
        name=str(row["id"]),
        state=_state(row["state"]),
        anions=_listed(row, "anions"),
        cations=_listed(row, "cations"),
        exceptions=_listed(row, "except"),
    )


def _listed(row: dict[str, Raw], key: str) -> frozenset[Formula]:
    found = frozenset(map(parse_formula, words(row, key)))
    assert found <= ions().keys(), sorted(map(str, found - ions().keys()))
    return found


def _state(text: Raw) -> Dissolved:
    return "aq" if text == "aq" else "s"


@cache
def _pairs() -> dict[Pair, Dissolved]:
    rows = read_rows("solubility", "pairs")
    return {_pair(row): _state(row["state"]) for row in rows}


@cache
def _borderline() -> dict[Pair, str]:
    return {_pair(row): row["why"] for row in read_rows("solubility", "borderline")}


@cache
def _molecular() -> frozenset[frozenset[Formula]]:
    rows = read_rows("solubility", "molecular_in_water")
    return frozenset(frozenset(_pair(row)) for row in rows)


def _pair(row: dict[str, str]) -> Pair:
    pair = parse_formula(row["cation"]), parse_formula(row["anion"])
    assert set(pair) <= ions().keys(), row
    return pair
