"""Gas syringes, and cylinders over water, too small for the gas that is made."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from fractions import Fraction
from typing import Final

from manualgen.checks.agreeing import with_verb
from manualgen.checks.capacity import in_cm3
from manualgen.chemistry import gas_volume
from manualgen.model.finding import Fault
from manualgen.model.lab import ListedApparatus
from manualgen.quantities.mend import typed
from manualgen.working.evolved import Reaction
from manualgen.working.worked import WorkedExperiment

_COLLECTORS: Final = frozenset({"gas syringe", "eudiometer"})
_OVER_WATER: Final = frozenset(
    {"measuring cylinder", "burette", "gas jar", "boiling tube"}
)
_COLLECTS = re.compile(
    r"\b(?:over water|inverted|upturned|upside down|collect the gas|full of water)\b",
    re.I,
)
_MARGIN: Final = Fraction(102, 100)


def gas_overflows(work: WorkedExperiment) -> Iterator[Fault]:
    """Each listed gas syringe, or cylinder over water, too small for the gas made.

    Of several cylinders the largest is the one that catches the gas.
    """
    most = max((_gas(r, work) for r in work.reactions), default=Fraction(0))
    if not most:
        return
    largest: dict[str, ListedApparatus] = {}
    for listed in _collectors(work):
        known = largest.setdefault(listed.name, listed)
        if listed.capacity is None or known.capacity is None:
            largest.pop(listed.name)
        elif listed.capacity.si_value > known.capacity.si_value:
            largest[listed.name] = listed
    for listed in largest.values():
        if listed.capacity and most > listed.capacity.si_value * _MARGIN:
            yield Fault(
                listed.place,
                f"the {with_verb(listed.name, 'takes')} {typed(listed.capacity)}, and the amounts used "
                f"make about {typed(in_cm3(most))} of gas",
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
    """The listed pieces in which the gas is caught.

    A cylinder catches gas where a sentence says so; where that names another
    vessel, or a gas syringe is listed, it is there to measure with.
    """
    vocabulary = work.laboratory.vocabulary
    listed = [(vocabulary.find(p.name), p) for p in work.experiment.apparatus]
    proper = [p for piece, p in listed if piece and piece.name in _COLLECTORS]
    yield from proper
    if not proper:
        catching = _catching(work)
        yield from (p for piece, p in listed if piece and piece.name in catching)


def _catching(work: WorkedExperiment) -> Collection[str]:
    """The vessels over water that the sentences on collecting name, or else any."""
    is_caught, named = False, set[str]()
    for passage in work.materials.passages:
        for start, end in passage.passage.prose.sentences:
            if _COLLECTS.search(passage.text, start, end):
                is_caught = True
                here = (m for m in passage.apparatus if start <= m.start < end)
                named |= {p.name for m in here for p in m.pieces}
    return (named & _OVER_WATER or _OVER_WATER) if is_caught else ()
