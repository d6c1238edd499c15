"""All that changed in one experiment, and what follows from each change."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from manualgen.model.fences import Given
from manualgen.model.place import Place
from manualgen.preparation.plan import Plan
from manualgen.quantities import Quantity
from manualgen.review.changes import Change
from manualgen.review.hazards import (
    UNCLASSIFIED,
    hazard_consequence,
    listed_hazards,
    made_changes,
)
from manualgen.review.lists import (
    Listed,
    apparatus_changes,
    chemical_changes,
    front_changes,
)
from manualgen.review.marks import total_changes
from manualgen.review.pieces import Piece
from manualgen.review.preparing import bases, class_plan, prepared, set_out
from manualgen.review.telling import piece_changes
from manualgen.review.writing import of_both, quantity_text, said
from manualgen.working.worked import WorkedExperiment

_MEAN = ".mean"


def experiment_changes(
    old: WorkedExperiment,
    new: WorkedExperiment,
    before: Sequence[Piece],
    after: Sequence[Piece],
) -> Iterator[Change]:
    """Everything but what the checks say: that is found for the whole manual."""
    yield from front_changes(old.experiment, new.experiment)
    plans = class_plan(old, new.settings), class_plan(new, new.settings)
    yield from _materials(old, new, plans)
    yield from _apparatus(old, new, plans)
    yield from made_changes(old, new)
    yield from piece_changes(before, after)
    yield from total_changes(old.experiment, new.experiment)
    yield from result_changes(old, new)


def added_changes(new: WorkedExperiment) -> Iterator[Change]:
    """What comes with an experiment that is new: hazards, and what is to prepare."""
    made = prepared(class_plan(new, new.settings))
    for index, listed in enumerate(new.experiment.chemicals):
        hazards = listed_hazards(new, index)
        if hazards and hazards != UNCLASSIFIED:
            yield Change("hazard", listed.name, None, hazards, listed.place)
        if made.get(listed.place):
            text = made[listed.place]
            yield Change(
                "preparation", listed.name, None, text, listed.place, teachers=True
            )


def _apparatus(
    old: WorkedExperiment, new: WorkedExperiment, plans: tuple[Plan, Plan]
) -> Iterator[Change]:
    """The list of apparatus, with how many pieces are set out where that changes."""
    before, after = map(set_out, plans)
    for listed in apparatus_changes(old, new):
        was = now = None
        if listed.old is not None:
            was = before.get(old.experiment.apparatus[listed.old].place)
        if listed.new is not None:
            now = after.get(new.experiment.apparatus[listed.new].place)
        if listed.changes:
            yield from _first_with(listed.changes, now if was != now else None)


@dataclass(frozen=True, slots=True)
class _Preparing:
    """What is prepared of each listed chemical, in either version."""

    old: Mapping[Place, str]
    new: Mapping[Place, str]


def _materials(
    old: WorkedExperiment, new: WorkedExperiment, plans: tuple[Plan, Plan]
) -> Iterator[Change]:
    """The list of chemicals, with hazards and preparation as consequences."""
    made = _Preparing(*map(prepared, plans))
    for listed in chemical_changes(old, new):
        yield from _with_consequences(old, new, listed, made)
    before, after = map(bases, plans)
    for name in dict.fromkeys((*after, *before)):
        was, now = before.get(name), after.get(name)
        if was != now:
            yield Change(
                "preparation", name, was, now, new.experiment.title_place, teachers=True
            )


def _with_consequences(
    old: WorkedExperiment, new: WorkedExperiment, listed: Listed, made: _Preparing
) -> Iterator[Change]:
    """The entry's changes; what they do not explain stands by itself."""
    before = listed_hazards(old, listed.old)
    after = listed_hazards(new, listed.new)
    was = None if listed.old is None else made.old.get(_place(old, listed.old))
    now = None if listed.new is None else made.new.get(_place(new, listed.new))
    if listed.changes:
        follows = [hazard_consequence(before, after)]
        follows.append(now if was != now else None)
        told = "; ".join(filter(None, follows)) or None
        yield from _first_with(listed.changes, told)
        return
    if listed.new is None:
        return
    entry = new.experiment.chemicals[listed.new]
    if before != after:
        yield Change("hazard", entry.name, before, after, entry.place)
    if was != now:
        yield Change("preparation", entry.name, was, now, entry.place, teachers=True)


def _first_with(changes: Sequence[Change], told: str | None) -> Iterator[Change]:
    """The changes, the first of them with what follows from all."""
    first, *others = changes
    both = "; ".join(filter(None, (first.consequence, told))) or None
    yield replace(first, consequence=both)
    yield from others


def _place(work: WorkedExperiment, index: int) -> Place:
    return work.experiment.chemicals[index].place


def result_changes(old: WorkedExperiment, new: WorkedExperiment) -> Iterator[Change]:
    """Computed values that move, most often because a reading or a strength did."""
    before, places = _places(old), _places(new)
    for name, place in places.items():
        if name not in before:
            continue
        texts = of_both(
            _printed, old.numbers.stated.get(name), new.numbers.stated.get(name)
        )
        if texts[0] != texts[1]:
            # Without its value a result has no unit to print before its box.
            is_boxed = None not in texts
            yield Change("result", name, *texts, place, teachers=is_boxed)


def _printed(quantity: Quantity) -> str:
    return said(quantity_text(quantity) or "")


def _places(work: WorkedExperiment) -> Mapping[str, Place]:
    """Where each result is worked out; a mean that a line only names is that line's."""
    found: dict[str, Place] = {}
    sources: set[str] = set()
    for calculation in work.numbers.calculations:
        for worked in calculation.lines:
            line = worked.line
            if not isinstance(line, Given):
                found[line.symbol] = line.place
                sources.add(line.source.strip())
    for readings in work.numbers.readings:
        mean = f"{readings.block.name}{_MEAN}"
        if mean not in sources:
            found[mean] = readings.block.place
    for graph in work.numbers.graphs:
        for name in work.numbers.stated:
            if name.startswith(f"{graph.block.name}.") and name not in sources:
                found[name] = graph.block.place
    return found
