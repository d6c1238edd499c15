"""Amounts and electrical values of steps that are of another kind than they can be.

``30 cm`` of an acid, ``1.5`` of a salt without a unit, a current of ``2 V``. What
a step may have made a solution of is not judged by the form that is listed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Final

from manualgen.checks.agreeing import with_verb
from manualgen.knowledge import Form
from manualgen.knowledge.stems import any_of
from manualgen.knowledge.tables import read_table
from manualgen.model.finding import Fault
from manualgen.quantities import Quantity, parse_unit
from manualgen.quantities.kinds import PURE, a_kind, kind_of
from manualgen.quantities.mend import typed
from manualgen.working.handling import Handling
from manualgen.working.listed import Resolved
from manualgen.working.naming import NamedInPassage
from manualgen.working.worked import WorkedExperiment

_DISSOLVES = re.compile(r"\b(?:dissol|solution|melt|molten|make up|made up)", re.I)
_PARTS = re.compile(r"\b(?:ratio|parts?|moles?|equivalents?)\b", re.IGNORECASE)
_OF = re.compile(r"\s+of\s+(?:dry\s+|solid\s+|more\s+)?$", re.IGNORECASE)
_ELSE = re.compile(r"\b(?:deep|depth|high|height|layer|column|weigh)", re.IGNORECASE)
"""A depth is a length, and what is weighed by volume is told as that."""

_DEEPEST: Final = 10
"""In cm: so deep no vessel of a step is filled, while *1 cm of it* is a depth."""
_LOOK_BACK: Final = 48


def steps_of_another_kind(work: WorkedExperiment) -> Iterator[Fault]:
    """Each amount of a step that the chemical cannot have, and each electrical slip."""
    entries = work.materials.lineup.entries
    dissolves = any(_DISSOLVES.search(p.text) for p in work.materials.steps)
    for handling in work.materials.handlings:
        sole = handling.named.sole
        if sole is not None and not _ELSE.search(_sentence(handling, work)):
            yield from _of_entry(handling, entries[sole], dissolves=dissolves)
    for passage in work.materials.steps:
        yield from _without_unit(passage)
        yield from _named_otherwise(passage)


def _sentence(handling: Handling, work: WorkedExperiment) -> str:
    start, end = handling.sentence
    return work.materials.passages[handling.passage].text[start:end]


def _of_entry(
    handling: Handling, entry: Resolved, *, dissolves: bool
) -> Iterator[Fault]:
    own, listed = handling.amount, entry.listed.amount
    if listed is None or own.upper is not None:
        return
    given, name = kind_of(listed.value.unit), entry.listed.name
    is_cube = own.unit.text == "cm" and own.value >= _DEEPEST
    if kind_of(own.unit) == "length" and given == "volume" and is_cube:
        message = (
            f"{typed(own)} is {a_kind(own.unit)}, and the list gives {name} by volume"
        )
        yield Fault(handling.amount_place, message, f"{typed(own)}3")
    is_solid = entry.chemical is not None and entry.chemical.form is Form.SOLID
    if not is_solid or entry.listed.strength is not None:
        return
    if kind_of(own.unit) == "volume" and given == "mass" and not dissolves:
        message = (
            f"{typed(own)} is {a_kind(own.unit)}, and the list gives {name} by mass"
        )
        yield Fault(handling.amount_place, message)
    is_bare = given == PURE and listed.value.unit.text == "1"
    if kind_of(own.unit) == "mass" and is_bare:
        said, unit = typed(listed.value), own.unit.text
        message = (
            f"{said} has no unit, and {with_verb(name, 'is')} weighed out in the steps"
        )
        yield Fault(listed.place, message, f"{said} {unit}")


def _without_unit(passage: NamedInPassage) -> Iterator[Fault]:
    """`1.5` of a chemical: neither a count nor, where it is above one, a part of it."""
    prose = passage.passage.prose
    if _PARTS.search(prose.text):
        return
    for start, end, span in prose.quantities():
        if not _is_bare(span.quantity):
            continue
        for named in passage.chemicals:
            gap = prose.text[end : named.start] if named.start >= end else ""
            if _OF.fullmatch(gap) and not named.short:
                said = typed(span.quantity)
                words = prose.text[named.start : named.end]
                message = f"{said} of {' '.join(words.split())} has no unit"
                mend = "the amount with its unit, such as `1.5 g`"
                yield Fault(prose.place(start, end), message, mend)
                break


def _is_bare(quantity: Quantity) -> bool:
    is_pure = kind_of(quantity.unit) == PURE and quantity.unit.text == "1"
    return is_pure and quantity.value > 1


def _named_otherwise(passage: NamedInPassage) -> Iterator[Fault]:
    """``A current of `2 V` ``: the name says another kind than the unit."""
    prose = passage.passage.prose
    for start, end, span in prose.quantities():
        before = prose.text[max(0, start - _LOOK_BACK) : start]
        found = _names().search(before)
        if found is None or kind_of(span.quantity.unit) == PURE:
            continue
        name = " ".join(found["name"].casefold().split())
        usual = parse_unit(_units()[name])
        if span.quantity.dimension != usual.dimension:
            said = typed(span.quantity)
            message = f"{said} is {a_kind(span.quantity.unit)}, and a {name} is in {usual.text}"
            yield Fault(prose.place(start, end), message)


@cache
def _units() -> dict[str, str]:
    """What a name says of its unit, whatever follows it: a current is in amperes."""
    rows = read_table("quantity_names").rows("of_one_kind")
    return {row.text("name"): row.text("unit") for row in rows}


@cache
def _names() -> re.Pattern[str]:
    return re.compile(
        rf"\b(?:an?|the|this|steady|constant) (?P<name>{any_of(_units())}) of "
        r"(?:about |exactly |at most |no more than |at least )?$",
        re.IGNORECASE,
    )
