"""What was found in a manual the last time, for a build that need not look again.

A manual that may be printed can still have warnings and notes, and an author
who builds it again wants to see them again.  They are kept beside the prints,
under the digest of all that they came from and sealed like them; where there is
no such report, the manual is checked once more.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import astuple, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from manualgen.build.manifest import Inputs
from manualgen.model.finding import Fault, Finding, Severity
from manualgen.model.place import Place
from manualgen.press.store import Store

if TYPE_CHECKING:
    from manualgen.working.worked import Worked


@dataclass(frozen=True, slots=True)
class Report:
    """What was found, and in which texts."""

    findings: tuple[Finding, ...]
    lines: Mapping[str, tuple[str, ...]]
    """Every file that was read; the text only of those with findings."""
    experiments: int

    def line_of(self, place: Place) -> str:
        """The source line at which a place starts, or nothing if unknown."""
        return place.line_in(self.lines)


def report_of(worked: Worked, findings: Iterable[Finding]) -> Report:
    """What is to be kept of a check."""
    found = tuple(findings)
    told_of = {f.place.file for f in found}
    lines = {f: (text if f in told_of else ()) for f, text in worked.lines.items()}
    return Report(found, lines, len(worked.experiments))


def keep_report(folder: Path, inputs: Inputs, report: Report) -> None:
    """Keep a report for the next build."""
    told = {
        "version": 1,
        "experiments": report.experiments,
        "lines": report.lines,
        "findings": [_told(finding) for finding in report.findings],
    }
    text = json.dumps(told, ensure_ascii=False)
    Store(folder).keep(_name(inputs), text.encode())


def kept_report(folder: Path, inputs: Inputs) -> Report | None:
    """The report that was kept of these inputs, if it is there and sound."""
    text = Store(folder).find(_name(inputs))
    if text is None:
        return None
    told = json.loads(text)  # it is sealed, so a build has written it
    return Report(
        tuple(map(_finding, told["findings"])),
        {file: tuple(lines) for file, lines in told["lines"].items()},
        told["experiments"],
    )


def _name(inputs: Inputs) -> str:
    text = json.dumps(inputs, sort_keys=True).encode()
    return f"{hashlib.sha256(text).hexdigest()}.report"


def _told(finding: Finding) -> dict[str, object]:
    return {
        "check": finding.check,
        "severity": finding.severity.value,
        "message": finding.fault.message,
        "mend": finding.fault.mend,
        "experiment": finding.experiment,
        "place": astuple(finding.place),
    }


def _finding(told: Mapping[str, Any]) -> Finding:
    fault = Fault(Place(*told["place"]), told["message"], told["mend"])
    severity = Severity(told["severity"])
    return Finding(told["check"], severity, fault, told["experiment"])
