"""What the checks say of one version and not of the other, what is accepted left out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from manualgen.checks.run import run_checks
from manualgen.model.finding import Finding
from manualgen.review.align import in_order, partners
from manualgen.review.changes import Change
from manualgen.review.writing import of_both
from manualgen.working.worked import Worked

_COUNTED = re.compile(r"\b(step|line|question|lines|steps) \d+[a-z]?")

Findings = Mapping[str | None, Sequence[Finding]]


def findings_of(worked: Worked) -> Findings:
    """The findings of a manual by experiment; under None those of the manual itself."""
    found: dict[str | None, list[Finding]] = {}
    for finding in run_checks(worked):
        found.setdefault(finding.experiment, []).append(finding)
    return found


def finding_changes(
    before: Sequence[Finding], after: Sequence[Finding]
) -> Iterator[Change]:
    """Findings that came, went, or now say something else."""
    for check in dict.fromkeys(f.check for f in (*after, *before)):
        old = [f for f in before if f.check == check]
        new = [f for f in after if f.check == check]
        for was, now in in_order(old, new, partners(old, new, _message)):
            yield from _change(check, was, now)


def _message(finding: Finding) -> str:
    """What it says, wherever it stands: a step's number may have changed."""
    return _COUNTED.sub(r"\1", finding.fault.message)


def _change(check: str, was: Finding | None, now: Finding | None) -> Iterator[Change]:
    here = now or was
    if here is None or (was and now and _message(was) == _message(now)):
        return
    texts = of_both(lambda finding: finding.fault.message, was, now)
    mend = f"mend: {now.fault.mend}" if now and now.fault.mend else None
    yield Change("finding", check, *texts, here.place, mend, teachers=True)
