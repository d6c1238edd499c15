"""What changed in an experiment's lists and front matter."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TypeVar

from manualgen.editions.lists import apparatus_row, true_chemical
from manualgen.editions.sheet import ListRow
from manualgen.editions.wording import Wording
from manualgen.knowledge.labels import ENGLISH
from manualgen.model.lab import ListedApparatus, ListedChemical, Strength, StrengthWord
from manualgen.quantities import Quantity, printed
from manualgen.quantities.style import AS_TYPED, NO_BREAK
from manualgen.review.changes import Change
from manualgen.review.consequences import hazard_consequence, order_consequence
from manualgen.working.worked import WorkedExperiment

PLAIN = Wording(AS_TYPED, ENGLISH)
"""A review speaks the language of its reader, which is that of the messages."""

L = TypeVar("L", ListedChemical, ListedApparatus)


def list_changes(base: WorkedExperiment, head: WorkedExperiment) -> Iterator[Change]:
    """Changes of the title, the time, the lists of chemicals and apparatus."""
    yield from _front_matter(base, head)
    old, new = base.experiment, head.experiment
    for i, j in _same_name(old.chemicals, new.chemicals):
        yield from _chemical(base, head, i, j)
    for i, j in _same_name(old.apparatus, new.apparatus):
        yield from _apparatus(
            None if i is None else old.apparatus[i],
            None if j is None else new.apparatus[j],
        )


def _front_matter(base: WorkedExperiment, head: WorkedExperiment) -> Iterator[Change]:
    old, new = base.experiment, head.experiment
    line = new.title_place.line
    facts = (
        ("title", old.title, new.title),
        ("time", _quantity(old.time), _quantity(new.time)),
        ("group", _text(old.group), _text(new.group)),
        ("techniques", ", ".join(old.techniques), ", ".join(new.techniques)),
    )
    for kind, before, after in facts:
        if before != after:
            yield Change(kind, kind, before or None, after or None, line)


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


def _chemical(
    base: WorkedExperiment, head: WorkedExperiment, i: int | None, j: int | None
) -> Iterator[Change]:
    old = None if i is None else base.experiment.chemicals[i]
    new = None if j is None else head.experiment.chemicals[j]
    here = new or old
    if here is None:
        return
    line = here.place.line
    if old is None or new is None:
        before, after = _chemical_row(old), _chemical_row(new)
        consequence = hazard_consequence(base, i, head, j)
        yield Change("chemical", here.name, before, after, line, consequence)
        return
    yield from _chemical_facts(base, head, (i, j), old, new)


def _chemical_facts(
    base: WorkedExperiment,
    head: WorkedExperiment,
    at: tuple[int | None, int | None],
    old: ListedChemical,
    new: ListedChemical,
) -> Iterator[Change]:
    line = new.place.line
    before, after = _strength(old.strength), _strength(new.strength)
    if before != after:
        consequence = hazard_consequence(base, at[0], head, at[1])
        yield Change("strength", new.name, before, after, line, consequence)
    before = _quantity(old.amount.value if old.amount else None)
    after = _quantity(new.amount.value if new.amount else None)
    if before != after:
        yield Change(
            "amount", new.name, before, after, line, order_consequence(head, new)
        )
    if _rest(old) != _rest(new):
        rows = _chemical_row(old), _chemical_row(new)
        yield Change("chemical", new.name, *rows, line, teachers=old.shown == new.shown)


def _rest(listed: ListedChemical) -> tuple[object, ...]:
    """What an entry says beside its name, strength and amount."""
    return (
        listed.excess,
        listed.shared,
        listed.for_disposal,
        listed.for_spills,
        listed.weighed_out,
        _quantity(listed.spare),
        listed.solvent,
        _strength(listed.solvent_strength),
        listed.shown,
        _strength(listed.made),
        tuple((s.first_group, s.last_group, s.name) for s in listed.sets),
    )


def _apparatus(
    old: ListedApparatus | None, new: ListedApparatus | None
) -> Iterator[Change]:
    here = new or old
    before, after = _apparatus_row(old), _apparatus_row(new)
    if here and before != after:
        yield Change("apparatus", here.name, before, after, here.place.line)


def _chemical_row(listed: ListedChemical | None) -> str | None:
    return None if listed is None else _said(true_chemical(listed, PLAIN))


def _apparatus_row(listed: ListedApparatus | None) -> str | None:
    return None if listed is None else _said(apparatus_row(listed, PLAIN))


def _said(row: ListRow) -> str:
    return ", ".join((row.name, *row.details)).replace(NO_BREAK, " ")


def _strength(strength: Strength | None) -> str | None:
    if strength is None:
        return None
    value = strength.value
    return value.value if isinstance(value, StrengthWord) else _quantity(value)


def _quantity(quantity: Quantity | None) -> str | None:
    if quantity is None:
        return None
    return printed(quantity, AS_TYPED).replace(NO_BREAK, " ")


def _text(value: object) -> str | None:
    return None if value is None else str(value)
