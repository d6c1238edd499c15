"""Vessels that cannot hold what a step puts in, and pieces that cannot measure it.

A vessel is followed through the steps of a part while there is one only of its
kind, until a step empties it; where there are several, each amount counts by
itself, as it does for what only measures.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from manualgen.knowledge import Piece
from manualgen.model.finding import Fault
from manualgen.model.lab import ListedApparatus
from manualgen.quantities import Quantity, parse_unit
from manualgen.quantities.figures import Rounding, rounded_to_figures
from manualgen.quantities.kinds import kind_of
from manualgen.quantities.mend import typed
from manualgen.working.handling import Handling, VesselUse
from manualgen.working.naming import NamedInPassage
from manualgen.working.worked import WorkedExperiment

_CM3 = parse_unit("cm3")
_EMPTIED = re.compile(
    r"\b(?:empt(?:y|ied)|pour(?:ed)? (?:it |them |the contents |the mixture |the liquid )?"
    r"(?:away|out|off|into)|discard\w*|rins\w*|wash\w*|clean\w*|tip\w*|filter\w*|transfer\w*|"
    r"decant\w*|throw\w* away|start again|replace\w*|evaporat\w*|boil\w* (?:off|away|down)|"
    r"distil\w*)\b",
    re.IGNORECASE,
)
_EMPTIED_FIRST = re.compile(
    r"\b(?:empty|empties|emptied|discard\w*|tip (?:it|this|them|the \w+) (?:out|away)|"
    r"pour (?:it|this|them|the \w+) (?:out|away)|(?:rins|wash)\w* (?:it|the \w+|out)|"
    r"throw \w+ away|repeat|start again|do the same|fresh)\b",
    re.IGNORECASE,
)
"""Words that a sentence empties a vessel with before it fills it again."""

_IN_PORTIONS = re.compile(
    r"\b(?:portions|lots|goes|fillings|measures|batches|twice|times|at a time)\b", re.I
)
_MADE_UP = re.compile(
    r"\bma(?:ke|kes|king|de) (?:\w+ ){0,3}up to (?:exactly |a total of |a volume of )?$",
    re.I,
)
_LOOK_BACK: Final = 48
_MADE_UP_IN: Final = "volumetric flask"
_BULB_PIPETTES: Final = ("volumetric pipette", "pipette")
_OTHER_PIPETTES: Final = ("graduated pipette", "micropipette", "syringe")
_PIPETTES = re.compile(
    r"\bpipette (?:out |in |exactly |another |a further |a second )*$", re.IGNORECASE
)
_ADDS = re.compile(r"\b(?:add|adds|added|adding|pour|run|top up)\b", re.IGNORECASE)


def overfilled(work: WorkedExperiment) -> Iterator[Fault]:
    """Each amount that makes a vessel run over or that a piece cannot measure at once."""
    filling = _Filling(work)
    for number, passage in enumerate(work.materials.passages):
        for start, end in passage.passage.prose.sentences:
            here = [
                h
                for h in work.materials.handlings
                if h.passage == number and start <= h.named.start < end
            ]
            if not here and filling.begun and _EMPTIED.search(passage.text, start, end):
                filling.empty()
            for handling in here:
                if _EMPTIED_FIRST.search(passage.text, start, handling.named.start):
                    filling.empty()
                yield from filling.take(handling, passage.text[start:end])


class _Filling:
    """What each vessel holds so far, by its name."""

    def __init__(self, work: WorkedExperiment) -> None:
        self._work = work
        self._held: dict[str, Fraction] = {}
        self._last: str | None = None
        self._part = 0

    @property
    def begun(self) -> bool:
        """Whether any vessel holds something."""
        return bool(self._held)

    def empty(self) -> None:
        """A sentence empties what stands on the bench."""
        self._held.clear()

    def take(self, handling: Handling, sentence: str) -> Iterator[Fault]:
        """Put an amount where its sentence says."""
        if handling.part != self._part:
            self._part, self._last = handling.part, None
            self.empty()
        if kind_of(handling.amount.unit) != "volume":
            return
        targets = [v for v in handling.vessels if not v.instrument]
        if not _IN_PORTIONS.search(sentence):
            for instrument in (v for v in handling.vessels if v.instrument):
                yield from self._measured(handling, instrument)
        if targets:
            yield from self._filled(handling, targets[0])
        elif self._last and not handling.vessels and _ADDS.search(sentence):
            yield from self._add(handling, self._last)

    def _measured(self, handling: Handling, use: VesselUse) -> Iterator[Fault]:
        pieces = self._listed(use)
        largest = _largest(pieces)
        if largest is not None and handling.amount.si_value > largest.si_value:
            name = use.mention.piece.name
            yield Fault(
                handling.amount_place,
                f"{typed(handling.amount)} is more than the {name} of {typed(largest)} "
                "takes at once",
                _larger(use.mention.piece, handling.amount.si_value),
            )

    def _filled(self, handling: Handling, use: VesselUse) -> Iterator[Fault]:
        pieces = self._listed(use)
        if not pieces:
            self._last = None
            return
        name = pieces[0].name
        is_one = len(pieces) == 1 and pieces[0].count == 1 and not use.another
        if not is_one or handling.open_ended:
            self._last = None
            self._held.pop(name, None)
            yield from self._checked(handling, pieces, handling.amount.si_value)
            return
        self._last = name
        self._held[name] = self._held.get(name, Fraction(0)) + handling.amount.si_value
        yield from self._checked(handling, pieces, self._held[name])

    def _add(self, handling: Handling, name: str) -> Iterator[Fault]:
        if handling.open_ended:
            return
        pieces = [p for p in self._work.experiment.apparatus if p.name == name]
        self._held[name] = self._held.get(name, Fraction(0)) + handling.amount.si_value
        yield from self._checked(handling, pieces, self._held[name])

    def _checked(
        self,
        handling: Handling,
        pieces: list[ListedApparatus],
        total: Fraction,
    ) -> Iterator[Fault]:
        largest = _largest(pieces)
        if largest is None or total <= largest.si_value:
            return
        yield Fault(
            handling.amount_place,
            f"with this the {pieces[0].name} of {typed(largest)} is to hold "
            f"{typed(in_cm3(total))}",
            _larger(self._work.laboratory.vocabulary.find(pieces[0].name), total),
        )
        self._held[pieces[0].name] = Fraction(0)

    def _listed(self, use: VesselUse) -> list[ListedApparatus]:
        names = {p.name for p in use.mention.pieces}
        vocabulary = self._work.laboratory.vocabulary
        return [
            listed
            for listed in self._work.experiment.apparatus
            if (piece := vocabulary.find(listed.name)) and piece.name in names
        ]


def made_beyond(work: WorkedExperiment) -> Iterator[Fault]:
    """Each total to which a solution is made up, in a vessel that does not hold it."""
    vocabulary = work.laboratory.vocabulary
    listed = [(vocabulary.find(p.name), p) for p in work.experiment.apparatus]
    for passage in work.materials.steps:
        for start, end, span in passage.passage.prose.quantities():
            before = passage.text[max(0, start - _LOOK_BACK) : start]
            if kind_of(span.quantity.unit) != "volume" or not _MADE_UP.search(before):
                continue
            meant = _made_up_in(passage, start)
            pieces = [p for piece, p in listed if piece and piece.name in meant]
            largest, total = _largest(pieces), span.quantity.si_value
            if largest is not None and total > largest.si_value:
                yield Fault(
                    passage.passage.prose.place(start, end),
                    f"the {pieces[0].name} of {typed(largest)} cannot be made up to "
                    f"{typed(span.quantity)}",
                    _larger(vocabulary.find(pieces[0].name), total),
                )


def _made_up_in(passage: NamedInPassage, start: int) -> set[str]:
    """The pieces in which a solution may be made up: a flask for it, or the last named."""
    named = [{p.name for p in m.pieces} for m in passage.apparatus if m.start < start]
    if not named or any(_MADE_UP_IN in names for names in named):
        return {_MADE_UP_IN}
    return named[-1]


def pipetted_beyond(work: WorkedExperiment) -> Iterator[Fault]:
    """Each amount to pipette that no listed pipette delivers, in one go or in several."""
    vocabulary = work.laboratory.vocabulary
    found = [(vocabulary.find(p.name), p) for p in work.experiment.apparatus]
    others = [p for piece, p in found if piece and piece.name in _OTHER_PIPETTES]
    bulbs = [p for piece, p in found if piece and piece.name in _BULB_PIPETTES]
    sizes = [p.capacity.si_value for p in bulbs if p.capacity]
    if not bulbs or others or len(bulbs) != len(sizes):
        return
    name, size = max(((p.name, p.capacity) for p in bulbs if p.capacity), key=_held)
    for passage in work.materials.steps:
        for start, end, span in passage.passage.prose.quantities():
            amount = span.quantity.si_value
            if kind_of(span.quantity.unit) != "volume" or amount <= max(sizes):
                continue
            if not _PIPETTES.search(passage.text[max(0, start - _LOOK_BACK) : start]):
                continue
            if not any((amount / each).denominator == 1 for each in sizes):
                yield Fault(
                    passage.passage.prose.place(start, end),
                    f"{typed(span.quantity)} is more than the {name} of "
                    f"{typed(size)} delivers",
                    _larger(vocabulary.find(name), amount),
                )


def _held(named: tuple[str, Quantity]) -> Fraction:
    return named[1].si_value


def _largest(pieces: list[ListedApparatus]) -> Quantity | None:
    """The capacity of the largest; None where any does not say."""
    stated = [p.capacity for p in pieces if p.capacity]
    if not stated or len(stated) != len(pieces):
        return None
    return max(stated, key=lambda q: q.si_value)


def _larger(piece: Piece | None, total: Fraction) -> str | None:
    """The next usual size that holds so much."""
    if piece is None:
        return None
    sizes = sorted(
        (c for c in piece.capacities if c.si_value >= total), key=lambda c: c.si_value
    )
    return f"{piece.name}, {typed(sizes[0])}" if sizes else None


def in_cm3(volume: Fraction) -> Quantity:
    """A volume in m³ as it is told: three figures, whole from 100 cm³ on."""
    number = rounded_to_figures(volume / _CM3.factor, 3, Rounding.UP)
    return Quantity(number.quantize(1) if number >= 100 else number.normalize(), _CM3)
