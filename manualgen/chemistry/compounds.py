"""Substances with names of their own: elements, molecules, trade names, double salts.

What the ion table can name is not repeated here (`names`).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, TypeAlias, cast

from manualgen.chemistry._tables import read_records, words
from manualgen.chemistry.formula import Formula
from manualgen.chemistry.formula_text import parse_formula

if TYPE_CHECKING:
    from collections.abc import Mapping

    from manualgen.chemistry._tables import Raw
    from manualgen.chemistry.equation import State
    from manualgen.chemistry.formula import Count

Electrolyte: TypeAlias = Literal["weak", "none"]
Composition: TypeAlias = "tuple[int, frozenset[tuple[str, Count]]]"

_SECTIONS = ("elements", "molecular", "organic", "salts", "trade")


@dataclass(frozen=True, slots=True)
class Compound:
    """A row of the table."""

    name: str
    formula: Formula
    other_names: tuple[str, ...] = ()
    loose_names: tuple[str, ...] = ()
    """Names of other substances by which it goes in a shop."""
    writings: tuple[Formula, ...] = ()
    """Other formulas of the same structure."""
    state: State | None = None
    """At 20 °C and 101 kPa."""
    density: Decimal | None = None
    """Of the pure liquid at 20 °C, in g/cm3."""
    electrolyte: Electrolyte | None = None
    is_trade_name: bool = False
    """The substance itself is named from its ions."""

    @property
    def formulas(self) -> tuple[Formula, ...]:
        """Every writing of its formula, the usual one first."""
        return (self.formula, *self.writings)

    @property
    def names(self) -> tuple[str, ...]:
        """Every name, the one that is written first."""
        return (self.name, *self.other_names)


@cache
def compounds() -> tuple[Compound, ...]:
    """Every row, in the order of the table."""
    return tuple(
        _compound(row, trade=section == "trade")
        for section in _SECTIONS
        for row in read_records("compounds", section)
    )


@cache
def compounds_by_formula() -> Mapping[Formula, Compound]:
    """The rows that name a substance, by every writing of its formula."""
    found: dict[Formula, Compound] = {}
    for compound in compounds():
        if not compound.is_trade_name:
            for formula in compound.formulas:
                found.setdefault(formula, compound)
    return MappingProxyType(found)


@cache
def compounds_by_composition() -> Mapping[Composition, tuple[Compound, ...]]:
    """The rows that name a substance, by what it is made of; isomers together."""
    found: dict[Composition, tuple[Compound, ...]] = {}
    for compound in compounds():
        if not compound.is_trade_name:
            for made_of in {composition(formula) for formula in compound.formulas}:
                found[made_of] = (*found.get(made_of, ()), compound)
    return MappingProxyType(found)


def composition(formula: Formula) -> Composition:
    """What a formula is made of, however it is written: its charge and atoms."""
    return formula.charge, frozenset(formula.atoms.items())


def compound_of(formula: Formula) -> Compound | None:
    """The substance that a formula means, if the table has it.

    A formula that no row writes is taken by its composition, where only one
    substance has it.
    """
    exact = compounds_by_formula().get(formula)
    if exact is not None or formula.unknown:
        return exact
    alike = compounds_by_composition().get(composition(formula), ())
    return alike[0] if len(alike) == 1 else None


def is_listed(formula: Formula) -> bool:
    """Whether a substance of the table has this composition."""
    return composition(formula) in compounds_by_composition()


def density(formula: Formula) -> Decimal | None:
    """Of the pure liquid at 20 °C, in g/cm3, where the table has it."""
    found = compound_of(formula)
    return found.density if found else None


def _compound(row: dict[str, Raw], *, trade: bool) -> Compound:
    weight = row.get("density")
    return Compound(
        name=str(row["name"]),
        formula=parse_formula(str(row["formula"])),
        other_names=words(row, "also"),
        loose_names=words(row, "loosely"),
        writings=tuple(map(parse_formula, words(row, "written"))),
        state=cast("State | None", row.get("state")),
        density=None if weight is None else Decimal(str(weight)),
        electrolyte=cast("Electrolyte | None", row.get("electrolyte")),
        is_trade_name=trade,
    )
