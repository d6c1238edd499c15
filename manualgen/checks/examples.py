"""An example for each check: what falls short, and the same mended.

``manualgen explain`` prints them and the tests run them: the first text gives
just that finding, the second none of that name.  They stand in
``manualgen/data/examples/``, a file for each module of checks.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import yaml

BARE_EXPERIMENT = """\
---
title: Example
---

"""
BARE_METHOD = """
## Method

1. Look.
"""


@dataclass(frozen=True, slots=True)
class Example:
    """Two small sources about one check."""

    check: str
    falls_short: str
    mended: str
    manual: str
    """Lines for manual.yaml, where the example needs any."""
    chemicals: str
    """The whole of chemicals.yaml, where the example needs one."""


@cache
def examples() -> dict[str, Example]:
    """The example of every check, by its name."""
    found: dict[str, Example] = {}
    for table in files("manualgen.data").joinpath("examples").iterdir():
        rows = yaml.load(table.read_text("utf-8"), yaml.CBaseLoader)
        for name, row in rows.items():
            found[name] = Example(
                name,
                row["falls_short"],
                row["mended"],
                row.get("manual", ""),
                row.get("chemicals", ""),
            )
    return found


def whole_source(text: str) -> str:
    """A whole experiment from an example that shows only what matters."""
    whole = text if text.startswith("---") else BARE_EXPERIMENT + text
    return whole if "## Method" in whole else whole.rstrip() + "\n" + BARE_METHOD
