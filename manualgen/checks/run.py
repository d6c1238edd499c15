"""Run the checks over a worked manual and settle what is reported."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from manualgen.checks import CHECKS
from manualgen.checks.registry import Check
from manualgen.model.experiment import Accept
from manualgen.model.finding import Fault, Finding, Noted, Severity
from manualgen.working.worked import Worked, WorkedExperiment

ONE_MISTAKE = (
    ("formula-invalid", "formula-charge", "formula-name"),
    (
        "formula-invalid",
        "equation-impossible",
        "equation-ambiguous",
        "equation-unbalanced",
        "equation-charge",
        "equation-coefficients",
    ),
    ("unit-unknown", "unit-dimension", "unit-style"),
    (
        "calculation-undefined",
        "calculation-dimension",
        "calculation-answer",
        "significant-figures",
    ),
)
"""Checks that may find fault with one mistake at one place; the first is told."""

OF_THE_WHOLE = frozenset(
    {
        "chemical-not-listed",
        "chemical-not-used",
        "apparatus-not-listed",
        "apparatus-implied",
        "apparatus-not-used",
        "control-missing",
        "disposal-missing",
    }
)
"""Checks for what is nowhere: they wait until a file can be read to its end."""

UNACCEPTABLE_FAMILY = "source"
"""Findings of this family cannot be accepted: the text itself was not read."""


def run_checks(worked: Worked, only: Collection[str] = ()) -> tuple[Finding, ...]:
    """Every finding of a manual that nobody has accepted, in source order.

    ``only`` names the checks to run; empty, all of them.
    """
    found = (f for work in worked.experiments for f in check_experiment(work, only))
    return settle(worked, found, only)


def settle(
    worked: Worked, found: Iterable[Finding], only: Collection[str] = ()
) -> tuple[Finding, ...]:
    """What is reported of a manual whose experiments have been checked.

    ``found`` are the findings of every experiment by itself.
    """
    return _report(worked, [*found, *_of_manual(worked, only)], only)


def check_experiment(
    work: WorkedExperiment, only: Collection[str] = ()
) -> Iterator[Finding]:
    """The findings of one experiment, one for each mistake, none accepted yet."""
    found = list(_noted(work.experiment.noted, work.experiment.id, only))
    found += [
        Finding(check.name, check.severity, fault, work.experiment.id)
        for check in _chosen(only)
        if check.of_experiment
        and (work.experiment.complete or check.name not in OF_THE_WHOLE)
        for fault in check.of_experiment(work)
    ]
    yield from _one_for_each_mistake(found)


def _noted(
    noted: Iterable[Noted], experiment: str | None, only: Collection[str]
) -> Iterator[Finding]:
    for each in noted:
        if not only or each.check in only:
            check = CHECKS[each.check]
            yield Finding(check.name, check.severity, each.fault, experiment)


def _of_manual(worked: Worked, only: Collection[str]) -> list[Finding]:
    owners = {w.experiment.file: w.experiment.id for w in worked.experiments}
    found = list(_noted(worked.manual.noted, None, only))
    found += [
        Finding(check.name, check.severity, fault, owners.get(fault.place.file))
        for check in _chosen(only)
        if check.of_manual
        for fault in check.of_manual(worked)
    ]
    return list(_one_for_each_mistake(found))


def _chosen(only: Collection[str]) -> Iterator[Check]:
    return (c for c in CHECKS.values() if not only or c.name in only)


def _one_for_each_mistake(found: Iterable[Finding]) -> Iterator[Finding]:
    """Of the checks that could object to the same mistake, the first speaks alone."""
    listed = list(found)
    spoken = {
        (finding.place.file, finding.place.line, finding.place.column, finding.check)
        for finding in listed
    }
    for finding in listed:
        place = finding.place
        where = place.file, place.line, place.column
        if not any((*where, check) in spoken for check in _before(finding.check)):
            yield finding


def _before(check: str) -> tuple[str, ...]:
    """The checks that keep the word where they and this one find fault."""
    groups = (group for group in ONE_MISTAKE if check in group)
    return tuple(c for group in groups for c in group[: group.index(check)])


def _report(
    worked: Worked, found: list[Finding], only: Collection[str]
) -> tuple[Finding, ...]:
    used: set[Accept] = set()
    kept = [f for f in found if not _accepted(worked, f, used)]
    if not only or "accept-unused" in only:
        kept += _unused(worked, used, only)
    return tuple(sorted(set(kept), key=_order))


def _accepted(worked: Worked, finding: Finding, used: set[Accept]) -> bool:
    if CHECKS[finding.check].family == UNACCEPTABLE_FAMILY:
        return False
    matching = [
        accept
        for accept in _accepts_for(worked, finding)
        if accept.check == finding.check
        and (accept.words is None or accept.words in worked.line_of(finding.place))
    ]
    used.update(matching)
    return bool(matching)


def _accepts_for(worked: Worked, finding: Finding) -> Iterator[Accept]:
    yield from worked.manual.accepts
    for work in worked.experiments:
        if work.experiment.file == finding.place.file:
            yield from work.experiment.accepts


def _unused(
    worked: Worked, used: set[Accept], only: Collection[str]
) -> Iterator[Finding]:
    everything = [(None, a) for a in worked.manual.accepts] + [
        (w.experiment.id, a) for w in worked.experiments for a in w.experiment.accepts
    ]
    for experiment, accept in everything:
        if accept in used or (only and accept.check not in only):
            continue
        yield Finding(
            "accept-unused",
            Severity.NOTE,
            Fault(accept.place, _why_unused(accept)),
            experiment,
        )


def _why_unused(accept: Accept) -> str:
    if accept.check not in CHECKS:
        return f"no check is called {accept.check!r}"
    if CHECKS[accept.check].family == UNACCEPTABLE_FAMILY:
        return f"a finding of {accept.check} cannot be accepted: mend the text"
    return f"{accept.check} finds nothing here any more: take the accept out"


def _order(finding: Finding) -> tuple[str, int, int, str, str]:
    place = finding.place
    return place.file, place.line, place.column, finding.check, finding.fault.message
