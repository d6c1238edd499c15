"""What an experiment lists, names and handles, worked out once.

The checks of materials and safety, the hazard box and the preparation all ask
the same questions of a list and a Method; this is where they are answered.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from manualgen.knowledge import Form, find_apparatus
from manualgen.knowledge.phrases import Phrasebook
from manualgen.model.experiment import Experiment
from manualgen.model.fences import Setup
from manualgen.quantities import Quantity
from manualgen.working.handling import (
    Handling,
    StrengthSaid,
    handlings,
    strengths_said,
)
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import Lineup, Resolved, line_up
from manualgen.working.method import Voice, method_drawings, method_passages
from manualgen.working.naming import NamedInPassage, is_vague_name, named_in

_COLLECTIVE = re.compile(
    r"\b(?:each|every)\s+(?:of\s+(?:the|these)\s+)?(?:[\w-]+\s+){0,2}?"
    r"(?P<each>solution|solid|powder|liquid|metal|substance|chemical|sample|reagent|"
    r"compound|mixture|salt)s?\b|"
    r"\b(?P<all>solutions|solids|powders|liquids|metals|substances|chemicals|samples|"
    r"reagents|compounds|salts)\b|"
    r"\bof (?P<both>each|both)(?=\s*(?:[.,;]|in\b|into\b|to\b|with\b|and\b|together\b))|"
    r"\b(?:the|your|this) (?P<one>salt|brine|juice|oil|tea)\b",
    re.IGNORECASE,
)
_CALLED = {"salt": "chloride", "brine": "chloride", "tea": "tea leaves"}
"""What stands on the list for *the salt* of the kitchen."""
_SOON = 2
"""Sentences within which what was measured is poured."""


@dataclass(frozen=True, slots=True, eq=False)
class Materials:
    """The materials of an experiment."""

    lineup: Lineup = field(
        default_factory=lambda: Lineup((), Phrasebook(()), Phrasebook(()))
    )
    passages: tuple[NamedInPassage, ...] = ()
    drawings: tuple[Setup, ...] = ()
    handlings: tuple[Handling, ...] = ()
    """Each amount once: what is measured and then poured is one handling."""
    strengths: tuple[StrengthSaid, ...] = ()
    used: frozenset[int] = frozenset()
    """The entries of the list that the Method uses."""

    def handled(self, entry: int) -> tuple[Handling, ...]:
        """The amounts that the steps use of one listed chemical."""
        return tuple(h for h in self.handlings if h.named.sole == entry)

    @property
    def steps(self) -> Iterator[NamedInPassage]:
        """The passages that are instructions."""
        return (p for p in self.passages if p.passage.voice is Voice.STEP)


def work_materials(experiment: Experiment, laboratory: Laboratory) -> Materials:
    """The materials of an experiment."""
    lineup = line_up(experiment, laboratory)
    passages = tuple(
        named_in(passage, lineup, laboratory) for passage in method_passages(experiment)
    )
    drawings = method_drawings(experiment)
    return Materials(
        lineup,
        passages,
        drawings,
        tuple(_narrowed(h, lineup) for h in _each_once(tuple(handlings(passages)))),
        tuple(strengths_said(passages)),
        frozenset(_used(lineup, passages, drawings)),
    )


def _each_once(found: Sequence[Handling]) -> Iterator[Handling]:
    """Handlings without those that only speak again of an amount."""
    for n, handling in enumerate(found):
        if handling.back:
            continue
        measured = found[max(0, n - _SOON) : n]
        if not handling.measured and any(_is_poured(m, handling) for m in measured):
            continue
        yield handling


def _narrowed(handling: Handling, lineup: Lineup) -> Handling:
    """Of a chemical that stands twice on the list, the entry of the strength said."""
    named, said = handling.named, handling.strength
    if len(named.entries) < 2 or said is None:
        return handling
    fitting = tuple(n for n in named.entries if _has_strength(lineup, n, said))
    if not fitting:
        return handling
    return replace(handling, named=replace(named, entries=fitting))


def _has_strength(lineup: Lineup, entry: int, said: Quantity) -> bool:
    strength = lineup.entries[entry].strength
    return (
        isinstance(strength, Quantity)
        and strength.dimension == said.dimension
        and strength.si_value == said.si_value
    )


def _is_poured(measured: Handling, later: Handling) -> bool:
    """Whether a later amount is what was measured in an instrument just before."""
    same_sentence = measured.passage == later.passage and (
        measured.sentence == later.sentence
    )
    return (
        measured.measured
        and not same_sentence
        and measured.named.entries == later.named.entries
        and measured.amount == later.amount
        and bool(measured.vessels)
        and all(v.instrument for v in measured.vessels)
        and later.passage - measured.passage <= 1
    )


def _used(
    lineup: Lineup, passages: Sequence[NamedInPassage], drawings: Sequence[Setup]
) -> Iterator[int]:
    for passage in passages:
        for named in passage.chemicals:
            if not is_vague_name(passage.text, named) or named.sole is not None:
                yield from named.entries
        yield from _together(passage.text, lineup)
    for drawing in drawings:
        for piece in drawing.pieces:
            for content in piece.contents:
                yield from entries_named(content.name, lineup)


def _together(text: str, lineup: Lineup) -> Iterator[int]:
    """The entries that *each solution* and *the solids* take together."""
    for match in _COLLECTIVE.finditer(text):
        if match["one"]:
            word = match["one"].casefold()
            called = _CALLED.get(word, word)
            names = (e.listed.name.casefold() for e in lineup.entries)
            yield from (n for n, name in enumerate(names) if name.endswith(called))
            continue
        kind = (match["each"] or match["all"] or match["both"]).casefold()
        for n, entry in enumerate(lineup.entries):
            if _is_of_kind(entry, kind.removesuffix("s")):
                yield n


def _is_of_kind(entry: Resolved, kind: str) -> bool:
    chemical = entry.chemical
    form = chemical.form if chemical else None
    match kind:
        case "solution":
            return entry.strength is not None or form in (Form.SOLUTION, None)
        case "solid" | "powder":
            return entry.strength is None and form in (Form.SOLID, None)
        case "liquid":
            return form in (Form.LIQUID, Form.SOLUTION, None)
        case "metal":
            return chemical is not None and bool(
                {"metals", "reactive metals"} & chemical.kin
            )
        case _:
            return True


def entries_named(name: str, lineup: Lineup) -> tuple[int, ...]:
    """The listed chemicals that the label of a drawing's contents means."""
    exact = lineup.names.exactly(name) or lineup.short.exactly(name)
    if exact:
        return exact
    found = [*lineup.names.find(name), *lineup.short.find(name)]
    return tuple(dict.fromkeys(n for phrase in found for n in phrase.value))


def drawn_pieces(drawings: Sequence[Setup]) -> Iterator[str]:
    """The names of the pieces in drawings, tubes that join included."""
    for drawing in drawings:
        for piece in drawing.pieces:
            found = find_apparatus(piece.name)
            yield found.name if found else piece.name
            if piece.by:
                joint = find_apparatus(piece.by)
                yield joint.name if joint else piece.by
