"""What changed in an experiment's front matter: its facts and its two lists."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias, TypeVar

from manualgen.editions.lists import students_chemical
from manualgen.editions.wording import Wording
from manualgen.knowledge.labels import ENGLISH
from manualgen.model.experiment import Accept, Experiment, Reviewed
from manualgen.model.lab import ListedApparatus, ListedChemical, Strength
from manualgen.quantities.style import AS_TYPED
from manualgen.review.align import pair_named, strays
from manualgen.review.changes import Change
from manualgen.review.leaks import LEAK
from manualgen.review.writing import of_both, quantity_text, said
from manualgen.working.worked import WorkedExperiment

Entry = TypeVar("Entry", bound=ListedChemical | ListedApparatus)
Known: TypeAlias = Sequence[tuple[Entry, str]]
"""The entries of a list, each with what the tables know it for."""

PLAIN = Wording(AS_TYPED, ENGLISH)
"""A review speaks the language of its reader, which is that of the messages."""


@dataclass(frozen=True, slots=True)
class Listed:
    """The changes of an entry of a list, and which one of each list it is."""

    old: int | None
    new: int | None
    changes: tuple[Change, ...]


def front_changes(old: Experiment, new: Experiment) -> Iterator[Change]:
    """Changes of the title, the time, the reviewer and what is accepted."""
    facts = (
        ("title", old.title, new.title, False),
        ("time", quantity_text(old.time), quantity_text(new.time), False),
        ("group", _text(old.group), _text(new.group), False),
        ("techniques", ", ".join(old.techniques), ", ".join(new.techniques), False),
        ("reviewed", _reviewed(old.reviewed), _reviewed(new.reviewed), True),
    )
    place = new.title_place
    for kind, before, after, teachers in facts:
        if before != after:
            texts = of_both(said, before or None, after or None)
            yield Change(kind, kind, *texts, place, teachers=teachers)
    yield from accept_changes(old.accepts, new.accepts)


def accept_changes(old: Sequence[Accept], new: Sequence[Accept]) -> Iterator[Change]:
    """Findings that are accepted now and were not, or no longer, or for another reason."""
    before, after = _accepts(old), _accepts(new)
    for key in dict.fromkeys((*after, *before)):
        was, now = before.get(key), after.get(key)
        here = now or was
        if here and (was is None or now is None or was.why != now.why):
            check, words = key
            what = f"{check} at “{words}”" if words else check
            reasons = of_both(lambda accept: accept.why, was, now)
            yield Change("accept", what, *reasons, here.place, teachers=True)


def _accepts(accepts: Sequence[Accept]) -> Mapping[tuple[str, str | None], Accept]:
    return {(accept.check, accept.words): accept for accept in accepts}


def _reviewed(reviewed: Reviewed | None) -> str | None:
    if reviewed is None:
        return None
    due = f"next {reviewed.due.isoformat()}" if reviewed.due else ""
    when = reviewed.date.isoformat() if reviewed.date else ""
    return ", ".join(filter(None, (reviewed.by, when, due)))


def chemical_changes(
    base: WorkedExperiment, head: WorkedExperiment
) -> Iterator[Listed]:
    """Every entry of the list of chemicals, with what changed in it."""
    return _list_changes("chemical", _substances(base), _substances(head), _chemical)


def _substances(work: WorkedExperiment) -> Known[ListedChemical]:
    """What each chemical is, an unknown by its name alone."""
    return [
        (
            entry.listed,
            entry.chemical.substance
            if entry.chemical
            else entry.listed.name.casefold(),
        )
        for entry in work.materials.lineup.entries
    ]


def apparatus_changes(
    base: WorkedExperiment, head: WorkedExperiment
) -> Iterator[Listed]:
    """Every entry of the list of apparatus, with what changed in it."""
    return _list_changes("apparatus", _kinds(base), _kinds(head), _piece)


def _kinds(work: WorkedExperiment) -> Known[ListedApparatus]:
    """What the vocabulary calls each piece."""
    find = work.laboratory.vocabulary.find
    found = ((piece, find(piece.name)) for piece in work.experiment.apparatus)
    return [(p, known.name if known else p.name.casefold()) for p, known in found]


def _list_changes(
    kind: str,
    old: Known[Entry],
    new: Known[Entry],
    changes: Callable[[Entry | None, Entry | None], Iterator[Change]],
) -> Iterator[Listed]:
    """Every entry in the new order, then those that are gone.

    Those of one name belong together, the first with the first; then those that
    the tables know for one thing: ``2 beakers`` and ``beaker``.
    """
    partner: dict[int, int] = {}
    pair_named(old, new, lambda entry: entry[0].name.casefold(), partner)
    pair_named(old, new, lambda entry: entry[1], partner)
    moved = _moved(partner)
    for j, (now, _) in enumerate(new):
        i = partner.get(j)
        if i is None:
            yield Listed(None, j, tuple(changes(None, now)))
            continue
        stray = (_stray(kind, now, i, j),) if j in moved else ()
        yield Listed(i, j, (*changes(old[i][0], now), *stray))
    for i in sorted(set(range(len(old))) - set(partner.values())):
        yield Listed(i, None, tuple(changes(old[i][0], None)))


def _moved(partner: Mapping[int, int]) -> set[int]:
    """The new indices of entries that left their place in the list."""
    kept = sorted(partner)
    return {kept[at] for at in strays([partner[j] for j in kept])}


def _stray(
    kind: str, entry: ListedChemical | ListedApparatus, old: int, new: int
) -> Change:
    before, after = (f"{rank + 1} in the list" for rank in (old, new))
    return Change(kind, f"{entry.name}, moved", before, after, entry.place)


def _piece(
    old: ListedApparatus | None, new: ListedApparatus | None
) -> Iterator[Change]:
    here = new or old
    before, after = _apparatus(old), _apparatus(new)
    if here and before != after:
        is_same = _apparatus(_bare(old)) == _apparatus(_bare(new))
        yield Change(
            "apparatus", here.name, before, after, here.place, teachers=is_same
        )


def _chemical(
    old: ListedChemical | None, new: ListedChemical | None
) -> Iterator[Change]:
    here = new or old
    if here is None:
        return
    if old is None or new is None:
        yield Change("chemical", here.name, _row(old), _row(new), here.place)
        return
    pairs = (
        ("strength", _strength(old.strength), _strength(new.strength)),
        ("amount", _amount(old), _amount(new)),
    )
    for kind, before, after in pairs:
        if before != after:
            yield Change(
                kind, new.name, before, after, new.place, teachers=_same(old, new)
            )
    if _row(_rest(old)) != _row(_rest(new)):
        yield _disclosed(old, new)


def _disclosed(old: ListedChemical, new: ListedChemical) -> Change:
    """Another change of an entry; an unknown that is one no more is a leak."""
    change = Change(
        "chemical", new.name, _row(old), _row(new), new.place, teachers=_same(old, new)
    )
    if old.shown and not new.shown:
        return replace(change, consequence=LEAK, leak=True)
    return change


def _same(old: ListedChemical, new: ListedChemical) -> bool:
    """Whether students read the same of both."""
    return students_chemical(old, PLAIN) == students_chemical(new, PLAIN)


def _rest(listed: ListedChemical) -> ListedChemical:
    """An entry without what is told by itself."""
    return replace(listed, strength=None, amount=None)


def _row(listed: ListedChemical | None) -> str | None:
    """All that an entry says, as a line."""
    if listed is None:
        return None
    solvent = ", ".join(
        filter(None, (listed.solvent, _strength(listed.solvent_strength)))
    )
    facts = (
        listed.name,
        _strength(listed.strength),
        _amount(listed),
        solvent and f"in {solvent}",
        "excess" if listed.excess else "",
        f"{listed.shared.number} {listed.shared.by.value}" if listed.shared else "",
        "for disposal" if listed.for_disposal else "",
        "for spills" if listed.for_spills else "",
        "weighed out" if listed.weighed_out else "",
        f"spare {quantity_text(listed.spare)}" if listed.spare else "",
        f"shown as {listed.shown}" if listed.shown else "",
        f"made {_strength(listed.made)}" if listed.made else "",
        *(_set(listed)),
        *listed.words,
    )
    return said(", ".join(filter(None, facts)))


def _set(listed: ListedChemical) -> Iterator[str]:
    for each in listed.sets:
        strength = _strength(each.strength)
        which = f"groups {each.first_group}-{each.last_group} {each.name}"
        yield f"{which} {strength}" if strength else which


def _strength(strength: Strength | None) -> str | None:
    return said(PLAIN.strength(strength)) or None


def _amount(listed: ListedChemical) -> str | None:
    text = quantity_text(listed.amount.value if listed.amount else None)
    return said(text) if text else None


def _bare(listed: ListedApparatus | None) -> ListedApparatus | None:
    """A piece without the words that are for the preparation room alone."""
    return replace(listed, words=()) if listed else None


def _apparatus(listed: ListedApparatus | None) -> str | None:
    if listed is None:
        return None
    name = f"{listed.count} {listed.name}" if listed.count > 1 else listed.name
    resolution = quantity_text(listed.resolution)
    facts = (
        name,
        quantity_text(listed.capacity),
        f"class {listed.glass_class.value}" if listed.glass_class else "",
        f"reading to {resolution}" if resolution else "",
        f"{listed.shared.number} {listed.shared.by.value}" if listed.shared else "",
        *listed.words,
    )
    return said(", ".join(filter(None, facts)))


def _text(value: object) -> str | None:
    return None if value is None else str(value)
