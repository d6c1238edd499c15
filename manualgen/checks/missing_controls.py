"""Hazards of chemicals, of gases made and of operations whose usual control nobody names.

Controls count in Safety boxes, in steps and in the laboratory's standing rules.
A finding stands at the chemical, the equation or the operation that asks.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from manualgen.checks.agreeing import verb
from manualgen.checks.gases import gases_met, gases_said
from manualgen.checks.meeting import place_of, spoken_of
from manualgen.knowledge import Chemical, Need, classify, controls_named, needs
from manualgen.knowledge.stems import said_in, says, stem_pattern
from manualgen.model.finding import Fault
from manualgen.model.place import Place
from manualgen.working.hazards import HazardEntry
from manualgen.working.naming import NamedInPassage, is_negated
from manualgen.working.worked import WorkedExperiment


@dataclass(frozen=True, slots=True)
class _Asking:
    """Something that asks for a control."""

    need: Need
    place: Place
    who: str
    name: str | None = None
    """Of the chemical, where it is one."""


def missing_controls(work: WorkedExperiment) -> Iterator[Fault]:
    """Each need that nothing in the experiment answers, once."""
    named = controls_named(spoken_of(work))
    unmet = [
        asking
        for asking in (*_chemicals(work), *_gases(work), *_operations(work))
        if not named & set(asking.need.controls)
    ]
    for n, asking in enumerate(unmet):
        if not _is_answered_with(asking, unmet, n):
            yield _fault(asking)


def _is_answered_with(asking: _Asking, unmet: Sequence[_Asking], n: int) -> bool:
    """Whether whatever answers another need, or the same one before, answers this too."""
    own = set(asking.need.controls)
    return any(
        set(other.need.controls) < own or (m < n and set(other.need.controls) == own)
        for m, other in enumerate(unmet)
    )


def _fault(asking: _Asking) -> Fault:
    wanted = " or ".join(asking.need.controls)
    because = verb(asking.name or "", asking.need.because)
    return Fault(
        asking.place,
        f"{asking.who} {because}; no Safety box, step or standing rule "
        f"names a usual control: {wanted}",
        f"a Safety box that names {wanted}, as your risk assessment has it",
    )


def _chemicals(work: WorkedExperiment) -> Iterator[_Asking]:
    for entry in work.hazards.entries:
        found = entry.classification
        if found is None:
            continue
        evolved = entry.made is not None and entry.made.is_gas
        if entry.made is not None and not evolved:
            continue
        others = _statements(work, but=entry)
        for need in needs():
            if need.beside and not need.beside & others:
                continue
            if any(need.asked_by(c, found, evolved=evolved) for c in entry.chemicals):
                codes = ", ".join((*found.h_statements, *found.euh))
                who = f"{entry.name} ({codes})" if codes else entry.name
                yield _Asking(need, place_of(entry, work), who, entry.name)


def _gases(work: WorkedExperiment) -> Iterator[_Asking]:
    """Toxic gases that no equation makes: words say so, or two chemicals that meet."""
    for named in gases_said(work):
        found = classify(named.gas)
        codes = ", ".join(found.h_statements) if found else ""
        for need in _needs_of(named.gas):
            yield _Asking(need, named.place, f"{named.gas.name} ({codes})")
    for met, gas in gases_met(work):
        who = f"{met.one.name} and {met.other.name}"
        for need in _needs_of(gas):
            yield _Asking(
                replace(need, because=met.pair.because), place_of(met.one, work), who
            )


def _needs_of(gas: Chemical) -> Iterator[Need]:
    found = classify(gas)
    if found is not None:
        for need in needs():
            if need.said and need.asked_by(gas, found, evolved=True):
                yield need


def _operations(work: WorkedExperiment) -> Iterator[_Asking]:
    statements = _statements(work)
    makes_gas = any(m.is_gas for m in work.made)
    steps = tuple(work.materials.steps)
    text = "\n".join(p.text for p in steps)
    spoken = said_in(text, _words_of_needs())
    for n, need in enumerate(needs()):
        if n not in spoken or says(text, need.unless_words):
            continue
        if (need.beside and not need.beside & statements) or (
            need.gas_made and not makes_gas
        ):
            continue
        found = next((f for p in steps if (f := _done(p, need))), None)
        if found is not None:
            yield found


@lru_cache(maxsize=1)
def _words_of_needs() -> Mapping[int, tuple[str, ...]]:
    """The stems of each operation that asks for a control, by its need."""
    return {n: need.words for n, need in enumerate(needs()) if need.words}


def _statements(work: WorkedExperiment, but: HazardEntry | None = None) -> set[str]:
    """The statements of what is in use, but for one and for indicators."""
    return {
        hazard.statement
        for entry in work.hazards.entries
        if entry is not but and entry.classification and entry.made is None
        if not _is_indicator(entry)
        for hazard in entry.classification.classes
    }


def _is_indicator(entry: HazardEntry) -> bool:
    """A few drops of an indicator are no fuel."""
    return any("indicators" in c.kin for c in entry.chemicals)


def _done(passage: NamedInPassage, need: Need) -> _Asking | None:
    if need.beside_words and not says(passage.text, need.beside_words):
        return None
    for match in stem_pattern(need.words).finditer(passage.text):
        if not is_negated(passage.text, match.start()):
            place = passage.passage.prose.place(match.start(), match.end())
            return _Asking(need, place, f"“{match[0]}”")
    return None
