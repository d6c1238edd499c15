"""Disposal: hazardous chemicals without a word on it, and what goes down the wrong way.

Disposal counts in the Disposal section and in Disposal boxes. A chemical is
spoken of by its name, by that of an element or a family it belongs to, or by a
sentence on everything that is left.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from manualgen.checks.agreeing import with_verb
from manualgen.checks.meeting import place_of
from manualgen.knowledge import (
    Chemical,
    barred_from_sink,
    disposal_route,
    find_by_formula,
    mentions,
)
from manualgen.knowledge.disposal import (
    names_for_disposal,
    says_collect,
    says_sink,
    speaks_of_everything,
    speaks_of_nothing,
)
from manualgen.knowledge.stems import says
from manualgen.model.blocks import BoxKind
from manualgen.model.experiment import Experiment, SectionKind
from manualgen.model.finding import Fault
from manualgen.model.place import Place
from manualgen.working.hazards import HazardEntry
from manualgen.working.method import box_texts, boxes, prose_in
from manualgen.working.prose import Prose
from manualgen.working.worked import WorkedExperiment

_OF_WATER = frozenset({"H", "O"})
_CLAUSE_ENDS = re.compile(r"[,;:]\s|\s(?:and|but|while)\s", re.IGNORECASE)
_KEPT_IN = re.compile(r"\b(?:bottle|jar|tin|bin|bag|box|tub)s?\b", re.IGNORECASE)
_SPOKEN_OF = re.compile(r"\b(?:it|them|they|this|these|both)\b", re.IGNORECASE)
_EVERYTHING = re.compile(
    r"\b(?:everything|all (?:of )?(?:the )?(?:solutions|liquids|mixtures|tubes|waste|of it)|"
    r"contents|mixtures?)\b(?! else| of the (?:others?|rest)\b)",
    re.IGNORECASE,
)
_USED_UP = re.compile(
    r"\bno more (?:gas|bubbles|fizz\w*)\b|\bno (?:gas|bubbles) (?:comes?|forms?|rises?)\b|"
    r"\b(?:fizzing|bubbling|effervescence|reaction) (?:has )?(?:stop|ceas|end|finish)\w*|"
    r"\b(?:stops?|stopped) (?:fizzing|bubbling|reacting)\b|"
    r"\bhas (?:all )?(?:dissolved|disappeared|reacted|gone|vanished)\b|"
    r"\b(?:no|until no) (?:ribbon|metal|magnesium) is left\b",
    re.IGNORECASE,
)
"""Words of a step after which a piece of metal in acid is no more."""
_NAMES_NOTHING = re.compile(
    r"(?:\W|\b(?:or|and|but|then|pour|poured|wash|washed|flush|flushed|rinse|rinsed|tip|"
    r"tipped|away|down|into|the|a|sink|drain|with|plenty|lots|much|of|cold|running|tap|"
    r"water|go|goes|may|can|be|is|are|finally|afterwards)\b)*",
    re.IGNORECASE,
)


def without_disposal(work: WorkedExperiment) -> Iterator[Fault]:
    """Each hazardous chemical of whose disposal nothing is said."""
    texts = [prose.text for prose in _disposal(work.experiment)]
    whole = "\n".join(texts)
    if speaks_of_everything(whole) or _says_where_only(whole, work):
        return
    spoken = False
    for entry in _hazardous(work):
        names = [w for c in entry.chemicals for w in names_for_disposal(c)]
        names += _turned_into(entry, work)
        if says(whole, (*names, entry.name)) or (spoken and not texts):
            continue
        spoken = True
        yield _missing(entry, work)


def _turned_into(entry: HazardEntry, work: WorkedExperiment) -> Iterator[str]:
    """The names of what a listed chemical becomes: lime is calcium hydroxide in the end.

    A product with nothing of it but oxygen and hydrogen is none.
    """
    for reaction in work.reactions:
        own = [t for t, found in reaction.entries if entry.listed in found]
        atoms = {a for term in own for a in term.formula.atoms} - _OF_WATER
        for term in reaction.equation.products:
            chemical = find_by_formula(term.formula, term.state, work.laboratory.store)
            if chemical and term.state != "g" and atoms & set(term.formula.atoms):
                yield from (chemical.name, chemical.substance, *chemical.also)


def sent_down_the_sink(work: WorkedExperiment) -> Iterator[Fault]:
    """Each sentence that sends down the sink what must not go there."""
    chemicals = [c for e in work.hazards.entries for c in e.chemicals]
    all_of_it = tuple(_unnamed(work.experiment, chemicals))
    for prose in _disposal(work.experiment):
        for start, end in prose.sentences:
            for first, last in _sent_away(prose.text[start:end]):
                said = prose.text[start + first : start + last]
                barred = _barred_in(said, chemicals) or _swept_along(said, all_of_it)
                if barred is not None:
                    chemical, why = barred
                    yield Fault(
                        prose.place(start, end),
                        f"{chemical.name} must not go down the sink: {why}",
                        disposal_route(chemical),
                    )
                    break


def _unnamed(
    experiment: Experiment, chemicals: list[Chemical]
) -> Iterator[tuple[Chemical, str]]:
    """What must not go down a sink and has no other way, for all goes there.

    A bare metal goes back, and a solvent may be gone by then.
    """
    said = [p.text[s:e] for p in _disposal(experiment) for s, e in p.sentences]
    whole = "\n".join(said)
    is_kept = says_collect(whole) or _KEPT_IN.search(whole)
    if is_kept or not all(says_sink(sentence) for sentence in said):
        return
    for chemical in chemicals:
        why = barred_from_sink(chemical)
        atoms = chemical.formula.atoms if chemical.formula else ()
        is_compound = len(atoms) > 1 and "organic" not in chemical.kin
        if why and is_compound and not says(whole, names_for_disposal(chemical)):
            yield chemical, why


def _swept_along(
    said: str, unnamed: tuple[tuple[Chemical, str], ...]
) -> tuple[Chemical, str] | None:
    """What goes down the sink with *everything*."""
    return unnamed[0] if unnamed and _EVERYTHING.search(said) else None


def _sent_away(sentence: str) -> Iterator[tuple[int, int]]:
    """The parts of a sentence on disposal that send something down the sink.

    In *the ester goes into the bottle, the carbonate down the sink* each route
    has a clause of its own; where the clause names nothing (*or pour it away*)
    the whole sentence is meant.
    """
    if not says_sink(sentence):
        return
    ends = [m.start() for m in _CLAUSE_ENDS.finditer(sentence)]
    first = 0
    for end in (*ends, len(sentence)):
        clause = sentence[first:end]
        if says_sink(clause):
            is_whole = _SPOKEN_OF.search(clause) or _NAMES_NOTHING.fullmatch(clause)
            yield (0, len(sentence)) if is_whole else (first, end)
        if says_sink(clause) or says_collect(clause) or _KEPT_IN.search(clause):
            first = end


def _says_where_only(text: str, work: WorkedExperiment) -> bool:
    """Whether a text says where things go, and names none of them."""
    return speaks_of_nothing(text) and not any(
        m.chemical.substance != "water"
        for m in mentions(text, work.laboratory.store).chemicals
    )


def _missing(entry: HazardEntry, work: WorkedExperiment) -> Fault:
    codes = entry.classification.h_statements if entry.classification else ()
    routes = (disposal_route(c) for c in entry.chemicals)
    route = next((r for r in routes if r), None)
    aside = f"({', '.join(codes)})"
    return Fault(
        _tail(entry, work),
        f"nothing is said of where {with_verb(entry.name, 'goes', aside)} afterwards",
        f"a word on it under ## Disposal; the usual route is “{route}”"
        if route
        else None,
    )


def _tail(entry: HazardEntry, work: WorkedExperiment) -> Place:
    """The amount of a listed chemical, so that each finding has words of its own."""
    if entry.made is None and entry.listed is not None:
        listed = work.materials.lineup.entries[entry.listed].listed
        for part in (listed.amount, listed.strength):
            if part is not None:
                return part.place
    return place_of(entry, work)


def _hazardous(work: WorkedExperiment) -> Iterator[HazardEntry]:
    """What is left over and matters: of the products, what is to be collected."""
    for entry in work.hazards.entries:
        found = entry.classification
        if found is None or not found.h_statements:
            continue
        if any("indicators" in c.kin for c in entry.chemicals):
            continue
        if entry.made is not None:
            left = not entry.made.is_gas and any(map(_is_collected, entry.chemicals))
        else:
            left = entry.listed is not None and _is_left(entry.listed, work)
        if left:
            yield entry


def _is_left(entry: int, work: WorkedExperiment) -> bool:
    """Whether a listed chemical is in use and not used up by an equation."""
    entries = work.materials.lineup.entries
    if not entries[entry].in_use:
        return False
    for reaction in work.reactions:
        others = [n for _, found in reaction.entries for n in found if n != entry]
        own = next((t for t, found in reaction.entries if entry in found), None)
        if own is None or not others:
            continue
        result = reaction.outcome(work.materials)
        if result is None and _is_dissolved(entry, others, work):
            return False
        is_least = result is not None and own in result.limiting
        if is_least or all(entries[n].listed.excess for n in others):
            return False
    return True


def _is_dissolved(entry: int, others: list[int], work: WorkedExperiment) -> bool:
    """Whether a piece of metal is left in an acid until no more happens."""
    entries = work.materials.lineup.entries
    own = entries[entry].chemical
    acids = [entries[n].chemical for n in others]
    return bool(
        own
        and not entries[entry].listed.excess
        and {"metals", "reactive metals"} & own.kin
        and any(acid and "acids" in acid.kin for acid in acids)
        and any(_USED_UP.search(p.text) for p in work.materials.steps)
    )


def _is_collected(chemical: Chemical) -> bool:
    return (disposal_route(chemical) or "").startswith("collect")


def _disposal(experiment: Experiment) -> Iterator[Prose]:
    section = experiment.section(SectionKind.DISPOSAL)
    if section is not None:
        yield from prose_in(section.blocks)
    for box in boxes(experiment, BoxKind.DISPOSAL):
        if section is None or box not in section.blocks:
            yield from box_texts(box)


def _barred_in(sentence: str, chemicals: list[Chemical]) -> tuple[Chemical, str] | None:
    for chemical in chemicals:
        why = barred_from_sink(chemical)
        if why is not None and says(sentence, names_for_disposal(chemical)):
            return chemical, why
    return None
