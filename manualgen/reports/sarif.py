"""Findings as SARIF 2.1.0 (OASIS), for a code host to show on changed lines."""

from __future__ import annotations

import json
from collections.abc import Iterable
from importlib.metadata import version

from manualgen.checks import CHECKS, Check
from manualgen.model.finding import Finding, Severity

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
    """One run with a rule for every check and a result for every finding."""
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
    return {
        "id": check.name,
        "shortDescription": {"text": " ".join(check.rule.split())},
        "defaultConfiguration": {"level": _LEVELS[check.severity]},
        "properties": {"family": check.family},
    }


def _result(finding: Finding) -> dict[str, object]:
    mend = f"\nWrite: {finding.fault.mend}" if finding.fault.mend else ""
    return {
        "ruleId": finding.check,
        "ruleIndex": list(CHECKS).index(finding.check),
        "level": _LEVELS[finding.severity],
        "message": {"text": finding.fault.message + mend},
        "locations": [{"physicalLocation": _location(finding)}],
    }


def _location(finding: Finding) -> dict[str, object]:
    place = finding.place
    return {
        "artifactLocation": {"uri": place.file},
        "region": {
            "startLine": place.line,
            "startColumn": place.column,
            "endLine": place.end_line,
            "endColumn": place.end_column,
        },
    }
