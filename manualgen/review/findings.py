"""What the checks say of one version and not of the other, what is accepted left out."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from manualgen.checks.run import check_experiment, settle
from manualgen.model.finding import Finding
from manualgen.review.align import in_order, partners
from manualgen.review.changes import Change
from manualgen.review.order import same_work
from manualgen.review.writing import of_both
from manualgen.working.worked import Worked, WorkedExperiment

_COUNTED = re.compile(r"\b(step|line|question|lines|steps) \d+[a-z]?")

Findings = Mapping[str | None, Sequence[Finding]]


def findings_of(base: Worked, head: Worked) -> tuple[Findings, Findings]:
    """The findings of both manuals by experiment; under None those of a manual itself.

    An experiment that is the same in both is checked once.
    """
    found = {w.experiment.file: (w, _checked(w)) for w in base.experiments}

    def of_head() -> Iterator[Finding]:
        for work in head.experiments:
            known = found.get(work.experiment.file)
            is_same = known and same_work(known[0], work)
            yield from known[1] if known and is_same else _checked(work)

    before = settle(base, (f for _, each in found.values() for f in each))
    return _by_experiment(before), _by_experiment(settle(head, of_head()))


def _checked(work: WorkedExperiment) -> Sequence[Finding]:
    return tuple(check_experiment(work))


def _by_experiment(findings: Iterable[Finding]) -> Findings:
    found: dict[str | None, list[Finding]] = {}
    for finding in findings:
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
