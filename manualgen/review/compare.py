"""Compare two manuals, each worked out and printed as pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from manualgen.editions.catalogue import number_pieces
from manualgen.model.finding import Finding
from manualgen.model.manual import Manual, Settings
from manualgen.review.changes import (
    Change,
    Comparison,
    ExperimentChange,
    Reprint,
    Status,
)
from manualgen.review.experiment import added_changes, experiment_changes
from manualgen.review.findings import Findings, finding_changes, findings_of
from manualgen.review.lists import accept_changes
from manualgen.review.marks import KIND, manual_total_changes
from manualgen.review.order import Pairs, order_changes, same_experiments, same_work
from manualgen.review.pieces import Piece
from manualgen.review.prints import Printed, picture_changes, reprints
from manualgen.review.sections import pieces_of
from manualgen.review.setting_places import setting_places
from manualgen.review.settings import Set, setting_changes
from manualgen.review.store import store_changes
from manualgen.working.worked import Worked, WorkedExperiment

STUDENT = "student"
PRINTS_OTHERWISE = "it says the same and is set otherwise"
STUDENTS_OTHERWISE = "of the students' page, too"
NO_REASON = ("finding", KIND)
"""Changes of the manual that change no experiment's page by themselves."""


@dataclass(frozen=True, slots=True)
class Version:
    """One of the two manuals that are compared."""

    name: str
    """What to call it: a revision, or the working tree."""
    worked: Worked
    printed: tuple[Printed, ...]
    """Its editions."""

    @property
    def teachers(self) -> Printed:
        """The teacher's edition, whose pages say all that students' say."""
        return next(p for p in self.printed if p.edition == "teacher")


@dataclass(frozen=True, slots=True)
class _Both:
    """Both versions with what is looked up in them."""

    base: Version
    head: Version
    pairs: Pairs
    reprint: tuple[Reprint, ...]
    findings: tuple[Findings, Findings]
    manual: tuple[Change, ...]


def compare(base: Version, head: Version) -> Comparison:
    """What changed from ``base`` to ``head``, and what follows from it."""
    pairs = same_experiments(base.worked, head.worked)
    reprint = tuple(
        reprints(before, after, pairs)
        for before, after in zip(base.printed, head.printed, strict=True)
    )
    findings = findings_of(base.worked, head.worked)
    manual = tuple(_manual_changes(base.worked, head.worked, pairs, findings))
    if not any(r.experiments or r.matter for r in reprint if r.edition == STUDENT):
        manual = tuple(_for_teachers(manual))
    both = _Both(base, head, pairs, reprint, findings, manual)
    experiments = (_experiment(both, old, new) for old, new in pairs)
    return Comparison(
        base.name,
        head.name,
        manual,
        tuple(e for e in experiments if e),
        unread_in(base.worked),
        reprint,
    )


def unread_in(worked: Worked) -> tuple[str, ...]:
    """What could not be read, one sentence each: such parts cannot be compared."""
    noted = [*worked.manual.noted]
    noted += [n for e in worked.manual.experiments for n in e.noted]
    faults = [n.fault for n in noted if n.check == "source-syntax"]
    return tuple(f"{f.place}: {f.message}" for f in faults)


def _manual_changes(
    base: Worked, head: Worked, pairs: Pairs, findings: tuple[Findings, Findings]
) -> Iterator[Change]:
    if _is_read(base.manual) and _is_read(head.manual):
        yield from setting_changes(_set(base), _set(head))
        yield from order_changes(base.manual, head.manual, pairs)
        yield from manual_total_changes(base.manual, head.manual)
    yield from store_changes(base.manual, head.manual)
    yield from accept_changes(base.manual.accepts, head.manual.accepts)
    yield from finding_changes(findings[0].get(None, ()), findings[1].get(None, ()))


def _set(worked: Worked) -> Set:
    """What the manual's own files set, and where."""
    manual = worked.manual
    return manual.settings, setting_places(manual.file, worked.lines)


def _is_read(manual: Manual) -> bool:
    """Whether its manual.yaml could be read at all; else it has only defaults."""
    return bool(manual.parts) or manual.settings != Settings()


def _experiment(
    both: _Both, old: WorkedExperiment | None, new: WorkedExperiment | None
) -> ExperimentChange | None:
    if new is None:
        gone = old.experiment if old else None
        return (
            ExperimentChange(gone.id, gone.title, Status.REMOVED, (), old_id=gone.id)
            if gone
            else None
        )
    experiment = new.experiment
    again = tuple(r.edition for r in both.reprint if experiment.id in r.experiments)
    status = Status.CHANGED if old else Status.ADDED
    changes = tuple(_changes(both, old, new))
    if old:
        changes = tuple(_as_printed(both, changes, new, again))
    if old and not changes:
        return None
    old_id = old.experiment.id if old else None
    return ExperimentChange(
        experiment.id, experiment.title, status, changes, again, old_id
    )


def _as_printed(
    both: _Both, changes: Sequence[Change], new: WorkedExperiment, again: Sequence[str]
) -> Iterator[Change]:
    """The changes, with whom they are for held against what is printed.

    A wider word in a teacher's column makes the students' narrower: they read the
    same, and their page prints otherwise.  Where nothing of theirs prints
    otherwise, nothing that changed is theirs.
    """
    is_printed = new.experiment.id in both.head.teachers.pages
    is_same = is_printed and not _prints_again(both.reprint, again)
    told = tuple(_for_teachers(changes) if is_same else changes)
    yield from told
    is_told = told and (STUDENT not in again or any(not c.teachers for c in told))
    if again and not is_told and not _is_explained(both):
        what = STUDENTS_OTHERWISE if told else PRINTS_OTHERWISE
        yield Change("typesetting", what, None, None, new.experiment.title_place)


def _prints_again(reprint: Sequence[Reprint], again: Sequence[str]) -> bool:
    """Whether students' pages of an experiment print otherwise, or those around all."""
    return STUDENT in again or any(r.matter for r in reprint if r.edition == STUDENT)


def _for_teachers(changes: Iterable[Change]) -> Iterator[Change]:
    """The changes where no student's page prints otherwise; a leak is kept as one."""
    return (c if c.leak else replace(c, teachers=True) for c in changes)


def _is_explained(both: _Both) -> bool:
    """Whether pages can print otherwise for what changed in the manual itself."""
    return any(change.kind not in NO_REASON for change in both.manual)


def _changes(
    both: _Both, old: WorkedExperiment | None, new: WorkedExperiment
) -> Iterator[Change]:
    id_ = new.experiment.id
    if old is None:
        yield from added_changes(new)
        yield from finding_changes((), both.findings[1].get(id_, ()))
        return
    old_id = old.experiment.id
    if not same_work(old, new):
        yield from experiment_changes(old, new, *_all_pieces(both, old, new))
    yield from picture_changes(both.base.teachers, both.head.teachers, old_id, id_)
    yield from finding_changes(*_findings(both, old_id, id_))


def _findings(
    both: _Both, old: str, new: str
) -> tuple[Sequence[Finding], Sequence[Finding]]:
    return both.findings[0].get(old, ()), both.findings[1].get(new, ())


def _all_pieces(
    both: _Both, old: WorkedExperiment, new: WorkedExperiment
) -> tuple[Sequence[Piece], Sequence[Piece]]:
    """The pieces of both versions; none of an experiment that is written the same."""
    if old.experiment is new.experiment:
        return (), ()
    return _pieces(both.base.worked, old), _pieces(both.head.worked, new)


def _pieces(worked: Worked, work: WorkedExperiment) -> tuple[Piece, ...]:
    experiment = work.experiment
    lines = worked.lines.get(experiment.file, ())
    return pieces_of(experiment, number_pieces(worked.manual, experiment), lines)
