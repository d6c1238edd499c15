"""The experiments of both manuals, their parts, their order and their numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

from manualgen.model.manual import Entry, Manual
from manualgen.model.place import Place
from manualgen.model.walk import all_blocks, plain, texts
from manualgen.review.align import align, in_order, pair_named, partners, strays
from manualgen.review.changes import Change
from manualgen.review.writing import of_both
from manualgen.working.worked import Worked, WorkedExperiment

Pairs: TypeAlias = Sequence[tuple[WorkedExperiment | None, WorkedExperiment | None]]


def same_experiments(base: Worked, head: Worked) -> Pairs:
    """Each experiment of one manual with what it is in the other, in the new order.

    Those of one id belong together; of the rest, those that say much the same.
    """
    before = {w.experiment.id: w for w in base.experiments}
    after = {w.experiment.id: w for w in head.experiments}
    lost = [w for i, w in before.items() if i not in after]
    found = [w for i, w in after.items() if i not in before]
    renamed = {
        new.experiment.id: old
        for old, new in align(lost, found, _all_words)
        if old and new
    }
    kept = [(before.get(i) or renamed.get(i), new) for i, new in after.items()]
    gone = [(old, None) for old in lost if old not in renamed.values()]
    return (*kept, *gone)


def same_work(old: WorkedExperiment, new: WorkedExperiment) -> bool:
    """Whether both are known to be one experiment worked out the same.

    Where the second manual was worked out from the first, what is the same is
    one object; nobody looks inside.
    """
    return (
        old.experiment is new.experiment
        and old.laboratory is new.laboratory
        and old.settings is new.settings
    )


def _all_words(work: WorkedExperiment) -> str:
    experiment = work.experiment
    words = (
        plain(content) for block in all_blocks(experiment) for content in texts(block)
    )
    return " ".join((experiment.title, *words))


def order_changes(base: Manual, head: Manual, pairs: Pairs) -> Iterator[Change]:
    """Experiments that are called, numbered or placed otherwise; parts that changed."""
    new_id = {o.experiment.id: n.experiment.id for o, n in pairs if o and n}
    yield from _parts(base, head)
    places = {e.experiment: e.place for e in reversed(head.entries())}
    gone = {e.experiment: e.place for e in reversed(base.entries())}
    for old, new in pairs:
        if old and new:
            id_ = new.experiment.id
            yield from _names(old, new, places.get(id_) or gone.get(old.experiment.id))
    yield from _parted(base, head, new_id)
    yield from _strayed(base, head, new_id)


def _names(
    old: WorkedExperiment, new: WorkedExperiment, listed: Place | None
) -> Iterator[Change]:
    before, after = old.experiment.id, new.experiment.id
    if before != after:
        place = new.experiment.title_place
        yield Change("renamed", after, before, after, place, teachers=True)
    if old.number != new.number:
        yield Change("number", after, old.number, new.number, listed)


def _parts(base: Manual, head: Manual) -> Iterator[Change]:
    same = _same_parts(base, head)
    for was, now in in_order(base.parts, head.parts, same):
        here = now or was
        titles = of_both(lambda part: part.title, was, now)
        if here and titles[0] != titles[1]:
            yield Change("part", "of the manual", *titles, here.place)


def _same_parts(base: Manual, head: Manual) -> Mapping[int, int]:
    """Parts of one title, or else of much the same experiments."""
    found: dict[int, int] = {}
    pair_named(base.parts, head.parts, lambda part: part.title, found)
    rest_old = [i for i in range(len(base.parts)) if i not in found.values()]
    rest_new = [j for j in range(len(head.parts)) if j not in found]
    more = partners(
        [base.parts[i] for i in rest_old],
        [head.parts[j] for j in rest_new],
        lambda part: " ".join(e.experiment for e in part.entries),
    )
    return {**found, **{rest_new[j]: rest_old[i] for j, i in more.items()}}


def _parted(base: Manual, head: Manual, new_id: Mapping[str, str]) -> Iterator[Change]:
    """Experiments that stand in another part."""
    same = {i: j for j, i in _same_parts(base, head).items()}
    before = {
        new_id.get(e.experiment): (i, part.title)
        for i, part in enumerate(base.parts)
        for e in part.entries
    }
    for j, part in enumerate(head.parts):
        for entry in part.entries:
            was = before.get(entry.experiment)
            if was and same.get(was[0]) != j:
                yield Change("part", entry.experiment, was[1], part.title, entry.place)


def _strayed(base: Manual, head: Manual, new_id: Mapping[str, str]) -> Iterator[Change]:
    """Experiments that changed places and kept their numbers."""
    ranks = {new_id.get(e.experiment): n for n, e in enumerate(base.entries())}
    numbers = {new_id.get(e.experiment): e.number for e in base.entries()}
    entries = {e.experiment: e for e in reversed(head.entries())}
    kept = [e for e in head.entries() if entries[e.experiment] is e]
    kept = [e for e in kept if e.experiment in ranks]
    for at in sorted(strays([ranks[e.experiment] for e in kept])):
        entry = kept[at]
        if numbers[entry.experiment] == entry.number:
            yield _moved(entry, ranks[entry.experiment], head.entries().index(entry))


def _moved(entry: Entry, old: int, new: int) -> Change:
    return Change(
        "order",
        f"{entry.experiment}, moved",
        f"{old + 1} in the manual",
        f"{new + 1} in the manual",
        entry.place,
    )
