"""The knowledge tables as plain text, with what is needed to take a row apart.

Every scalar stays a string until its meaning is known: the formula ``NO`` is
nitrogen monoxide and no *false*, ``0.10`` keeps its nought.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import TypeAlias

import yaml

Raw: TypeAlias = "str | list[Raw] | dict[str, Raw]"


@dataclass(frozen=True, slots=True)
class Row:
    """A mapping of a table, of which a caller asks by key and kind."""

    cells: Mapping[str, Raw]

    def __contains__(self, key: str) -> bool:
        return key in self.cells

    def text(self, key: str, default: str = "") -> str:
        """A scalar, or the default where the row does not have it."""
        cell = self.cells.get(key, default)
        if not isinstance(cell, str):
            raise TypeError(f"{key} is no text: {cell!r}")
        return cell

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of scalars; one scalar is a list of one; nothing is none."""
        cell = self.cells.get(key, [])
        if isinstance(cell, str):
            return (cell,) if cell else ()
        return tuple(str(item) for item in cell)

    def number(self, key: str) -> Decimal | None:
        """A decimal number, or None where the row does not have it."""
        return Decimal(self.text(key)) if key in self.cells else None

    def numbers(self, key: str) -> tuple[tuple[str, Decimal], ...]:
        """A mapping of words to decimal numbers, in the table's order."""
        cell = self.cells.get(key, {})
        if not isinstance(cell, dict):
            raise TypeError(f"{key} is no mapping: {cell!r}")
        return tuple((word, Decimal(str(n))) for word, n in cell.items())

    def row(self, key: str) -> Row:
        """A mapping within the row."""
        cell = self.cells.get(key, {})
        if not isinstance(cell, dict):
            raise TypeError(f"{key} is no mapping: {cell!r}")
        return Row(cell)

    def rows(self, key: str) -> Iterator[Row]:
        """The mappings of a list within the row."""
        for cell in self.cells.get(key, []):
            if not isinstance(cell, dict):
                raise TypeError(f"{key} holds what is no mapping: {cell!r}")
            yield Row(cell)

    def families(self, key: str) -> Iterator[Row]:
        """The lists of a list within the row, each as a row with ``rows``."""
        for cell in self.cells.get(key, []):
            yield Row({"rows": cell})


@cache
def read_table(name: str) -> Row:
    """The table ``manualgen/data/NAME.yaml``, read once."""
    text = (files("manualgen") / "data" / f"{name}.yaml").read_text(encoding="utf-8")
    return Row(yaml.load(text, Loader=yaml.CBaseLoader))
