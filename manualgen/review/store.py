"""What changed in the department's own tables: chemicals, apparatus, words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

from manualgen.model.manual import (
    Manual,
    OwnLabel,
    StoredApparatus,
    StoredChemical,
    StoredForm,
)
from manualgen.review.changes import Change
from manualgen.review.writing import of_both, quantity_text, said

Stored: TypeAlias = StoredChemical | StoredApparatus


def store_changes(base: Manual, head: Manual) -> Iterator[Change]:
    """Changes of chemicals.yaml, apparatus.yaml and labels.yaml, entry by entry."""
    users = _users(base, head)
    for old, new in _pairs(base.chemicals, head.chemicals):
        yield from _entry("store", old, new, users)
    for was, now in _pairs(base.apparatus, head.apparatus):
        yield from _entry("vocabulary", was, now, users)
    yield from _labels(base.labels, head.labels)


def _pairs(
    before: Sequence[Stored], after: Sequence[Stored]
) -> Iterator[tuple[Stored | None, Stored | None]]:
    old = {entry.name: entry for entry in before}
    new = {entry.name: entry for entry in after}
    for name in dict.fromkeys((*new, *old)):
        yield old.get(name), new.get(name)


def _entry(
    kind: str,
    old: Stored | None,
    new: Stored | None,
    users: Mapping[str, tuple[str, ...]],
) -> Iterator[Change]:
    here = new or old
    if here is None:
        return
    used = _used_in(here, users)
    if old is None or new is None:
        was = None if old is None else _told(old)
        now = None if new is None else _told(new)
        yield Change(kind, here.name, was, now, here.place, used, teachers=True)
        return
    before, after = _facts(old), _facts(new)
    for fact in dict.fromkeys((*after, *before)):
        texts = before.get(fact), after.get(fact)
        if texts[0] != texts[1]:
            what = f"{here.name}, {fact}"
            yield Change(kind, what, *texts, here.place, used, teachers=True)


def _told(entry: Stored) -> str:
    facts = _facts(entry)
    return "; ".join(f"{fact} {text}" for fact, text in facts.items()) or "as named"


def _facts(entry: Stored) -> Mapping[str, str]:
    """What an entry says, by what it says it of; what it does not say is left out."""
    facts = (
        _of_chemical(entry)
        if isinstance(entry, StoredChemical)
        else _of_apparatus(entry)
    )
    return {fact: said(text) for fact, text in facts.items() if text}


def _of_chemical(entry: StoredChemical) -> Mapping[str, str | None]:
    return {
        "formula": entry.formula,
        "supplied": entry.supplied,
        "also": ", ".join(entry.also),
        "hazards": _hazards(entry.hazards),
        "signal": entry.signal,
        "source": entry.source,
        "disposal": entry.disposal,
        **dict(entry.more),
    }


def _of_apparatus(entry: StoredApparatus) -> Mapping[str, str | None]:
    return {
        "also": ", ".join(entry.also),
        "capacity": ", ".join(quantity_text(c) or "" for c in entry.capacities),
        "resolution": quantity_text(entry.resolution),
        "consumable": "yes" if entry.consumable else None,
    }


def _hazards(hazards: tuple[StoredForm, ...] | None) -> str | None:
    if hazards is None:
        return None
    return "; ".join(_form(form) for form in hazards) or "none"


def _form(form: StoredForm) -> str:
    codes = ", ".join(form.hazards) or "none"
    return f"{form.form}: {codes}" if form.form else codes


def _users(base: Manual, head: Manual) -> Mapping[str, tuple[str, ...]]:
    """The experiments that list something, by its name."""
    found: dict[str, dict[str, None]] = {}
    for experiment in (*head.experiments, *base.experiments):
        names = [each.name for each in experiment.chemicals]
        names += [each.name for each in experiment.apparatus]
        names += [s.name for each in experiment.chemicals for s in each.sets]
        names += [each.solvent for each in experiment.chemicals if each.solvent]
        for name in names:
            found.setdefault(name.casefold(), {})[experiment.id] = None
    return {name: tuple(ids) for name, ids in found.items()}


def _used_in(entry: Stored, users: Mapping[str, tuple[str, ...]]) -> str | None:
    names = (entry.name, *entry.also)
    ids = dict.fromkeys(i for name in names for i in users.get(name.casefold(), ()))
    return f"used in {', '.join(ids)}" if ids else None


def _labels(before: Sequence[OwnLabel], after: Sequence[OwnLabel]) -> Iterator[Change]:
    old, new = _by_key(before), _by_key(after)
    for key in dict.fromkeys((*new, *old)):
        was, now = old.get(key), new.get(key)
        here = now or was
        if here and (was is None or now is None or was.words != now.words):
            words = of_both(lambda label: label.words, was, now)
            what = f"{here.key} ({here.language})"
            yield Change("label", what, *words, here.place)


def _by_key(labels: Sequence[OwnLabel]) -> Mapping[tuple[str, str], OwnLabel]:
    return {(label.language, label.key): label for label in labels}
