"""What changed in an experiment's front matter: its facts and its two lists."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from manualgen.editions.lists import students_chemical
from manualgen.editions.wording import Wording
from manualgen.knowledge.labels import ENGLISH
from manualgen.model.experiment import Accept, Experiment, Reviewed
from manualgen.model.lab import ListedApparatus, ListedChemical, Strength
from manualgen.model.place import Place
from manualgen.quantities.style import AS_TYPED
from manualgen.review.align import strays
from manualgen.review.changes import Change
from manualgen.review.leaks import LEAK
from manualgen.review.writing import of_both, quantity_text, said

PLAIN = Wording(AS_TYPED, ENGLISH)
"""A review speaks the language of its reader, which is that of the messages."""

L = TypeVar("L", ListedChemical, ListedApparatus)


@dataclass(frozen=True, slots=True)
class Listed:
    """A change of a listed chemical, and which entry of each list it is."""

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


def chemical_changes(old: Experiment, new: Experiment) -> Iterator[Listed]:
    """Every entry of the list of chemicals, with what changed in it."""
    pairs = tuple(_same_name(old.chemicals, new.chemicals))
    moved = _moved(pairs)
    for i, j in pairs:
        was = None if i is None else old.chemicals[i]
        now = None if j is None else new.chemicals[j]
        changes = tuple(_chemical(was, now))
        if j in moved and now:
            changes = (*changes, _stray("chemical", now.name, i, j, now.place))
        yield Listed(i, j, changes)


def apparatus_changes(old: Experiment, new: Experiment) -> Iterator[Change]:
    """What changed in the list of apparatus."""
    pairs = tuple(_same_name(old.apparatus, new.apparatus))
    moved = _moved(pairs)
    for i, j in pairs:
        was = None if i is None else old.apparatus[i]
        now = None if j is None else new.apparatus[j]
        here = now or was
        before, after = _apparatus(was), _apparatus(now)
        if here and before != after:
            printed = [_apparatus(_bare(each)) for each in (was, now)]
            is_same = printed[0] == printed[1]
            yield Change(
                "apparatus", here.name, before, after, here.place, teachers=is_same
            )
        if j in moved and now:
            yield _stray("apparatus", now.name, i, j, now.place)


def _same_name(
    before: Sequence[L], after: Sequence[L]
) -> Iterator[tuple[int | None, int | None]]:
    """The indices of the entries of one name in both lists, the first with the first."""
    places: dict[tuple[str, int], int] = {}
    seen: Counter[str] = Counter()
    for i, item in enumerate(before):
        places[item.name.casefold(), seen[item.name.casefold()]] = i
        seen[item.name.casefold()] += 1
    seen.clear()
    for j, item in enumerate(after):
        name = item.name.casefold()
        yield places.pop((name, seen[name]), None), j
        seen[name] += 1
    for i in places.values():
        yield i, None


def _moved(pairs: Sequence[tuple[int | None, int | None]]) -> set[int]:
    """The new indices of entries that left their place in the list."""
    kept = [(i, j) for i, j in pairs if i is not None and j is not None]
    return {kept[at][1] for at in strays([i for i, _ in kept])}


def _stray(
    kind: str, name: str, old: int | None, new: int | None, place: Place
) -> Change:
    ranks = of_both(lambda rank: f"{rank + 1} in the list", old, new)
    return Change(kind, f"{name}, moved", *ranks, place)


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
