"""What was found in a manual the last time, for a build that need not look again.

A manual that may be printed can still have warnings and notes, and an author
who builds it again wants to see them again.  They are kept beside the prints,
under the digest of all that they came from, and read back with suspicion: of
anything amiss there is simply no report, and the manual is checked once more.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import astuple, dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from manualgen.build.manifest import Inputs
from manualgen.model.finding import Fault, Finding, Severity
from manualgen.model.place import Place

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
        lines = self.lines.get(place.file, ())
        return lines[place.line - 1] if 0 < place.line <= len(lines) else ""


def report_of(worked: Worked, findings: Iterable[Finding]) -> Report:
    """What is to be kept of a check."""
    found = tuple(findings)
    told_of = {f.place.file for f in found}
    lines = {f: (text if f in told_of else ()) for f, text in worked.lines.items()}
    return Report(found, lines, len(worked.experiments))


def keep_report(folder: Path, inputs: Inputs, report: Report) -> None:
    """Keep a report; where that cannot be done, it is done without."""
    told = {
        "version": 1,
        "experiments": report.experiments,
        "lines": report.lines,
        "findings": [_told(finding) for finding in report.findings],
    }
    try:
        folder.mkdir(parents=True, exist_ok=True)
        unfinished = _place(folder, inputs).with_suffix(".new")
        unfinished.write_text(json.dumps(told, ensure_ascii=False), encoding="utf-8")
        unfinished.replace(_place(folder, inputs))
    except OSError:
        return


def kept_report(folder: Path, inputs: Inputs) -> Report | None:
    """The report that was kept of these inputs, if it is there and sound."""
    try:
        told = json.loads(_place(folder, inputs).read_text(encoding="utf-8"))
        report = Report(
            tuple(_finding(f) for f in told["findings"]),
            {_text(f): tuple(map(_text, t)) for f, t in told["lines"].items()},
            int(told["experiments"]),
        )
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None
    # No report of a manual with errors is kept, so such a one is forged.
    errors = any(f.severity is Severity.ERROR for f in report.findings)
    return None if errors else report


def _place(folder: Path, inputs: Inputs) -> Path:
    text = json.dumps(inputs, sort_keys=True).encode()
    return folder / f"{hashlib.sha256(text).hexdigest()}.report"


def _told(finding: Finding) -> dict[str, object]:
    return {
        "check": finding.check,
        "severity": finding.severity.value,
        "message": finding.fault.message,
        "mend": finding.fault.mend,
        "experiment": finding.experiment,
        "place": astuple(finding.place),
    }


def _finding(told: Mapping[str, object]) -> Finding:
    """The finding that was told; raises `ValueError` where it is none."""
    place = told["place"]
    if not isinstance(place, list):
        raise ValueError("no place")  # noqa: TRY004 - the file is at fault, no caller
    file, *numbers = place
    where = Place(_text(file), *(int(number) for number in numbers))
    mend, experiment = told["mend"], told["experiment"]
    return Finding(
        _text(told["check"]),
        Severity(_text(told["severity"])),
        Fault(where, _text(told["message"]), None if mend is None else _text(mend)),
        None if experiment is None else _text(experiment),
    )


def _text(told: object) -> str:
    """A text that may be shown on a terminal; raises `ValueError` for another."""
    if not isinstance(told, str) or not all(c.isprintable() or c == "\t" for c in told):
        raise ValueError(told)
    return told
