"""``Heat it for `10 m` to `60 C` ``: units of another kind than the sentence asks for."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from manualgen.model.finding import Fault
from manualgen.quantities.mend import typed
from manualgen.working.worked import WorkedExperiment

_FOR = re.compile(
    r"\bfor (?:about |another |a further |at least |exactly |only |the first |the next )*$",
    re.IGNORECASE,
)
_LASTS = re.compile(
    r"\b(?:heat|boil|warm|simmer|reflux|stir|shak|swirl|wait|leav|left|stand|soak|cool|dry|"
    r"centrifug|electrolys|keep|let|rest|react|go on|continu|repeat|refill|digest)",
    re.IGNORECASE,
)
_AT = re.compile(
    r"\b(?:to|at|about|above|below|reach(?:es|ed)?|of|than|from|between|and|is|reads?) $",
    re.IGNORECASE,
)
_ELECTRIC = re.compile(r"\b(?:charge|coulomb|current|ammeter|electr)", re.IGNORECASE)
_LOOK_BACK: Final = 40


def of_another_kind(work: WorkedExperiment) -> Iterator[Fault]:
    """Each quantity of a step that is of another kind than its sentence asks for."""
    yield from _metres_for_minutes(work)
    yield from _coulombs_for_degrees(work)


def _metres_for_minutes(work: WorkedExperiment) -> Iterator[Fault]:
    """Each length that a step gives as the time for which something goes on."""
    for passage in work.materials.passages:
        prose = passage.passage.prose
        for start, end, span in prose.quantities():
            if span.quantity.unit.text != "m":
                continue
            before = prose.text[max(0, start - _LOOK_BACK) : start]
            begin = max((s for s, e in prose.sentences if s <= start), default=0)
            if _FOR.search(before) and _LASTS.search(prose.text[begin:start]):
                said = typed(span.quantity)
                message = f"{said} is a length, and a time belongs here"
                yield Fault(prose.place(start, end), message, f"{said}in")


def _coulombs_for_degrees(work: WorkedExperiment) -> Iterator[Fault]:
    """``Warm it to `60 C` ``: a charge where nothing is electric."""
    passages = work.materials.passages
    if any(_ELECTRIC.search(p.text) for p in passages):
        return
    for passage in passages:
        prose = passage.passage.prose
        for start, end, span in prose.quantities():
            before = prose.text[max(0, start - _LOOK_BACK) : start]
            if span.quantity.unit.text == "C" and _AT.search(before):
                said = typed(span.quantity)
                message = (
                    f"{said} is an electric charge, and a temperature belongs here"
                )
                yield Fault(prose.place(start, end), message, f"{said[:-1]}°C")
