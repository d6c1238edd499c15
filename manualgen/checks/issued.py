"""What the steps use against what the list gives out, and what is said to be in excess."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from manualgen.checks.agreeing import it, with_verb
from manualgen.model.finding import Fault
from manualgen.model.place import Place
from manualgen.quantities import Quantity
from manualgen.quantities.figures import Rounding, rounded_to_figures
from manualgen.quantities.kinds import kind_of
from manualgen.quantities.mend import typed
from manualgen.working.evolved import Reaction
from manualgen.working.handling import Handling
from manualgen.working.materials import Materials
from manualgen.working.repeats import repeated
from manualgen.working.worked import WorkedExperiment

_CLAIMED_BEFORE = re.compile(
    r"\b(?:an?|the|slight|large)?\s*excess (?:of )?(?:the )?$", re.I
)
_CLAIMED_BEHIND = re.compile(
    r"\s*,?\s*(?:which |that )?(?:is |are )?(?:in|an) (?:slight |large )?excess\b", re.I
)
_BY_RESULT = re.compile(
    r"\b(?:until|then in excess|drop by drop|dropwise|more)\b", re.I
)
_TAP = re.compile(r"\b(?:tap|hot|boiling|warm)\s+$", re.IGNORECASE)
_OUT_OF_THE_TAP = re.compile(
    r"\s+(?:out of|from) (?:the|a) (?:\w+ )?(?:tap|kettle)\b", re.I
)


def overdrawn(work: WorkedExperiment) -> Iterator[Fault]:
    """Each chemical of which the steps use more than each group is given."""
    more = repeated(work.experiment)
    for n, entry in enumerate(work.materials.lineup.entries):
        amount, name = entry.listed.amount, entry.listed.shown or entry.listed.name
        if amount is None or entry.listed.shared or not entry.in_use:
            continue
        issued = amount.value
        over = _first_over(work.materials, n, issued, more)
        if over is not None:
            used, place, is_repeated = over
            again = " and its repeats" if is_repeated else ""
            yield Fault(
                place,
                f"with this{again} the steps use {typed(used)} of {name}, and each group is "
                f"given {typed(issued)}",
                f"{typed(used)} of {name} on the list, and a little over, or less here",
            )


def _first_over(
    materials: Materials, entry: int, issued: Quantity, more: Mapping[int, int]
) -> tuple[Quantity, Place, bool] | None:
    """The sum that is too much, the amount's place, and whether steps are done again."""
    limit = issued.si_upper or issued.si_value
    total, is_repeated = Fraction(0), False
    for handling in materials.handled(entry):
        alike = kind_of(handling.amount.unit) == kind_of(issued.unit)
        if handling.open_ended or not alike or _is_tap_water(materials, handling):
            continue
        step = materials.passages[handling.passage].passage.step
        again = more.get(step, 0) if step is not None else 0
        total += handling.amount.si_value * handling.times * (1 + again)
        is_repeated = is_repeated or again > 0
        if total > limit:
            return _in_unit_of(issued, total), handling.amount_place, is_repeated
    return None


def _is_tap_water(materials: Materials, handling: Handling) -> bool:
    """Hot water and water from the kettle are not the deionised water of the list."""
    text, named = materials.passages[handling.passage].text, handling.named
    if text[named.start : named.end].casefold() != "water":
        return False
    before = text[max(0, named.start - 12) : named.start]
    return bool(_TAP.search(before) or _OUT_OF_THE_TAP.match(text, named.end))


def _in_unit_of(like: Quantity, si_value: Fraction) -> Quantity:
    number = si_value / like.unit.factor
    return Quantity(rounded_to_figures(number, 4, Rounding.UP).normalize(), like.unit)


@dataclass(frozen=True, slots=True)
class _Claim:
    """Somebody says that a listed chemical is in excess."""

    entry: int
    place: Place


def short_of_excess(work: WorkedExperiment) -> Iterator[Fault]:
    """Each claim of an excess whose chemical runs out first."""
    said: set[int] = set()
    for claim in _claims(work):
        for reaction in work.reactions:
            fault = _unless_in_excess(claim, reaction, work.materials)
            if fault is not None and claim.entry not in said:
                said.add(claim.entry)
                yield fault


def _claims(work: WorkedExperiment) -> Iterator[_Claim]:
    for n, entry in enumerate(work.materials.lineup.entries):
        if entry.listed.excess and entry.listed.amount:
            yield _Claim(n, entry.listed.place)
    for passage in work.materials.steps:
        text = passage.text
        for start, end in passage.passage.prose.sentences:
            here = [c for c in passage.chemicals if start <= c.start < end]
            if not here or _BY_RESULT.search(text, start, end):
                continue
            for named in here:
                before = _CLAIMED_BEFORE.search(text[start : named.start])
                behind = _CLAIMED_BEHIND.match(text, named.end)
                if named.sole is not None and (before or behind):
                    place = passage.passage.prose.place(named.start, named.end)
                    yield _Claim(named.sole, place)


def _unless_in_excess(
    claim: _Claim, reaction: Reaction, materials: Materials
) -> Fault | None:
    """What is wrong with a claim by one equation; None where it holds or cannot be told."""
    own = next((t for t, entries in reaction.entries if claim.entry in entries), None)
    amounts = reaction.amounts(materials)
    if own is None or amounts is None or own.formula not in amounts:
        return None
    rivals = [
        (t, n)
        for t, e in reaction.entries
        if e and (n := amounts.get(t.formula)) is not None
    ]
    others = [(t, n) for t, n in rivals if t is not own]
    if not others:
        return None
    rival, moles = min(others, key=lambda each: each[1] / each[0].amount)
    needed = moles / rival.amount * own.amount
    have = amounts[own.formula]
    if have > needed:
        return None
    name = materials.lineup.entries[claim.entry].listed.name
    return Fault(
        claim.place,
        f"{with_verb(name, 'is')} said to be in excess, and {_mol(have)} mol of {it(name)} "
        "is no more than the "
        f"{_mol(needed)} mol that the {rival.formula} uses up",
        _more(claim, materials, needed / have),
    )


def _mol(moles: Fraction) -> str:
    return f"{rounded_to_figures(moles, 3, Rounding.UP)}"


def _more(claim: _Claim, materials: Materials, factor: Fraction) -> str | None:
    amount = materials.lineup.entries[claim.entry].listed.amount
    if amount is None:
        return None
    needed = amount.value.si_value * factor / amount.value.unit.factor
    least = Quantity(
        rounded_to_figures(needed * Fraction(11, 10), 2, Rounding.UP), amount.value.unit
    )
    return f"{typed(least)} or more"
