"""Findings as SARIF 2.1.0 (OASIS), for a code host to show on changed lines."""

from __future__ import annotations

import inspect
import json
from collections.abc import Iterable
from importlib.metadata import version
from pathlib import PurePath
from urllib.parse import quote

from manualgen.checks import CHECKS, Check
from manualgen.checks.examples import examples
from manualgen.model.finding import Edit, Finding, Severity
from manualgen.model.place import Place

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/"
    "sarif-schema-2.1.0.json"
)
_LEVELS = {
    Severity.ERROR: "error",
    Severity.WARNING: "warning",
    Severity.NOTE: "note",
}


def findings_as_sarif(findings: Iterable[Finding]) -> str:
    """One run with a rule for every check and a result for every finding.

    Where a mend is only another writing of the same thing, the result has it as
    a fix that a code host can offer.
    """
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": _driver()},
                "columnKind": "unicodeCodePoints",
                "results": [_result(f) for f in findings],
            }
        ],
    }
    return json.dumps(log, ensure_ascii=False, indent=2) + "\n"


def _driver() -> dict[str, object]:
    return {
        "name": "manualgen",
        "version": version("manualgen"),
        "rules": [_rule(check) for check in CHECKS.values()],
    }


def _rule(check: Check) -> dict[str, object]:
    rule = " ".join(inspect.cleandoc(check.rule).split()).replace("``", "`")
    return {
        "id": check.name,
        "shortDescription": {"text": rule.split(". ")[0].rstrip(".") + "."},
        "fullDescription": {"text": rule},
        "help": {"text": _help(check.name)},
        "defaultConfiguration": {"level": _LEVELS[check.severity]},
        "properties": {"tags": [check.family]},
    }


def _help(check: str) -> str:
    example = examples()[check]
    return (
        f"Falls short:\n\n{example.falls_short.rstrip()}\n\n"
        f"Mended:\n\n{example.mended.rstrip()}\n"
    )


def _result(finding: Finding) -> dict[str, object]:
    fault = finding.fault
    mend = f"\nMend: {fault.mend}" if fault.mend else ""
    result: dict[str, object] = {
        "ruleId": finding.check,
        "ruleIndex": list(CHECKS).index(finding.check),
        "level": _LEVELS[finding.severity],
        "message": {"text": fault.message + mend},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": _artifact(finding.place),
                    "region": _region(finding.place),
                }
            }
        ],
    }
    if fault.edit:
        result["fixes"] = [_fix(fault.edit)]
    return result


def _fix(edit: Edit) -> dict[str, object]:
    replacement = {
        "deletedRegion": _region(edit.place),
        "insertedContent": {"text": edit.replacement},
    }
    change = {
        "artifactLocation": _artifact(edit.place),
        "replacements": [replacement],
    }
    return {
        "description": {"text": f"Write {edit.replacement}"},
        "artifactChanges": [change],
    }


def _artifact(place: Place) -> dict[str, object]:
    path = PurePath(place.file)
    return {"uri": path.as_uri() if path.is_absolute() else quote(path.as_posix())}


def _region(place: Place) -> dict[str, object]:
    return {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }
