"""Compare two worked manuals."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from manualgen.checks.run import check_experiment
from manualgen.quantities import printed
from manualgen.quantities.style import AS_TYPED, NO_BREAK
from manualgen.review.align import align, moved, words_of
from manualgen.review.changes import Change, Comparison, ExperimentChange, Status
from manualgen.review.lists import list_changes
from manualgen.review.order import manual_changes, same_experiments
from manualgen.review.pieces import Piece, pieces_of
from manualgen.working.worked import Worked, WorkedExperiment

ORDERED = ("step", "question")
"""Kinds of which the place matters: a piece that moves is a change."""

KEYED = ("calculation", "sample")
"""Kinds that are the same thing by their name, whatever they say."""


def compare(
    base: Worked, head: Worked, names: tuple[str, str], unread: tuple[str, ...] = ()
) -> Comparison:
    """What changed from ``base`` to ``head``; ``names`` are what to call the two."""
    pairs = same_experiments(base, head)
    changes = (_experiment(old, new) for old, new in pairs)
    return Comparison(
        *names,
        tuple(manual_changes(base, head, pairs)),
        tuple(c for c in changes if c),
        unread,
    )


def _experiment(
    old: WorkedExperiment | None, new: WorkedExperiment | None
) -> ExperimentChange | None:
    if new is None:
        gone = old.experiment if old else None
        return (
            ExperimentChange(gone.id, gone.title, Status.REMOVED, ()) if gone else None
        )
    experiment = new.experiment
    if old is None:
        return ExperimentChange(experiment.id, experiment.title, Status.ADDED, ())
    changes = tuple(experiment_changes(old, new))
    if not changes:
        return None
    return ExperimentChange(experiment.id, experiment.title, Status.CHANGED, changes)


def experiment_changes(
    old: WorkedExperiment, new: WorkedExperiment
) -> Iterator[Change]:
    """Everything that changed in one experiment, and what follows from it."""
    yield from list_changes(old, new)
    before, after = pieces_of(old.experiment), pieces_of(new.experiment)
    for kind in dict.fromkeys(p.kind for p in (*after, *before)):
        yield from _of_kind(
            kind,
            [p for p in before if p.kind == kind],
            [p for p in after if p.kind == kind],
        )
    yield from _results(old, new)
    yield from _new_findings(old, new)


def _of_kind(
    kind: str, before: Sequence[Piece], after: Sequence[Piece]
) -> Iterator[Change]:
    pairs = align(before, after, _name if kind in KEYED else _text, _name)
    strayed = moved(pairs, before) if kind in ORDERED else set()
    for index, (old, new) in enumerate(pairs):
        yield from _piece(old, new)
        if index in strayed and old and new:
            yield Change(
                kind,
                f"{new.what}, moved",
                old.what,
                new.what,
                new.line,
                None,
                new.teachers,
            )


def _name(piece: Piece) -> str:
    return piece.what


def _text(piece: Piece) -> str:
    return piece.text


def _piece(old: Piece | None, new: Piece | None) -> Iterator[Change]:
    here = new or old
    if here is None:
        return
    before = words_of(old.text) if old else None
    after = words_of(new.text) if new else None
    if before != after:
        yield Change(
            here.kind, here.what, before, after, here.line, teachers=here.teachers
        )
    if old and new and old.marks != new.marks:
        yield Change("marks", new.what, _marks(old), _marks(new), new.line)


def _marks(piece: Piece) -> str | None:
    return None if piece.marks is None else str(piece.marks)


def _results(old: WorkedExperiment, new: WorkedExperiment) -> Iterator[Change]:
    """Computed values that move, most often because a reading or a strength did."""
    for calculation in new.numbers.calculations:
        for line in calculation.lines:
            symbol = line.line.symbol
            before = old.numbers.stated.get(symbol)
            if not line.algebra or before is None or line.stated is None:
                continue
            was, now = (
                printed(q, AS_TYPED).replace(NO_BREAK, " ")
                for q in (before, line.stated)
            )
            if was != now:
                yield Change(
                    "result", symbol, was, now, line.line.place.line, teachers=True
                )


def _new_findings(old: WorkedExperiment, new: WorkedExperiment) -> Iterator[Change]:
    """What the checks say now and did not say before."""
    known = {(f.check, f.fault.message) for f in check_experiment(old)}
    for finding in check_experiment(new):
        if (finding.check, finding.fault.message) not in known:
            yield Change(
                "finding",
                finding.check,
                None,
                finding.fault.message,
                finding.place.line,
                finding.fault.mend,
                teachers=True,
            )
