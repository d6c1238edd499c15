"""The safety family: hazards without their controls, chemicals that must not meet, waste.

What the checks propose stands in a finding for the author; what is printed is
what the author and the laboratory's rules say. A finding is no risk assessment.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from itertools import combinations
from typing import Final

from manualgen.checks.missing_controls import (
    missing_controls,
    place_of,
    spoken_of,
)
from manualgen.checks.registry import Report, check
from manualgen.checks.waste import sent_down_the_sink, without_disposal
from manualgen.knowledge import (
    Chemical,
    Form,
    InUse,
    Pair,
    incompatibility,
    mentions,
)
from manualgen.model.finding import Fault, Severity
from manualgen.quantities.kinds import kind_of
from manualgen.working.hazards import HazardEntry
from manualgen.working.naming import is_vague_name
from manualgen.working.worked import WorkedExperiment

_APART = re.compile(
    r"\b(?:apart|away from|separate|never|do not|not mix|must not|keep)\b",
    re.IGNORECASE,
)


_DILUTE: Final = Decimal(5)
"""Per cent w/w taken for a solid in a solution whose strength is not said."""


@check("hazard-unknown", Severity.WARNING)
def hazard_unknown(work: WorkedExperiment) -> Report:
    """The hazards of every chemical in use are known, be it that it has none."""
    for entry in work.materials.lineup.entries:
        for identity in entry.identities:
            if identity.chemical is not None and identity.classification is None:
                yield Fault(
                    identity.place,
                    f"nothing is known of the hazards of {identity.name}",
                    "hazards and their source in chemicals.yaml, from the supplier's "
                    "safety data sheet",
                )


@check("control-missing", Severity.ERROR)
def control_missing(work: WorkedExperiment) -> Report:
    """Each hazard has its usual control in a Safety box, a step or a standing rule."""
    yield from missing_controls(work)


@check("incompatible-chemicals", Severity.ERROR)
def incompatible_chemicals(work: WorkedExperiment) -> Report:
    """No two chemicals in use must be kept from each other, unless they are meant to react."""
    together = [_reactants(work, n) for n in range(len(work.reactions))]
    for (one, first), (other, second) in combinations(tuple(_in_use(work)), 2):
        pair = incompatibility(first, second)
        if pair is None or _meant(first.chemical, second.chemical, together):
            continue
        if _in_other_parts(one, other, work) or _kept_apart(first, second, work):
            continue
        yield _must_not_meet(one, other, pair, work)


@check("disposal-missing", Severity.ERROR)
def disposal_missing(work: WorkedExperiment) -> Report:
    """The Method's disposal has a word on each hazardous chemical, product and residue."""
    yield from without_disposal(work)


@check("disposal-route", Severity.ERROR)
def disposal_route(work: WorkedExperiment) -> Report:
    """Silver, lead, chromium, mercury, nickel, cobalt and solvents never go down the sink."""
    yield from sent_down_the_sink(work)


def _in_use(work: WorkedExperiment) -> Iterator[tuple[HazardEntry, InUse]]:
    for entry in work.hazards.entries:
        if entry.made is not None or not _is_used(entry, work):
            continue
        found = entry.classification
        for chemical in entry.chemicals:
            percent = found.percent_ww if found else None
            if percent is None and _is_dissolved(entry, chemical, work):
                percent = _DILUTE
            yield entry, InUse(chemical, percent)


def _is_dissolved(
    entry: HazardEntry, chemical: Chemical, work: WorkedExperiment
) -> bool:
    """Whether a solid is given out by volume, that is in solution."""
    assert entry.listed is not None
    amount = work.materials.lineup.entries[entry.listed].listed.amount
    by_volume = amount is not None and kind_of(amount.value.unit) == "volume"
    return by_volume and chemical.form is Form.SOLID


def _is_used(entry: HazardEntry, work: WorkedExperiment) -> bool:
    return (
        entry.listed is not None and work.materials.lineup.entries[entry.listed].in_use
    )


def _reactants(work: WorkedExperiment, reaction: int) -> set[str]:
    """The listed chemicals that one equation brings together, catalysts aside."""
    return {
        identity.chemical.substance
        for _, entries in work.reactions[reaction].entries
        for n in entries
        for identity in work.materials.lineup.entries[n].identities
        if identity.chemical
    }


def _meant(one: Chemical, other: Chemical, together: list[set[str]]) -> bool:
    """Whether one equation holds both."""
    return any({one.substance, other.substance} <= each for each in together)


def _in_other_parts(
    one: HazardEntry, other: HazardEntry, work: WorkedExperiment
) -> bool:
    """Whether lessons or stations part the two."""
    first, second = _parts_of(one, work), _parts_of(other, work)
    return bool(first and second) and not first & second


def _parts_of(entry: HazardEntry, work: WorkedExperiment) -> set[int]:
    return {
        p.passage.part
        for p in work.materials.steps
        for named in p.chemicals
        if entry.listed in named.entries
        if named.sole is not None or not is_vague_name(p.text, named)
    }


def _kept_apart(one: InUse, other: InUse, work: WorkedExperiment) -> bool:
    """Whether a sentence on safety names both and says to keep them apart."""
    wanted = {one.chemical.substance, other.chemical.substance}
    for text in spoken_of(work).splitlines():
        for sentence in re.split(r"(?<=[.;!])\s", text):
            if _APART.search(sentence):
                found = mentions(sentence, work.laboratory.store).chemicals
                if wanted <= {m.chemical.substance for m in found}:
                    return True
    return False


def _must_not_meet(
    one: HazardEntry, other: HazardEntry, pair: Pair, work: WorkedExperiment
) -> Fault:
    return Fault(
        place_of(one, work),
        f"{one.name} and {other.name} {pair.because}: they must not meet",
        "keep them apart, in different practicals; where they are meant to react, "
        "give the equation and name the control",
    )
