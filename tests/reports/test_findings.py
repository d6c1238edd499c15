"""Findings as a person reads them, and as a program does."""

from __future__ import annotations

import json
from collections.abc import Callable
from importlib.resources import files

import jsonschema

from manualgen.build import check
from manualgen.reports.json_report import findings_as_json
from manualgen.reports.text import findings_as_text, summary_line
from manualgen.working.worked import Worked

SOURCE = "---\ntitle: T\n---\n\n## Method\n\n1. Weigh `5 gms` of water.\n"


def test_a_finding_shows_the_line_a_caret_the_mend_and_the_check(
    work_out: Callable[..., Worked],
) -> None:
    worked = work_out(SOURCE)
    found = [f for f in check(worked) if f.check == "unit-style"]
    told = findings_as_text(worked, found).splitlines()
    assert told[0].endswith("[unit-style]")
    assert "example.md:7:13: warning:" in told[0]
    assert told[1] == "    1. Weigh `5 gms` of water."
    assert told[2] == "                ^^^"
    assert told[3].strip().endswith(" g")


def test_colour_is_never_the_only_sign(work_out: Callable[..., Worked]) -> None:
    worked = work_out(SOURCE)
    plain = findings_as_text(worked, check(worked))
    coloured = findings_as_text(worked, check(worked), colour=True)
    assert "\x1b" not in plain
    assert "\x1b" in coloured
    assert "warning" in plain


def test_the_summary_counts_by_severity(work_out: Callable[..., Worked]) -> None:
    worked = work_out(SOURCE)
    found = [f for f in check(worked) if f.check == "unit-style"]
    assert summary_line(worked, found) == "2 files: no errors, 1 warning, no notes"


def test_the_json_report_keeps_to_its_schema(work_out: Callable[..., Worked]) -> None:
    worked = work_out(SOURCE)
    report = json.loads(findings_as_json(worked, check(worked)))
    schema = files("manualgen.data").joinpath("schemas", "check.json")
    jsonschema.validate(report, json.loads(schema.read_text(encoding="utf-8")))
    assert next(iter(report)) == "version"
    assert report["summary"]["files"] == 2
