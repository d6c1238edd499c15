"""SARIF as the standard has it: valid against its schema, places and fixes exact."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest

from manualgen.cli import main

SCHEMA = json.loads((Path(__file__).parent / "sarif-2.1.0.json").read_text("utf-8"))

# Errors, warnings and a note; two of them are only a matter of writing, and the
# file's name has to be percent-encoded (RFC 3986) to be a URI.
FAULTY = """\
---
title: Faulty
accept:
  - {check: marks-missing, why: Nothing here has marks.}
chemicals:
  - phlogiston, 2 g
---

## Theory

µ `Fe2+` is green. `Xy` is nothing, and `O2-` may be either.

```equation
Al(s) + O2(g) -> Al2O3(s)
```

## Method

1. Weigh `12 gms` of phlogiston.
"""


@pytest.fixture
def report(
    content: Callable[[Mapping[str, str]], Path],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> dict[str, Any]:
    folder = content({"a fault é.md": FAULTY})
    monkeypatch.chdir(folder.parent)
    assert main(["check", "content", "--format", "sarif"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def results(report: dict[str, Any]) -> list[dict[str, Any]]:
    (run,) = report["runs"]
    found = run["results"]
    assert isinstance(found, list)
    return found


def text_of(region: dict[str, int], source: str) -> str:
    """The characters of a region; SARIF 2.1.0, 3.30: its end column is excluded."""
    assert region["startLine"] == region["endLine"]
    line = source.splitlines()[region["startLine"] - 1]
    return line[region["startColumn"] - 1 : region["endColumn"] - 1]


def test_a_report_of_every_severity_is_valid(report: dict[str, Any]) -> None:
    jsonschema.Draft4Validator(
        SCHEMA, format_checker=jsonschema.FormatChecker()
    ).validate(report)
    assert {r["level"] for r in results(report)} == {"error", "warning", "note"}


def test_the_validator_would_see_a_fault(report: dict[str, Any]) -> None:
    results(report)[0]["level"] = "grave"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft4Validator(SCHEMA).validate(report)


def test_every_result_names_its_rule(report: dict[str, Any]) -> None:
    rules = report["runs"][0]["tool"]["driver"]["rules"]
    for result in results(report):
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]


def test_places_are_of_the_file_as_it_is_committed(report: dict[str, Any]) -> None:
    located = {
        (r["ruleId"], text_of(place["region"], FAULTY))
        for r in results(report)
        for place in [r["locations"][0]["physicalLocation"]]
        if unquote(place["artifactLocation"]["uri"]) == "content/a fault é.md"
    }
    assert ("formula-invalid", "Xy") in located
    assert ("unit-style", "gms") in located


def test_only_another_writing_of_the_same_thing_is_offered_as_a_fix(
    report: dict[str, Any],
) -> None:
    fixes = [
        (text_of(each["deletedRegion"], FAULTY), each["insertedContent"]["text"])
        for r in results(report)
        for fix in r.get("fixes", ())
        for change in fix["artifactChanges"]
        for each in change["replacements"]
    ]
    assert sorted(fixes) == [("12 gms", "12 g"), ("2+", "^2+")]


def test_what_sarif_offers_is_what_fix_makes(
    content: Callable[[Mapping[str, str]], Path],
) -> None:
    folder = content({"faulty.md": FAULTY})
    main(["check", str(folder), "--fix"])
    mended = FAULTY.replace("Fe2+", "Fe^2+").replace("12 gms", "12 g")
    assert (folder / "faulty.md").read_text(encoding="utf-8") == mended


def test_a_folder_outside_is_named_by_a_file_uri(
    content: Callable[[Mapping[str, str]], Path], capsys: pytest.CaptureFixture[str]
) -> None:
    folder = content({"faulty.md": FAULTY})
    main(["check", str(folder), "--format", "sarif"])
    found = results(json.loads(capsys.readouterr().out))
    uris = {
        r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for r in found
    }
    assert uris == {(folder / "faulty.md").as_uri()}
