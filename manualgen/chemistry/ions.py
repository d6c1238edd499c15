"""The ions that practicals meet, from a table: charge, names, and their acids.

Cations and anions together give the salts (`salts`), their names (`names`) and
what stands in a solution (`dissociation`). A metal's oxidation states that no
ion in water shows, chromium(VI) or manganese(IV), are kept beside them: oxides
and halides are named by them all the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, TypeAlias, cast

from manualgen.chemistry._tables import read_records, read_rows, words
from manualgen.chemistry.elements import elements
from manualgen.chemistry.formula import Atom, Formula, Group
from manualgen.chemistry.formula_text import parse_formula

if TYPE_CHECKING:
    from collections.abc import Mapping

    from manualgen.chemistry._tables import Raw
    from manualgen.chemistry.formula import Part

Role: TypeAlias = Literal["acid", "base", "amphiprotic", "neutral"]
Body: TypeAlias = "tuple[Part, ...]"

ROMAN = ("", "I", "II", "III", "IV", "V", "VI", "VII", "VIII")
"""Stock numbers."""


@dataclass(frozen=True, slots=True)
class Acid:
    """The acid that an anion comes from, with all its protons."""

    formula: Formula
    names: tuple[str, ...]
    is_strong: bool
    """Wholly ionised in water."""


@dataclass(frozen=True, slots=True)
class Ion:
    """An ion and what a salt takes from it."""

    formula: Formula
    name: str
    other_names: tuple[str, ...] = ()
    stock_name: str | None = None
    """``zinc(II)``, which nobody needs to write and everybody may."""
    role: Role = "neutral"
    """In water, after Brønsted."""
    acid: Acid | None = None
    is_usual: bool = False
    """Meant by the metal's name without a Stock number."""
    leads: bool = False
    """Stands before the metal: CH3COONa."""
    partners: frozenset[Formula] = frozenset()
    """The only cations that make a salt of it; empty where any does."""
    writings: tuple[Body, ...] = ()
    """The ways in which it stands in a formula, the usual one first."""
    in_water: bool = True
    """False for a mere oxidation state, as chromium(VI)."""

    @property
    def charge(self) -> int:
        """In elementary charges."""
        return self.formula.charge

    @property
    def names(self) -> tuple[str, ...]:
        """Every name, the one that is written first."""
        return (self.name, *self.other_names)

    @property
    def is_monatomic(self) -> bool:
        """Whether it is a single charged atom."""
        match self.formula.parts:
            case (Atom(count=1),):
                return True
            case _:
                return False

    @property
    def symbol(self) -> str:
        """The element of a monatomic ion."""
        return next(iter(self.formula.atoms))


@cache
def cations() -> tuple[Ion, ...]:
    """The positive ions, and the oxidation states that only names know."""
    rows = tuple(map(_ion, read_records("ions", "cations")))
    return (*rows, *_states())


@cache
def anions() -> tuple[Ion, ...]:
    """The negative ions."""
    return tuple(map(_ion, read_records("ions", "anions")))


@cache
def ions() -> Mapping[Formula, Ion]:
    """Every ion by its formula as the table writes it."""
    every = (*cations(), *anions())
    return MappingProxyType({ion.formula: ion for ion in every})


def ion_of(formula: Formula) -> Ion | None:
    """The ion that ``formula`` writes, in any of its writings."""
    found = ions().get(formula)
    if found is not None or not formula.charge:
        return found
    for ion in ions().values():
        if ion.charge == formula.charge and formula.parts in ion.writings:
            return ion
    return None


@cache
def acids() -> tuple[Acid, ...]:
    """The acids of the table's anions."""
    return tuple(ion.acid for ion in anions() if ion.acid)


def _ion(row: dict[str, Raw]) -> Ion:
    formula = parse_formula(str(row["formula"]))
    written = tuple(parse_formula(text).parts for text in words(row, "written"))
    return Ion(
        formula=formula,
        name=str(row["name"]),
        other_names=words(row, "also"),
        stock_name=_stock_name(formula, str(row["name"])),
        role=cast("Role", row["role"]),
        acid=_acid(row.get("acid")),
        is_usual=row.get("usual") == "yes",
        leads=row.get("leads") == "yes",
        partners=frozenset(map(parse_formula, words(row, "with"))),
        writings=(formula.parts, *written, *_unbracketed(formula)),
    )


def _acid(row: Raw | None) -> Acid | None:
    if not isinstance(row, dict):
        return None
    formula = parse_formula(str(row["formula"]))
    return Acid(formula, words(row, "names"), row.get("strength") == "strong")


def _stock_name(formula: Formula, name: str) -> str | None:
    metal = len(formula.atoms) == 1 and formula.charge > 0 and "H" not in formula.atoms
    return f"{name}({ROMAN[formula.charge]})" if metal and "(" not in name else None


def _unbracketed(formula: Formula) -> tuple[Body, ...]:
    """A complex as it is often typed, K4Fe(CN)6, without its square brackets."""
    match formula.parts:
        case (Group("[", parts, 1),):
            return (parts,)
        case _:
            return ()


def _states() -> tuple[Ion, ...]:
    found: list[Ion] = []
    for row in read_rows("ions", "states"):
        symbol = row["element"]
        for state in map(int, row["states"].split()):
            formula = Formula((Atom(symbol),), state)
            name = f"{elements()[symbol].name}({ROMAN[state]})"
            found.append(Ion(formula, name, writings=(formula.parts,), in_water=False))
    return tuple(found)
