"""A small manual to prepare from, and what is looked up in the report of it."""

from __future__ import annotations

import json
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import Any, TypeAlias

import jsonschema
import pytest

from manualgen.cli import main

Run: TypeAlias = pytest.CaptureFixture[str]
Report: TypeAlias = Callable[..., dict[str, Any]]

SALTS = """\
---
title: Salts
chemicals:
  - sodium chloride, 0.500 mol/dm3, 80 cm3
  - silver nitrate, 0.0500 mol/dm3, 4 cm3
  - phenolphthalein solution, 3 drops
  - sodium carbonate, 1.20 g, weighed out
  - sulfuric acid, 1.0 mol/dm3, 100 cm3, 2 per class
  - sodium thiosulfate, 0.10 mol/dm3, 50 cm3, for disposal, 1 per class
  - magnesium ribbon, 3 cm
  - {shown: solution Q, sets: {groups 1-2: sodium chloride, groups 3-4: potassium nitrate}, strength: 0.20 mol/dm3, amount: 10 cm3}
apparatus:
  - 2 test tubes
  - burette, 50 cm3, class B
  - balance, reading to 0.01 g, 2 per class
---

## Method

1. Pour the sodium chloride into the test tubes.

## Disposal

The silver goes into the bottle labelled "silver residues".

## For the preparation room

Brown bottles for the `AgNO3`; `5 cm3` in each.
"""

LESSONS = """\
---
title: Lessons
chemicals:
  - sodium chloride, 0.50 mol/dm3, 60 cm3
  - hydrochloric acid, 2.0 mol/dm3, 40 cm3
apparatus:
  - test tube
  - conical flask
---

## Method

### Lesson 1 (20 min)

1. Pour `10 cm3` of the sodium chloride into the test tube.

### Lesson 2 (20 min)

2. Pour `40 cm3` of the hydrochloric acid into the conical flask.

3. Add `50 cm3` of the sodium chloride.
"""

STATIONS = """\
---
title: Stations
chemicals:
  - sodium chloride, 0.50 mol/dm3, 60 cm3, 2 per station
apparatus:
  - beaker, 3 per station
---

## Method

### Station A (10 min)

1. Pour the sodium chloride into the beaker.

### Station B (10 min)

2. Look at the beaker.
"""

BROKEN = """\
---
title: Broken
---

## Method

1. See `Xy`.
"""

MANUAL = """\
title: Test
standing_controls:
  - Eye protection and gloves are worn by everyone; no flames are lit; the fume cupboard is used.
parts:
  - title: All
    experiments: [salts, lessons, stations, broken]
"""

FILES = {
    "manual.yaml": MANUAL,
    "salts.md": SALTS,
    "lessons.md": LESSONS,
    "stations.md": STATIONS,
    "broken.md": BROKEN,
}

SCHEMA = json.loads(
    files("manualgen.data").joinpath("schemas", "prepare.json").read_text("utf-8")
)


def prepared(folder: Path, out: Run, *words: str) -> dict[str, Any]:
    """The JSON report on a content folder, which keeps to its schema."""
    given = ["prepare", *words, "--content", str(folder), "--format", "json"]
    assert main(given) == 0
    found = json.loads(out.readouterr().out)
    jsonschema.validate(found, SCHEMA)
    assert isinstance(found, dict)
    return found


def named(found: dict[str, Any], kind: str, name: str) -> dict[str, Any]:
    """The one entry of a list that has this name."""
    each = [entry for entry in found[kind] if entry["name"] == name]
    assert len(each) == 1, [entry["name"] for entry in found[kind]]
    assert isinstance(each[0], dict)
    return each[0]


def rows_of(found: dict[str, Any], action: str) -> list[dict[str, Any]]:
    """The rows of an action."""
    return [r for a in found["actions"] if a["action"] == action for r in a["rows"]]


def row_of(found: dict[str, Any], action: str, what: str) -> dict[str, Any]:
    """The first row of an action that speaks of this."""
    return next(r for r in rows_of(found, action) if what in r["what"])
