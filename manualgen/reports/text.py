"""Findings as a person reads them in a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sized
from typing import Protocol

from manualgen.model.finding import Finding, Severity
from manualgen.model.place import Place
from manualgen.reports.printable import printable

_COLOURS = {Severity.ERROR: "31", Severity.WARNING: "33", Severity.NOTE: "36"}


class Texts(Protocol):
    """The texts that findings are about: a worked manual has them."""

    @property
    def lines(self) -> Sized:
        """The files that were read."""

    def line_of(self, place: Place) -> str:
        """The source line at which a place starts, or nothing if unknown."""


def findings_as_text(
    texts: Texts, findings: Iterable[Finding], *, colour: bool = False
) -> str:
    """Each finding with its source line, a caret under it, and its mend."""
    blocks = ["\n".join(_finding(texts, f, colour)) for f in findings]
    return "".join(block + "\n\n" for block in blocks)


def _finding(texts: Texts, finding: Finding, colour: bool) -> Iterator[str]:
    severity = _paint(finding.severity.value, _COLOURS[finding.severity], colour)
    place, message = printable(str(finding.place)), printable(finding.fault.message)
    yield f"{place}: {severity}: {message} [{finding.check}]"
    line = texts.line_of(finding.place)
    if line.strip():
        yield from _source(line, finding)
    if finding.fault.mend:
        yield f"    mend: {printable(finding.fault.mend)}"


def _source(line: str, finding: Finding) -> Iterator[str]:
    place = finding.place
    shown = line.expandtabs(1)
    yield f"    {shown}"
    end = place.end_column if place.end_line == place.line else len(shown) + 1
    width = max(1, min(end, len(shown) + 1) - place.column)
    yield "    " + " " * (place.column - 1) + "^" * width


def _paint(word: str, code: str, colour: bool) -> str:
    return f"\x1b[{code}m{word}\x1b[0m" if colour else word


def summary_line(texts: Texts, findings: Iterable[Finding]) -> str:
    """``9 files: 1 error, no warnings, 2 notes``."""
    counts = count_by_severity(findings)
    files = len(texts.lines)
    parts = ", ".join(_counted(counts[s], s.value) for s in Severity)
    return f"{files} file{'s' if files != 1 else ''}: {parts}"


def _counted(number: int, noun: str) -> str:
    return f"{number or 'no'} {noun}{'s' if number != 1 else ''}"


def count_by_severity(findings: Iterable[Finding]) -> dict[Severity, int]:
    """How many findings there are of each severity, none left out."""
    counts = dict.fromkeys(Severity, 0)
    for finding in findings:
        counts[finding.severity] += 1
    return counts
