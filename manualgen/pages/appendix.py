"""The tables at the end of the manual, from the project's own data."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Final

import yaml

from manualgen.chemistry import Formula, edition, elements, parse_formula
from manualgen.chemistry.elements import Element
from manualgen.chemistry.ions import ion_of
from manualgen.knowledge.glassware import Glassware, all_glassware

_ROWS: Final = (2, 10, 18, 36, 54, 86, 118)
"""The atomic number that ends each period."""
_F_BLOCK: Final = (range(57, 72), range(89, 104))
LANTHANIDE_ROW: Final = 9


@dataclass(frozen=True, slots=True)
class ElementCell:
    """An element in its place: rows and columns count from 1."""

    row: int
    column: int
    number: int
    symbol: str
    weight: str


@dataclass(frozen=True, slots=True)
class IonRow:
    """An ion and its name."""

    formula: Formula
    name: str


@dataclass(frozen=True, slots=True)
class Appendix:
    """Everything that the appendix prints."""

    elements: tuple[ElementCell, ...]
    edition: str
    cations: tuple[IonRow, ...]
    anions: tuple[IonRow, ...]
    glassware: tuple[Glassware, ...]


@cache
def appendix() -> Appendix:
    """The periodic table, the ions and the tolerances of glassware."""
    return Appendix(
        tuple(_cell(element) for element in elements().values()),
        edition(),
        tuple(_ions(+1)),
        tuple(_ions(-1)),
        all_glassware(),
    )


def _cell(element: Element) -> ElementCell:
    number = element.atomic_number
    row, column = _place(number)
    weight = str(element.weight)
    if element.uncertainty is None:
        weight = f"[{weight}]"
    return ElementCell(row, column, number, element.symbol, weight)


def _place(number: int) -> tuple[int, int]:
    """Row and column in the table of 18 groups, the f-block below it."""
    for index, block in enumerate(_F_BLOCK):
        if number in block:
            return LANTHANIDE_ROW + index, number - block.start + 3
    row = next(i for i, last in enumerate(_ROWS) if number <= last)
    first = _ROWS[row - 1] + 1 if row else 1
    if number - first < (1 if row == 0 else 2):
        return row + 1, number - first + 1
    return row + 1, 18 - (_ROWS[row] - number)


def _ions(sign: int) -> Iterator[IonRow]:
    """The listed ions whose charge has this sign."""
    for formula in _listed_ions():
        ion = ion_of(parse_formula(formula))
        if ion and ion.charge * sign > 0:
            yield IonRow(ion.formula, ion.name)


def _listed_ions() -> list[str]:
    text = (files("manualgen") / "data" / "appendix.yaml").read_text(encoding="utf-8")
    ions: list[str] = yaml.load(text, Loader=yaml.CBaseLoader)["ions"]
    return ions
