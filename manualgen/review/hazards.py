"""How the hazards of what is used and made differ from one version to the other."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.knowledge import Classification
from manualgen.model.place import Place
from manualgen.quantities import Quantity, parse_unit
from manualgen.quantities.figures import rounded_to_figures
from manualgen.review.changes import Change
from manualgen.review.lists import PLAIN
from manualgen.review.writing import of_both, quantity_text, said
from manualgen.working.hazards import HazardEntry
from manualgen.working.worked import WorkedExperiment

UNCLASSIFIED = "not classified"
UNKNOWN = "no hazard data"
_CM3 = parse_unit("cm3")
_GAS_FIGURES = 2


def listed_hazards(work: WorkedExperiment, index: int | None) -> str | None:
    """The hazards of an entry of the list at its strength; None where it is not in use."""
    entries = [e for e in work.hazards.entries if e.listed == index]
    if index is None or not entries:
        return None
    if len(entries) == 1:
        return classes_text(entries[0].classification)
    return "; ".join(f"{e.name}: {classes_text(e.classification)}" for e in entries)


def classes_text(found: Classification | None) -> str:
    """A classification as a reviewer reads it: signal word, classes, codes."""
    if found is None:
        return UNKNOWN
    classes = [f"{c.name} ({c.statement})" for c in found.classes]
    told = ", ".join((*classes, *found.euh))
    signal = f"{found.signal_word}: " if found.signal_word else ""
    return f"{signal}{told}" if told else UNCLASSIFIED


def hazard_consequence(before: str | None, after: str | None) -> str | None:
    """What to say beside the change that made the hazards differ."""
    if before == after or (after is None and before in (UNCLASSIFIED, UNKNOWN)):
        return None
    if after is None:
        return f"no longer in use: {before}"
    if after == UNCLASSIFIED:
        return None if before is None else "no longer classified"
    return f"now {after}"


def made_changes(old: WorkedExperiment, new: WorkedExperiment) -> Iterator[Change]:
    """What the equations make now and did not, in another amount, or with other hazards."""
    before, after = _made(old), _made(new)
    for name in dict.fromkeys((*after, *before)):
        was, now = before.get(name), after.get(name)
        here = now or was
        if here is None or here.made is None:
            continue
        place = here.made.place
        if was is None or now is None:
            texts = of_both(_whole, was, now)
            yield Change("product", name, *texts, place)
            continue
        yield from _differences(was, now, place)


def _made(work: WorkedExperiment) -> dict[str, HazardEntry]:
    return {e.name: e for e in work.hazards.entries if e.made}


def _differences(was: HazardEntry, now: HazardEntry, place: Place) -> Iterator[Change]:
    pairs = (
        ("hazard", classes_text(was.classification), classes_text(now.classification)),
        ("gas", _volume(was), _volume(now)),
    )
    for kind, before, after in pairs:
        if before != after:
            yield Change(kind, now.name, before, after, place)


def _whole(entry: HazardEntry) -> str:
    strength = said(PLAIN.strength(entry.strength))
    facts = (strength, _volume(entry), classes_text(entry.classification))
    return "; ".join(filter(None, facts))


def _volume(entry: HazardEntry) -> str | None:
    """How much of a gas is made at most, as the hazard box says it."""
    if entry.gas_m3 is None:
        return None
    value = rounded_to_figures(entry.gas_m3 / _CM3.factor, _GAS_FIGURES)
    return f"about {said(quantity_text(Quantity(value, _CM3)) or '')} at most"
