"""The strength that a calculation gives a bottle, held against the list's.

    c_a = 0.0400 mol/dm3    # concentration of the hydrochloric acid

A calculation may speak of the solution in the bottle, of what was diluted from it,
of a mixture, or of the exact strength behind a round one. Only what can be none
but the first is compared: a description that names one listed chemical and says
nothing else of it, no step that dilutes it, and two strengths too far apart to
be a round one and its exact value.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from manualgen.checks.agreeing import with_verb
from manualgen.model.fences import Calculation, Computed, Given
from manualgen.model.finding import Fault
from manualgen.model.walk import blocks_of
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import is_strength, kind_of
from manualgen.quantities.mend import typed
from manualgen.working.listed import Lineup, Resolved
from manualgen.working.naming import NamedInPassage
from manualgen.working.prose import Prose, prose_of
from manualgen.working.worked import WorkedExperiment

SAME_BOTTLE: Final = Fraction(3, 2)
"""Up to this ratio one strength may be the exact value of the other; common practice, no source."""

_OF_THE_BOTTLE: Final = frozenset(
    (
        *("concentration", "strength", "molarity", "solution", "standard", "dilute"),
        *("of", "the", "a", "an", "this", "our", "your", "its", "from", "on", "in"),
        *("to", "by", "as", "is", "known", "given", "stated", "listed", "used"),
        *("label", "bottle", "list", "acid", "alkali", "titrant", "aqueous"),
        *("burette", "pipette", "technician"),
    )
)
"""What may be said of a chemical without making it another solution."""

_DILUTES = re.compile(
    r"dilut|\bmak(?:e|es|ing) (?:it |this |them |the \w+ )?up\b|\bmade up\b|to the mark|"
    r"volumetric flask|graduated flask",
    re.IGNORECASE,
)
_MIXES = re.compile(r"\bmixtures?\b|\bquench|\bsamples?\b|\baliquots?\b", re.IGNORECASE)
_MEASURES = re.compile(r"\bburette|\bpipett", re.IGNORECASE)
_RUNS_IN = re.compile(r"\bburette", re.IGNORECASE)
"""Where mixtures are made, what stands in the burette is none of them."""


def misstated_strengths(work: WorkedExperiment) -> Iterator[Fault]:
    """Each strength in a calculation that is not the listed strength of its bottle."""
    for line in _givens(work):
        number = _bottle(line, work)
        if number is None:
            continue
        entry = work.materials.lineup.entries[number]
        listed = entry.strength
        if not isinstance(listed, Quantity) or not _is_other(line.quantity, listed):
            continue
        is_weaker = line.quantity.si_value < listed.si_value
        if is_weaker and not _stays_as_it_is(number, work):
            continue
        yield _fault(line, entry, listed)


def _fault(line: Given, entry: Resolved, listed: Quantity) -> Fault:
    here, there = typed(line.quantity), typed(listed)
    name = entry.listed.shown or entry.listed.name
    return Fault(
        line.value_place,
        f"{with_verb(name, 'is')} {here} in this calculation and {there} on the list",
        f"{there} here, or {here} on the list",
    )


def _givens(work: WorkedExperiment) -> Iterator[Given]:
    """The strengths that calculations state; what one works out is no statement."""
    lines = [x for c in blocks_of(work.experiment, Calculation) for x in c.lines]
    computed = {line.symbol for line in lines if isinstance(line, Computed)}
    for line in lines:
        if (
            isinstance(line, Given)
            and not line.measured
            and line.symbol not in computed
            and is_strength(line.quantity.unit)
        ):
            yield line


def _bottle(line: Given, work: WorkedExperiment) -> int | None:
    """The one listed chemical of which a line's description speaks, and of no more."""
    prose = prose_of(line.description)
    found = tuple(_named(prose, work.materials.lineup))
    entries = {n for _, _, numbers in found for n in numbers}
    if len(entries) != 1 or any(len(numbers) != 1 for _, _, numbers in found):
        return None
    rest = "".join(
        " " if any(s <= at < e for s, e, _ in found) else letter
        for at, letter in enumerate(prose.text.casefold())
    )
    if not set(re.findall(r"[^\W_]+", rest)) <= _OF_THE_BOTTLE:
        return None
    (number,) = entries
    return (
        number if len(work.materials.lineup.entries[number].identities) == 1 else None
    )


def _named(prose: Prose, lineup: Lineup) -> Iterator[tuple[int, int, tuple[int, ...]]]:
    """What a description names, full names before short ones."""
    full = [(p.start, p.end, p.value) for p in lineup.names.find(prose.text)]
    full += [
        (start, end, _of_formula(str(span.formula), lineup))
        for start, end, span in prose.formulas()
    ]
    yield from full
    for p in lineup.short.find(prose.text):
        if not any(s < p.end and p.start < e for s, e, _ in full):
            yield p.start, p.end, p.value


def _of_formula(formula: str, lineup: Lineup) -> tuple[int, ...]:
    return tuple(
        n
        for n, entry in enumerate(lineup.entries)
        if entry.chemical and str(entry.chemical.formula) == formula
    )


def _is_other(said: Quantity, listed: Quantity) -> bool:
    if kind_of(said.unit) != kind_of(listed.unit) or not (
        said.si_value > 0 and listed.si_value > 0
    ):
        return False
    ratio = said.si_value / listed.si_value
    return max(ratio, 1 / ratio) >= SAME_BOTTLE


def _stays_as_it_is(number: int, work: WorkedExperiment) -> bool:
    """Whether a titration uses a chemical as it comes out of its bottle.

    Outside of titrations a weaker strength may be that in a mixture.
    """
    passages = work.materials.passages
    if not any("titrat" in passage.text.casefold() for passage in passages):
        return False
    for n, passage in enumerate(passages):
        # What one step puts into a flask the next may make up to the mark.
        behind = passages[n + 1].text if n + 1 < len(passages) else ""
        if _names(passage, number) and _DILUTES.search(f"{passage.text}\n{behind}"):
            return False
    mixes = any(_MIXES.search(passage.text) for passage in passages)
    measures = _RUNS_IN if mixes else _MEASURES
    return any(
        _names(passage, number) and measures.search(passage.text)
        for passage in passages
    )


def _names(passage: NamedInPassage, number: int) -> bool:
    return any(number in named.entries for named in passage.chemicals)
