"""Chemicals that a step uses and the list lacks.

A name alone is no use: the sentence must do something with it. What is said to
form, what is denied, a gas that is tested for, an ingredient of a listed
mixture and what an unknown may turn out to be need no place on a list.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from manualgen.knowledge import (
    Chemical,
    Form,
    chemicals,
    find_by_formula,
    find_chemical,
)
from manualgen.knowledge.names import key
from manualgen.model.place import Place
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import Lineup
from manualgen.working.naming import Named, NamedInPassage
from manualgen.working.worked import WorkedExperiment

_HANDLES = re.compile(
    r"\b(?:add|put|use|mix|pour|dissolv|plac|transfer|weigh|measure|fill|pipett|run|dip|"
    r"wash|rins|drop|drip|shake|stir|neutralis|treat|titrat|cover|soak|moisten|sprinkle|"
    r"heat|warm|burn|react|take|dilut|grind|immers|connect|coat|crush|inject|scatter|wind|"
    r"push|hang|attach|hold|cut|clean|polish|wrap|fold|roll|bend|lower|feed|tie|stand|clamp)\w*",
    re.IGNORECASE,
)
_MADE_BEFORE = re.compile(
    r"\b(?:precipitate|smell|colou?r|trace|traces|presence|formation|evolution|amount|"
    r"concentration|volume|mass|test|layer|deposit|coating|bubbles|fumes|crystals) (?:of|for)\s+"
    r"(?:[\w-]+\s+){0,2}$|"
    r"\b(?:form|forms|formed|forming|make|makes|made|give|gives|given|produce|produces|"
    r"producing|contain|contains|containing|called|named|become|becomes|release|releases|"
    r"liberate|liberates|like|than|is|are|be|as|obtain|means)\s+(?:[\w-]+\s+){0,2}$",
    re.IGNORECASE,
)
_A_MEASURE_OF = re.compile(
    r"\b(?:an?|equal|same|small|large|further|suitable|known|total) (?:\w+ )?"
    r"(?:amount|volume|mass|layer)s? of\s+(?:[\w-]+\s+){0,2}$",
    re.IGNORECASE,
)
"""*An equal volume of* what is used; *the volume of* what is made."""

_KEPT = re.compile(
    r"\b(?:keep|keeps|collect|collects|save|leave|leaves|leaving)\s+"
    r"(?:the |your |crude |pure |dry |wet )*$",
    re.IGNORECASE,
)
_MADE_BEHIND = re.compile(
    r"\s+(?:that|which)?\s*(?:has |have |is |are |was |were |will be )?(?:then )?"
    r"(?:form|produc|given off|evolv|releas|collect|com(?:es|ing) off|bubbl|escap|precipitat|"
    r"has come|left)\w*",
    re.IGNORECASE,
)
_OF_THE = re.compile(r"\s*(?:portions? |samples? )?of the\s+(?P<word>[^\W\d_]{4,})\b")
_FAMILY = {"acid": "acids", "alkali": "alkalis"}
_ALTERNATIVES = re.compile(r"\bor\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class UnlistedUse:
    """A chemical that a step uses and nobody listed."""

    place: Place
    words: str
    """As the step calls it."""
    name: str
    """What to put on the list."""


def unlisted_chemicals(work: WorkedExperiment) -> Iterator[UnlistedUse]:
    """Each unlisted chemical where a step first uses it."""
    known = {"water", "air"} | _products(work) | _ingredients(work.materials.lineup)
    known |= _among_apparatus(work)
    for passage in work.materials.steps:
        for start, end in passage.passage.prose.sentences:
            for named in _in(passage, start, end):
                chemical = named.chemical
                if chemical is None or chemical.substance in known:
                    continue
                if not _is_use(passage, named, start, work):
                    continue
                known.add(chemical.substance)
                words = passage.text[named.start : named.end]
                place = passage.passage.prose.place(named.start, named.end)
                yield UnlistedUse(place, " ".join(words.split()), chemical.name)
    yield from _short_names(work)


def _short_names(work: WorkedExperiment) -> Iterator[UnlistedUse]:
    """An amount *of the acid* where no acid is listed, *of the thiosulfate* where none is."""
    if _has_unknowns(work):
        return
    said: set[str] = set()
    for passage in work.materials.steps:
        for _, end, _ in passage.passage.prose.quantities():
            match = _OF_THE.match(passage.text, end)
            if match is None or any(
                n.start == match.start("word") for n in passage.chemicals
            ):
                continue
            word = match["word"].casefold()
            if word in said or word not in _short_words() | set(_FAMILY):
                continue
            said.add(word)
            place = passage.passage.prose.place(match.start("word"), match.end("word"))
            yield UnlistedUse(place, f"the {word}", f"the {word} by its full name")


@cache
def _short_words() -> frozenset[str]:
    """The last words of salts' names: thiosulfate, dichromate."""
    ends = ("ate", "ide", "ite")
    words = {key(c.name).split("(")[0].split(" ")[-1] for c in chemicals()}
    return frozenset(w for w in words if w.endswith(ends) and len(w) > 7)


