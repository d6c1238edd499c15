"""The chemistry tables as plain text, read once.

Every scalar stays a string: a YAML reader that knew better would take the
formula ``NO`` for *false* and the symbol ``Y`` for *true*.
"""

from __future__ import annotations

from importlib.resources import files
from typing import TypeAlias

import yaml

Raw: TypeAlias = "str | list[Raw] | dict[str, Raw]"


def read_table(name: str) -> dict[str, Raw]:
    """The table ``manualgen/data/NAME.yaml``, all values as text."""
    text = (files("manualgen") / "data" / f"{name}.yaml").read_text(encoding="utf-8")
    table: dict[str, Raw] = yaml.load(text, Loader=yaml.CBaseLoader)
    return table


def read_rows(name: str, key: str) -> tuple[dict[str, str], ...]:
    """The rows under ``key`` of a table whose rows are flat mappings."""
    rows = read_table(name)[key]
    assert isinstance(rows, list)
    return tuple(
        {k: v for k, v in row.items() if isinstance(v, str)}
        for row in rows
        if isinstance(row, dict)
    )


def read_records(name: str, key: str) -> tuple[dict[str, Raw], ...]:
    """The rows under ``key`` of a table whose rows hold lists or mappings too."""
    rows = read_table(name)[key]
    assert isinstance(rows, list)
    return tuple(row for row in rows if isinstance(row, dict))


def words(row: dict[str, Raw], key: str) -> tuple[str, ...]:
    """The list of texts under ``key``; empty where the row has none."""
    found = row.get(key, [])
    assert isinstance(found, list)
    return tuple(str(word) for word in found)
