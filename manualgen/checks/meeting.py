"""Which chemicals of a practical may meet, and whether they are meant to.

Two meet that are both in use, in one lesson or station, and that no sentence on
safety says to keep apart. They are meant to where an equation holds both.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations
from typing import Final, TypeAlias

from manualgen.chemistry import Formula, Term, parse_formula
from manualgen.chemistry.dissociation import dissociated
from manualgen.knowledge import (
    Chemical,
    Form,
    InUse,
    Pair,
    find_chemical,
    mentions,
)
from manualgen.model.blocks import BoxKind
from manualgen.model.place import Place
from manualgen.quantities.kinds import kind_of
from manualgen.working.hazards import HazardEntry
from manualgen.working.method import box_texts, boxes
from manualgen.working.naming import is_vague_name
from manualgen.working.worked import WorkedEquation, WorkedExperiment

_Kind: TypeAlias = "tuple[frozenset[tuple[str, object]], int]"

_APART = re.compile(
    r"\b(?:apart|away from|separate|never|do not|not mix|must not|keep)\b",
    re.IGNORECASE,
)


_DILUTE: Final = Decimal(5)
"""Per cent w/w taken for a solid in a solution whose strength is not said."""

_ACIDIC: Final = {"acids": parse_formula("H^+"), "alkalis": parse_formula("OH^-")}
"""What a family stands as in an ionic equation."""


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two chemicals in use that make a pair of a table."""

    one: HazardEntry
    other: HazardEntry
    pair: Pair
    meant: bool
    """Whether an equation holds both."""


def meetings(
    work: WorkedExperiment, paired: Callable[[InUse, InUse], Pair | None]
) -> Iterator[Meeting]:
    """Each two chemicals in use that may meet and make a pair."""
    for (one, first), (other, second) in combinations(tuple(_in_use(work)), 2):
        pair = paired(first, second)
        if pair is None or _in_other_parts(one, other, work):
            continue
        if _kept_apart(first, second, work):
            continue
        meant = _is_meant(first.chemical, second.chemical, work)
        yield Meeting(one, other, pair, meant)


def kin_in_use(work: WorkedExperiment) -> set[str]:
    """The families of all chemicals in use."""
    return {kin for _, used in _in_use(work) for kin in used.chemical.kin}


def place_of(entry: HazardEntry, work: WorkedExperiment) -> Place:
    """Where a line of the hazard box comes from: the list or an equation."""
    if entry.made is not None:
        return entry.made.place
    assert entry.listed is not None
    return work.materials.lineup.entries[entry.listed].listed.place


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


def _is_meant(one: Chemical, other: Chemical, work: WorkedExperiment) -> bool:
    """Whether one equation holds both, be it as their ions."""
    wanted = {one.substance, other.substance}
    if any(wanted <= _reactants(work, n) for n in range(len(work.reactions))):
        return True
    first, second = _species(one), _species(other)
    return any(_holds_both(e, first, second) for e in work.equations)


def _holds_both(worked: WorkedEquation, first: set[_Kind], second: set[_Kind]) -> bool:
    if worked.block is not None and worked.block.half:
        return False
    left = [_kind(t.formula) for t in worked.balance.equation.reactants]
    return any(
        a in first and b in second
        for n, a in enumerate(left)
        for m, b in enumerate(left)
        if n != m
    )


def _species(chemical: Chemical) -> set[_Kind]:
    """What a chemical may stand as in an equation: itself or its ions."""
    pure = find_chemical(chemical.strength_of or chemical.substance) or chemical
    found = {_kind(ion) for name, ion in _ACIDIC.items() if name in chemical.kin}
    if pure.formula is None:
        return found
    whole = pure.formula.anhydrous
    apart = dissociated(Term(None, whole, "aq"))
    return found | {_kind(whole)} | {_kind(term.formula) for term in apart}


def _kind(formula: Formula) -> _Kind:
    """A species however it is written: ``OCl^-`` is ``ClO^-``."""
    return frozenset(formula.atoms.items()), formula.charge


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


def spoken_of(work: WorkedExperiment) -> str:
    """All text in which a control counts."""
    steps = [p.text for p in work.materials.steps]
    safety = [
        prose.text
        for box in boxes(work.experiment, BoxKind.SAFETY)
        for prose in box_texts(box)
    ]
    return "\n".join((*steps, *safety, *work.settings.standing_controls))