def known_names(laboratory: Laboratory) -> list[str]:
    """Every name that a table knows, the store's first."""
    own = [name for c in laboratory.store.entries for name in (c.name, *c.also)]
    return [*own, *(n for c in chemicals() for n in (c.name, *c.also))]


def _in(passage: NamedInPassage, start: int, end: int) -> Iterator[Named]:
    return (n for n in passage.chemicals if start <= n.start < end and not n.entries)


def _is_use(
    passage: NamedInPassage, named: Named, start: int, work: WorkedExperiment
) -> bool:
    chemical = named.chemical
    if chemical is None or named.negated or chemical.form is Form.GAS:
        return False
    before = passage.text[start : named.start]
    if not _HANDLES.search(before) or _KEPT.search(before):
        return False
    if _MADE_BEFORE.search(before) and not _A_MEASURE_OF.search(before):
        return False
    if _MADE_BEHIND.match(passage.text, named.end):
        return False
    return not (_has_unknowns(work) and _ALTERNATIVES.search(passage.text)) and (
        not _is_part_of_listed(chemical, work.materials.lineup)
    )


def _has_unknowns(work: WorkedExperiment) -> bool:
    return any(c.shown for c in work.experiment.chemicals)


def _is_part_of_listed(chemical: Chemical, lineup: Lineup) -> bool:
    """Whether one name begins the other: Fehling's solution and Fehling's solution A."""
    own = key(chemical.name)
    return any(
        other.startswith(own) or own.startswith(other)
        for entry in lineup.entries
        if (other := key(entry.listed.name))
    )


def _products(work: WorkedExperiment) -> set[str]:
    """What any equation of the experiment makes."""
    terms = [t for e in work.equations for t in e.balance.equation.products]
    found = (find_by_formula(t.formula, t.state) for t in terms if not t.formula.charge)
    return {c.substance for c in found if c is not None}


def _ingredients(lineup: Lineup) -> set[str]:
    return {
        part.name
        for entry in lineup.entries
        for identity in entry.identities
        if identity.chemical
        for part in identity.chemical.ingredients
    }


def _among_apparatus(work: WorkedExperiment) -> set[str]:
    """A strip of zinc and litmus paper may stand on either list.

    Where connecting leads are listed, *the lead* is one of them.
    """
    names = (listed.name for listed in work.experiment.apparatus)
    found = (
        find_chemical(name, work.laboratory.store)
        for whole in names
        for name in (whole, whole.rpartition(" of ")[2], _last_thing(whole))
    )
    return {c.substance for c in found if c is not None}


def _last_thing(name: str) -> str:
    return name.rpartition(" ")[2].removesuffix("s")
