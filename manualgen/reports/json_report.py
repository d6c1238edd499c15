"""Findings as JSON, version 1; its schema is data/schemas/check.json."""

from __future__ import annotations

import json
from collections.abc import Sequence

from manualgen.model.finding import Finding, Severity
from manualgen.reports.text import count_by_severity
from manualgen.working.worked import Worked


def findings_as_json(worked: Worked, findings: Sequence[Finding]) -> str:
    """The report of ``manualgen check --format json``."""
    counts = count_by_severity(findings)
    report = {
        "version": 1,
        "findings": [_finding(f) for f in findings],
        "summary": {
            "files": len(worked.lines),
            "errors": counts[Severity.ERROR],
            "warnings": counts[Severity.WARNING],
            "notes": counts[Severity.NOTE],
        },
    }
    return json.dumps(report, ensure_ascii=False, indent=2) + "\n"


def _finding(finding: Finding) -> dict[str, object]:
    place = finding.place
    return {
        "check": finding.check,
        "severity": finding.severity.value,
        "file": place.file,
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
        "experiment": finding.experiment,
        "message": finding.fault.message,
        "suggestion": finding.fault.mend,
    }
