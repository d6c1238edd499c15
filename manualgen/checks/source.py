"""The source family: what could not be read, and what leads nowhere.

Most of these faults are met while reading, which notes them; those that need
the whole manual are found here.  None of them can be accepted.
"""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.checks.habits import foreign_mathematics, stale_steps, unread_marks
from manualgen.checks.registry import (
    Report,
    check,
    manual_check,
    noted_check,
)
from manualgen.drawing.apparatus.catalogue import nearest_pieces, piece_named
from manualgen.knowledge.labels import label_fault, label_keys
from manualgen.model.blocks import Subheading
from manualgen.model.experiment import Experiment
from manualgen.model.fences import Setup
from manualgen.model.finding import Fault, Severity
from manualgen.model.names import names_in
from manualgen.model.nearest import nearest
from manualgen.model.text import Reference
from manualgen.model.walk import blocks_of, inlines_of, plain
from manualgen.working.worked import Worked, WorkedExperiment

noted_check(
    "source-syntax",
    Severity.ERROR,
    "source",
    "Front matter, fences, boxes and lists can be read, their keys and words are "
    "known, and every file is UTF-8 text inside the content folder.",
)
noted_check(
    "duplicate-id",
    Severity.ERROR,
    "source",
    "Within an experiment a name is given once, and within a manual an "
    "experiment's id.",
)
noted_check(
    "missing-section",
    Severity.ERROR,
    "source",
    "An experiment has a title and a Method with at least one step.",
)
noted_check(
    "accept-unused",
    Severity.NOTE,
    "source",
    "Every accepted finding is still there to be accepted.",
)


@manual_check("source-syntax", Severity.ERROR)
def own_labels(worked: Worked) -> Report:
    """The department's own labels are labels, and have room for what is filled in."""
    for own in worked.manual.labels:
        fault = label_fault(own.key, own.words)
        if fault:
            near = (
                nearest(own.key, label_keys()) if own.key not in label_keys() else None
            )
            yield Fault(own.place, fault, near)


@check("source-syntax", Severity.ERROR)
def read_in_part(work: WorkedExperiment) -> Report:
    """Every piece in a drawing can be drawn, and nothing meant to be read is left as words."""
    yield from foreign_mathematics(work)
    yield from unread_marks(work)
    yield from _drawn_pieces(work)


def _drawn_pieces(work: WorkedExperiment) -> Iterator[Fault]:
    for drawing in work.experiment.blocks():
        if isinstance(drawing, Setup):
            for n, piece in enumerate(drawing.pieces):
                if piece.name and piece_named(piece.name) is None:
                    near = ", ".join(nearest_pieces(piece.name))
                    if n and piece.relation is None and not near:
                        continue  # Reading has said that a relation is missing there.
                    message = f"no piece of apparatus {piece.name!r} can be drawn"
                    yield Fault(piece.place, message, near or None)


@check("unknown-reference", Severity.ERROR)
def unknown_reference_inside(work: WorkedExperiment) -> Report:
    """Every cross-reference, picture and experiment that is named exists."""
    yield from stale_steps(work)
    known = names_in(work.experiment)
    for reference in inlines_of(work.experiment, Reference):
        if reference.experiment is None and reference.name not in known:
            yield _missing_name(reference, tuple(known), "in this experiment")


@manual_check("unknown-reference", Severity.ERROR)
def unknown_reference_across(worked: Worked) -> Report:
    """Every cross-reference, picture and experiment that is named exists."""
    experiments = {w.experiment.id: w.experiment for w in worked.experiments}
    for experiment in experiments.values():
        yield from _links_out(experiment, experiments)
    yield from _listed_but_absent(worked, set(experiments))
    yield from _present_but_not_listed(worked)


def _links_out(
    experiment: Experiment, experiments: dict[str, Experiment]
) -> Iterator[Fault]:
    for reference in inlines_of(experiment, Reference):
        if reference.experiment is None:
            continue
        target = experiments.get(reference.experiment)
        if target is None:
            near = nearest(reference.experiment, experiments)
            yield Fault(
                reference.place,
                f"there is no experiment {reference.experiment!r}",
                f"{near}.md" if near else None,
            )
        elif reference.name and reference.name not in names_in(target):
            yield _missing_name(
                reference, tuple(names_in(target)), f"in {reference.experiment}.md"
            )


def _missing_name(reference: Reference, known: tuple[str, ...], where: str) -> Fault:
    name = reference.name or ""
    near = nearest(name, known)
    return Fault(
        reference.place,
        f"nothing {where} is named #{name}",
        f"#{near}" if near else f"[#{name}] at the end of what is meant, to name it",
    )


def _listed_but_absent(worked: Worked, present: set[str]) -> Iterator[Fault]:
    for entry in worked.manual.entries():
        if entry.experiment not in present:
            near = nearest(entry.experiment, present)
            yield Fault(
                entry.place,
                f"the manual lists {entry.experiment!r}, and no file "
                f"{entry.experiment}.md could be read",
                near,
            )


def _present_but_not_listed(worked: Worked) -> Iterator[Fault]:
    for work in worked.experiments:
        if work.number is None:
            yield Fault(
                work.experiment.title_place,
                f"{worked.manual.file} does not list this experiment",
                f"add {work.experiment.id} to one of its parts",
            )


UNPLACED = "Not placed yet"
"""The heading under which a draft of an old document keeps what it could not place."""


@check("draft-unplaced", Severity.NOTE)
def draft_unplaced(work: WorkedExperiment) -> Report:
    """A draft of an old document has a place for everything that the document said."""
    for heading in blocks_of(work.experiment, Subheading):
        if plain(heading.content).strip() == UNPLACED:
            yield Fault(
                heading.place,
                "what stands here was in the old document and has no place yet",
                "each sentence where it belongs, or out, and this heading out with them",
            )


@manual_check("review-due", Severity.NOTE)
def review_due(worked: Worked) -> Report:
    """No experiment is past the date at which it should be read through again."""
    for work in worked.experiments:
        reviewed = work.experiment.reviewed
        if reviewed and reviewed.due and reviewed.due < worked.today:
            yield Fault(
                reviewed.place,
                f"the review was due on {reviewed.due.isoformat()}",
            )
