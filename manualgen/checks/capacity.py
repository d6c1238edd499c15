"""Vessels that cannot hold what a step puts in, collectors too small for the gas.

A vessel is followed through the steps of a part while there is one only of its
kind, until a step empties it; where there are several, each amount counts by
itself, as it does for what only measures.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from manualgen.chemistry import gas_volume
from manualgen.knowledge import Piece
from manualgen.model.finding import Fault
from manualgen.model.lab import ListedApparatus
from manualgen.quantities import Quantity, parse_unit
from manualgen.quantities.figures import Rounding, rounded_to_figures
from manualgen.quantities.kinds import kind_of
from manualgen.quantities.mend import typed
from manualgen.working.evolved import Reaction
from manualgen.working.handling import Handling, VesselUse
from manualgen.working.worked import WorkedExperiment

_CM3 = parse_unit("cm3")
_EMPTIED = re.compile(
    r"\b(?:empt(?:y|ied)|pour(?:ed)? (?:it |them |the contents |the mixture |the liquid )?"
    r"(?:away|out|off|into)|discard\w*|rins\w*|wash\w*|clean\w*|tip\w*|filter\w*|transfer\w*|"
    r"decant\w*|throw\w* away|start again|replace\w*|evaporat\w*|boil\w* (?:off|away|down)|"
    r"distil\w*)\b",
    re.IGNORECASE,
)
_ADDS = re.compile(r"\b(?:add|adds|added|adding|pour|run|top up)\b", re.IGNORECASE)
_COLLECTORS: Final = frozenset({"gas syringe", "eudiometer"})
_OVER_WATER: Final = frozenset(
    {"measuring cylinder", "burette", "gas jar", "boiling tube"}
)
_COLLECTS = re.compile(
    r"\b(?:over water|inverted|upturned|upside down|collect the gas|full of water)\b",
    re.I,
)
_MARGIN: Final = Fraction(102, 100)


def overfilled(work: WorkedExperiment) -> Iterator[Fault]:
    """Each amount that makes a vessel run over or that a piece cannot measure at once."""
    filling = _Filling(work)
    for number, passage in enumerate(work.materials.passages):
        for start, end in passage.passage.prose.sentences():
            here = [
                h
                for h in work.materials.handlings
                if h.passage == number and start <= h.named.start < end
            ]
            if not here and _EMPTIED.search(passage.text, start, end):
                filling.empty()
            for handling in here:
                yield from filling.take(handling, passage.text[start:end])


class _Filling:
    """What each vessel holds so far, by its name."""

    def __init__(self, work: WorkedExperiment) -> None:
        self._work = work
        self._held: dict[str, Fraction] = {}
        self._last: str | None = None
        self._part = 0

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
            f"{typed(_in_cm3(total))}",
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


def gas_overflows(work: WorkedExperiment) -> Iterator[Fault]:
    """Each listed gas syringe, or cylinder over water, too small for the gas made."""
    most = max(
        ((_gas(r, work), r) for r in work.reactions),
        key=lambda each: each[0],
        default=(Fraction(0), None),
    )[0]
    for listed in _collectors(work):
        if listed.capacity and most > listed.capacity.si_value * _MARGIN:
            yield Fault(
                listed.place,
                f"the {listed.name} takes {typed(listed.capacity)}, and the amounts used "
                f"make about {typed(_in_cm3(most))} of gas",
                "less of what runs out first, or a larger collector",
            )


def _gas(reaction: Reaction, work: WorkedExperiment) -> Fraction:
    """The volume of gas in m³ that one filling makes; nought where it is not known."""
    result = reaction.outcome(work.materials, largest=True)
    if result is None:
        return Fraction(0)
    moles = sum(
        (
            n
            for term, n in result.formed
            if term.state == "g" and str(term.formula) != "H2O"
        ),
        Fraction(0),
    )
    settings = work.settings
    return gas_volume(moles, settings.temperature.si_value, settings.pressure.si_value)


def _collectors(work: WorkedExperiment) -> Iterator[ListedApparatus]:
    text = "\n".join(p.text for p in work.materials.passages)
    over_water = bool(_COLLECTS.search(text))
    for listed in work.experiment.apparatus:
        piece = work.laboratory.vocabulary.find(listed.name)
        if piece is None:
            continue
        if piece.name in _COLLECTORS or (over_water and piece.name in _OVER_WATER):
            yield listed


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


def _in_cm3(volume: Fraction) -> Quantity:
    number = rounded_to_figures(volume / _CM3.factor, 3, Rounding.UP)
    return Quantity(number.quantize(1) if number >= 100 else number.normalize(), _CM3)
