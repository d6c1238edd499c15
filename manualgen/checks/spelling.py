"""The style family: words that the house spells in another way."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import yaml

from manualgen.checks.registry import Report, check
from manualgen.knowledge.stems import any_of
from manualgen.model.finding import Edit, Fault, Severity
from manualgen.model.manual import Settings, SulfurSpelling
from manualgen.model.place import Place
from manualgen.model.text import Words
from manualgen.model.walk import inlines_of
from manualgen.working.worked import WorkedExperiment

_AMERICAN = "en-US"


@dataclass(frozen=True, slots=True)
class Variant:
    """The beginning of a word as the house does not spell it, and as it does."""

    other: str
    house: str
    exceptions: frozenset[str]
    """Words that begin so and are spelled so everywhere."""


@check("spelling-variant", Severity.WARNING)
def spelling_variant(work: WorkedExperiment) -> Report:
    """Words that are spelled in two ways are spelled in the house's."""
    variants = _variants(work.settings)
    suspect = _suspect(variants)
    texts = tuple(_texts(work))
    folded = "\n".join(text for text, _ in texts).casefold()
    for text, place in texts if _suspect_folded(variants).search(folded) else ():
        for word in suspect.finditer(text):
            mend = _mend(word[0], variants)
            if mend:
                where = place.within(word.start(), word.end())
                yield Fault(
                    where,
                    f"the house style has {mend}, not {word[0]}",
                    mend,
                    Edit(where, mend, word[0]),
                )


def _texts(work: WorkedExperiment) -> Iterator[tuple[str, Place]]:
    experiment = work.experiment
    yield experiment.title, experiment.title_place
    for chemical in experiment.chemicals:
        yield chemical.name, chemical.name_place
    for piece in experiment.apparatus:
        yield piece.name, piece.name_place
    for words in inlines_of(experiment, Words):
        yield words.text, words.place


@cache
def _suspect(variants: tuple[Variant, ...]) -> re.Pattern[str]:
    """A pattern of words that begin as the house does not spell them."""
    others = any_of(variant.other for variant in variants) or "(?!)"
    return re.compile(rf"(?<![A-Za-z])(?:{others})[A-Za-z]*", re.IGNORECASE)


@cache
def _suspect_folded(variants: tuple[Variant, ...]) -> re.Pattern[str]:
    """The same for a casefolded text, which takes half the time."""
    others = any_of(variant.other.casefold() for variant in variants) or "(?!)"
    return re.compile(rf"(?<![A-Za-z])(?:{others})")


def _mend(word: str, variants: tuple[Variant, ...]) -> str | None:
    folded = word.casefold()
    for variant in variants:
        if folded.startswith(variant.other) and folded not in variant.exceptions:
            return _in_case(variant.house, word) + word[len(variant.other) :]
    return None


def _in_case(beginning: str, word: str) -> str:
    if word.isupper():
        return beginning.upper()
    return beginning.capitalize() if word[0].isupper() else beginning


def _variants(settings: Settings) -> tuple[Variant, ...]:
    american = settings.language == _AMERICAN
    return _chosen(settings.sulfur, american, settings.language.startswith("en"))


@cache
def _chosen(
    sulfur: SulfurSpelling, american: bool, english: bool
) -> tuple[Variant, ...]:
    if not english:
        return ()
    table = yaml.load(
        files("manualgen.data").joinpath("spelling.yaml").read_text("utf-8"),
        yaml.CBaseLoader,
    )
    house, other = ("f", "ph") if sulfur is SulfurSpelling.F else ("ph", "f")
    here, there = ("american", "british") if american else ("british", "american")
    return tuple(
        Variant(row[away], row[home], frozenset(row.get("but", ())))
        for rows, home, away in (
            (table["sulfur"], house, other),
            (table["language"], here, there),
        )
        for row in rows
    )
