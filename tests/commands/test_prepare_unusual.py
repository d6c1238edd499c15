"""What is unknown to students, dissolved in something else, or cannot be made."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from tests.commands.preparing import (
    MANUAL,
    Report,
    Run,
    named,
    prepared,
    row_of,
    rows_of,
)

ODD = """\
---
title: Odd
chemicals:
  - potassium bromide, 0.10 mol/dm3, 1000000 dm3
  - potassium nitrate, 1e-12 mol/dm3, 20 cm3
  - sodium hydroxide, 0.1 to 0.2 mol/dm3, 5 to 10 cm3
  - potassium iodide, 0.10 mol/dm3, 0 cm3
  - sodium chloride, 7.0 mol/dm3, 20 cm3
  - {name: iodine, strength: 0.05 mol/dm3, amount: 5 cm3, in: ethanol}
  - {name: silver nitrate, strength: 0.05 mol/dm3, amount: 5 cm3, in: "nitric acid, 0.10 mol/dm3", spare: 50 %}
  - {shown: white solid, sets: {groups 1-2: sodium carbonate, groups 3-9: ammonium chloride}, amount: 2 g}
  - zinc, 2 g
---

## Method

1. Look.

## Disposal

All solutions, solids and residues are collected in labelled bottles.
"""


@pytest.fixture
def odd(content: Callable[[Mapping[str, str]], Path], capsys: Run) -> dict[str, Any]:
    manual = MANUAL.replace("[salts, lessons, stations, broken]", "[odd]")
    return prepared(content({"manual.yaml": manual, "odd.md": ODD}), capsys, "odd:4")


def test_an_unknown_is_labelled_with_what_students_are_shown(report: Report) -> None:
    found = report("salts:4")
    rows = [r for r in rows_of(found, "fill") if r["what"].startswith("solution Q")]
    assert [r["what"] for r in rows] == [
        "solution Q, groups 1 to 2",
        "solution Q, groups 3 to 4",
    ]
    assert "no more. It is potassium nitrate" in rows[1]["how"][0]
    assert named(found, "solutions", "potassium nitrate")["shown"] == ["solution Q"]


def test_groups_that_no_set_names_are_asked_about(report: Report) -> None:
    asked = [a for a in report("salts:6")["ask"] if a["what"] == "solution Q"]
    assert "groups 5, 6" in asked[0]["why"]


def test_what_cannot_be_made_is_asked_about_and_the_rest_is_made(
    odd: dict[str, Any],
) -> None:
    asked = {a["what"]: a["why"] for a in odd["ask"]}
    assert "more than 200 dm³" in asked["potassium bromide"]
    assert "too little of it to weigh" in asked["potassium nitrate"]
    assert "does not dissolve" in asked["sodium chloride"]
    made = {s["name"] for s in odd["solutions"] if s["make_volume"]}
    assert {"sodium hydroxide", "iodine", "silver nitrate", "nitric acid"} <= made


def test_what_something_is_dissolved_in_is_made_before_it(odd: dict[str, Any]) -> None:
    # By hand: 4 × 5 cm³ and half as much again, 30 cm³, is all that the silver takes.
    codes = {s["name"]: s["code"] for s in odd["solutions"]}
    assert codes["nitric acid"] < codes["silver nitrate"]
    silver = named(odd, "solutions", "silver nitrate")
    assert silver["total_volume"]["value"] == 30
    assert named(odd, "solutions", "nitric acid")["total_volume"]["value"] == 30
    told = " ".join(row_of(odd, "dilute", "silver nitrate")["how"])
    assert f"nitric acid, 0.10 mol dm⁻³ ({codes['nitric acid']})" in told.replace(
        "\u00a0", " "
    )


def test_iodine_in_ethanol_needs_no_iodide(odd: dict[str, Any]) -> None:
    code = named(odd, "solutions", "iodine")["code"]
    weighed = [r["what"] for r in rows_of(odd, "weigh") if r["code"] == code]
    assert len(weighed) == 1
    told = " ".join(row_of(odd, "dilute", "iodine")["how"])
    assert "iodide" not in told
    assert not any("iodide" in what for what in weighed)


def test_an_unknown_solid_goes_into_pots_with_its_shown_name(
    odd: dict[str, Any],
) -> None:
    rows = [r for r in rows_of(odd, "fill") if r["what"].startswith("white solid")]
    assert [r["what"].partition(", ")[2] for r in rows] == [
        "groups 1 to 2",
        "groups 3 to 4",
    ]
