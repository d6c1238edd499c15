"""`manualgen prepare`: a day's work for the technician, set out by action."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable, Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any, TypeAlias

import jsonschema
import pytest
from molmass import Formula as Molecule
from pint import UnitRegistry

from manualgen.cli import main

Run: TypeAlias = pytest.CaptureFixture[str]
Write: TypeAlias = Callable[[Mapping[str, str]], Path]

UNITS: UnitRegistry[float] = UnitRegistry()
SCHEMA = json.loads(
    files("manualgen.data").joinpath("schemas", "prepare.json").read_text("utf-8")
)

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

MANUAL = """\
title: Test
standing_controls:
  - Eye protection and gloves are worn by everyone; no flames are lit; the fume cupboard is used.
parts:
  - title: All
    experiments: [salts, lessons, stations, broken]
"""

BROKEN = """\
---
title: Broken
---

## Method

1. See `Xy`.
"""


@pytest.fixture
def folder(content: Write) -> Path:
    return content(
        {
            "manual.yaml": MANUAL,
            "salts.md": SALTS,
            "lessons.md": LESSONS,
            "stations.md": STATIONS,
            "broken.md": BROKEN,
        }
    )


@pytest.fixture
def report(folder: Path, capsys: Run) -> Callable[..., dict[str, Any]]:
    def prepared(*words: str) -> dict[str, Any]:
        given = ["prepare", *words, "--content", str(folder), "--format", "json"]
        assert main(given) == 0
        found = json.loads(capsys.readouterr().out)
        jsonschema.validate(found, SCHEMA)
        assert isinstance(found, dict)
        return found

    return prepared


Report: TypeAlias = Callable[..., dict[str, Any]]


def named(found: dict[str, Any], kind: str, name: str) -> dict[str, Any]:
    each = [entry for entry in found[kind] if entry["name"] == name]
    assert len(each) == 1, [entry["name"] for entry in found[kind]]
    assert isinstance(each[0], dict)
    return each[0]


def rows_of(found: dict[str, Any], action: str) -> list[dict[str, Any]]:
    return [r for a in found["actions"] if a["action"] == action for r in a["rows"]]


def row_of(found: dict[str, Any], action: str, what: str) -> dict[str, Any]:
    return next(r for r in rows_of(found, action) if what in r["what"])


def test_a_volume_is_what_the_groups_use_and_the_spare(report: Report) -> None:
    # By hand: 12 groups of 80 cm³ and a tenth is 1056 cm³, made as 1 dm³ and 100 cm³.
    salt = report("salts:12")["solutions"][0]
    assert salt["total_volume"] == {"value": 1056, "unit": "cm3"}
    assert salt["make_volume"] == {"value": 1.1, "unit": "dm3"}
    assert [m["value"] for m in salt["makings"]] == [1000, 100]


def test_a_mass_agrees_with_molmass_and_pint(report: Report) -> None:
    salt = report("salts:12")["solutions"][0]
    molar_mass = Molecule("NaCl").mass * UNITS.g / UNITS.mol
    strength, volume = 0.5 * UNITS.mol / UNITS.dm**3, 1100 * UNITS.cm**3
    expected = (molar_mass * strength * volume).to("g").magnitude
    assert salt["mass"]["value"] == pytest.approx(expected, abs=0.02)


def test_silver_is_made_as_much_as_is_needed(report: Report) -> None:
    # By hand: 12 × 4 cm³ × 1.1 = 52.8 cm³, for which a 100 cm³ flask is the least.
    silver = named(report("salts:12"), "solutions", "silver nitrate")
    assert sum(m["value"] for m in silver["makings"]) == 100
    assert silver["hazards"]["pictograms"] == ["GHS09"]


def test_a_dropping_bottle_holds_at_least_5_cm3(report: Report) -> None:
    found = report("salts:12")
    indicator = named(found, "solutions", "phenolphthalein solution")
    assert indicator["total_volume"]["value"] == 12 * 5
    told = " ".join(row_of(found, "fill", "phenolphthalein")["how"])
    assert "12 dropping bottles" in told


def test_what_the_class_shares_is_neither_multiplied_nor_given_a_spare(
    report: Report,
) -> None:
    found = report("salts:12")
    acid = named(found, "solutions", "sulfuric acid")
    assert acid["total_volume"]["value"] == 200
    balance = named(found, "apparatus", "balance")
    assert (balance["count"], balance["spare"], balance["shared"]) == (2, 0, True)


def test_what_a_station_shares_counts_for_each_station_that_uses_it(
    report: Report,
) -> None:
    # Station A alone names the sodium chloride; both name the beaker.
    found = report("stations:12")
    assert named(found, "solutions", "sodium chloride")["total_volume"]["value"] == 120
    assert named(found, "apparatus", "beaker")["count"] == 6


def test_apparatus_rounds_its_spare_up(report: Report) -> None:
    tubes = named(report("salts:12"), "apparatus", "test tubes")
    assert (tubes["count"], tubes["spare"]) == (24, 3)
    burette = named(report("salts:12"), "apparatus", "burette")
    assert (burette["capacity"], burette["class"]) == ("50 cm3", "B")


def test_what_is_weighed_out_goes_into_a_container_for_each_group(
    report: Report,
) -> None:
    found = report("salts:12")
    weighed = row_of(found, "weigh", "sodium carbonate")
    assert weighed["amount"].split() == ["1.20", "g"]
    assert "14 labelled containers" in weighed["how"][0]
    assert "2 spare" in weighed["how"][0]


def test_what_is_for_disposal_is_made_and_marked_so(report: Report) -> None:
    found = report("salts:12")
    assert (
        named(found, "solutions", "sodium thiosulfate")["total_volume"]["value"] == 50
    )
    set_out = row_of(found, "set_out", "sodium thiosulfate")
    assert "for disposal" in set_out["how"]


def test_pieces_are_counted(report: Report) -> None:
    set_out = row_of(report("salts:12"), "set_out", "magnesium ribbon")
    assert set_out["amount"] == "12 and 2 spare"


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


def test_the_same_solution_for_two_classes_is_made_once(report: Report) -> None:
    # By hand: (12 × 80 + 8 × 80) × 1.1 = 1760 cm³.
    found = report("salts:12", "salts:8")
    strong = [s for s in found["solutions"] if s["strength"] == "0.500 mol/dm³"]
    assert [s["total_volume"]["value"] for s in strong] == [1760]
    assert named(found, "apparatus", "test tubes")["count"] == 40
    headings = [a["heading"] for a in found["actions"] if a["action"] == "set_out"]
    assert headings == [
        "Set out: Salts, class 1, 12 groups",
        "Set out: Salts, class 2, 8 groups",
    ]


def test_two_experiments_share_a_solution_of_one_strength(report: Report) -> None:
    # 0.500 and 0.50 mol/dm³ are one solution; by hand (12 × 80 + 10 × 60) × 1.1.
    found = report("salts:12", "lessons:10")
    shared = [s for s in found["solutions"] if s["strength"] == "0.500 mol/dm³"]
    assert [s["total_volume"]["value"] for s in shared] == [1716]


def test_a_part_takes_what_its_steps_use(report: Report) -> None:
    first = report("lessons:10", "--part", "Lesson 1")
    assert [s["name"] for s in first["solutions"]] == ["sodium chloride"]
    assert first["solutions"][0]["total_volume"]["value"] == 110
    assert [p["name"] for p in first["apparatus"]] == ["test tube"]
    second = report("lessons:10", "--part", "lesson 2")
    assert named(second, "solutions", "sodium chloride")["total_volume"]["value"] == 550
    assert second["classes"][0]["part"] == "Lesson 2"


def test_groups_and_spare_are_the_manuals_unless_told(
    report: Report, folder: Path
) -> None:
    assert report("salts")["groups"] == 12
    assert report("salts", "--groups", "5")["groups"] == 5
    generous = report("salts:10", "--spare", "20%")
    assert generous["spare_percent"] == 20
    assert generous["solutions"][0]["total_volume"]["value"] == 960
    assert report("salts:10", "--spare", "0")["spare_percent"] == 0


def test_the_sheet_goes_by_action_and_in_the_order_of_the_work(
    report: Report,
) -> None:
    actions = [a["action"] for a in report("salts:12")["actions"]]
    assert actions == ["handle", "weigh", "dilute", "fill", "set_out", "put_back"]


def test_what_comes_back_has_a_route_and_the_manuals_own_words_come_first(
    report: Report,
) -> None:
    rows = rows_of(report("salts:12"), "put_back")
    assert rows[0]["what"] == "Salts: the manual says"
    silver = next(r for r in rows if "silver nitrate" in r["what"])
    assert "silver residues" in silver["how"][0]


def test_what_the_author_tells_the_technician_is_on_the_sheet(
    folder: Path, capsys: Run
) -> None:
    assert main(["prepare", "salts", "--content", str(folder)]) == 0
    told = capsys.readouterr().out
    assert "Brown bottles for the AgNO₃; 5 cm³ in each." in told


def test_the_text_has_a_box_to_tick_for_each_thing_to_do(
    folder: Path, report: Report, capsys: Run
) -> None:
    found = report("salts:12")
    main(["prepare", "salts:12", "--content", str(folder)])
    boxes = capsys.readouterr().out.count("[ ]")
    rows = sum(len(a["rows"]) for a in found["actions"])
    assert boxes == rows + len(found["ask"])


def test_the_csv_has_a_row_for_each_thing_to_do(
    folder: Path, report: Report, tmp_path: Path
) -> None:
    found = report("salts:12")
    out = tmp_path / "salts.csv"
    words = ["prepare", "salts:12", "--content", str(folder), "--format", "csv"]
    assert main([*words, "--output", str(out)]) == 0
    rows = list(csv.reader(io.StringIO(out.read_text(encoding="utf-8"))))
    assert rows[0] == ["Action", "Code", "What", "Amount", "How"]
    assert {len(row) for row in rows} == {5}
    wanted = sum(len(a["rows"]) for a in found["actions"]) + len(found["ask"])
    assert len(rows) == wanted + 2


def test_only_the_named_experiments_own_faults_count(folder: Path, capsys: Run) -> None:
    assert main(["prepare", "salts", "--content", str(folder)]) == 0
    assert "broken.md" not in capsys.readouterr().err
    assert main(["prepare", "salts", "broken", "--content", str(folder)]) == 1
    assert "broken.md" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["salt"], "did you mean salts?"),
        (["salts:0"], "1 to 1000"),
        (["salts:many"], "1 to 1000"),
        (["salts:"], "1 to 1000"),
        (["salts", "--part", "Lesson 1"], "its Method has no parts"),
        (["lessons", "--part", "Lesson 9"], "it has Lesson 1, Lesson 2"),
        (["salts", "--spare", "much"], "write it as 10%"),
        (["salts", "--spare", "150%"], "0% to 100%"),
        (["salts", "--groups", "0"], "1 to 1000"),
    ],
)
def test_wrong_words_are_2_and_say_what_to_write(
    folder: Path, words: list[str], told: str, capsys: Run
) -> None:
    try:
        status = main(["prepare", *words, "--content", str(folder)])
    except SystemExit as end:
        status = int(end.code or 0)
    assert status == 2
    assert told in capsys.readouterr().err


def test_a_file_that_cannot_be_written_is_3(folder: Path, capsys: Run) -> None:
    out = folder / "no-such-folder" / "day.csv"
    words = ["prepare", "salts", "--content", str(folder), "--format", "csv"]
    assert main([*words, "--output", str(out)]) == 3
    assert "cannot write" in capsys.readouterr().err


@pytest.mark.parametrize("form", ["text", "json", "csv"])
def test_nothing_is_called_safe_and_everything_defers(
    folder: Path, form: str, capsys: Run
) -> None:
    words = ["prepare", "salts", "lessons", "stations", "--content", str(folder)]
    assert main([*words, "--format", form]) == 0
    told = " ".join(capsys.readouterr().out.split()).casefold()
    assert not re.search(r"\b(?:un)?safe(?:ly)?\b|\bharmless\b", told)
    for whose in (
        "employer’s risk assessment",
        "local rules",
        "current safety data sheet",
    ):
        assert whose in told


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
def odd(content: Write, capsys: Run) -> dict[str, Any]:
    manual = MANUAL.replace("[salts, lessons, stations, broken]", "[odd]")
    folder = content({"manual.yaml": manual, "odd.md": ODD})
    words = ["prepare", "odd:4", "--content", str(folder), "--format", "json"]
    assert main(words) == 0
    found = json.loads(capsys.readouterr().out)
    jsonschema.validate(found, SCHEMA)
    assert isinstance(found, dict)
    return found


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
