"""Lessons and stations: what of an experiment is needed in one part of its Method."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from manualgen.model.blocks import Blocks, PartHeading, PartKind
from manualgen.model.experiment import Experiment, SectionKind
from manualgen.model.fences import Setup
from manualgen.model.lab import ListedApparatus
from manualgen.model.walk import walk
from manualgen.quantities import Quantity
from manualgen.working.materials import drawn_pieces, entries_named
from manualgen.working.worked import WorkedExperiment


def parts_of(experiment: Experiment) -> tuple[PartHeading, ...]:
    """The lessons and stations of the Method, in order; the first counts as 1."""
    return tuple(b for b in _method(experiment) if isinstance(b, PartHeading))


def part_called(experiment: Experiment, words: str) -> int | None:
    """The number of the part that words such as ``Lesson 2`` name, or None."""
    wanted = " ".join(words.split()).casefold()
    for number, part in enumerate(parts_of(experiment), start=1):
        if wanted == f"{part.kind} {part.label}".casefold():
            return number
    return None


def entries_by_part(work: WorkedExperiment) -> dict[int, set[int]]:
    """The parts in which each listed chemical is named or drawn."""
    found: dict[int, set[int]] = {}
    for named in work.materials.passages:
        for chemical in named.chemicals:
            for entry in chemical.entries:
                found.setdefault(entry, set()).add(named.passage.part)
    for part, drawing in _drawings(work.experiment):
        for piece in drawing.pieces:
            for content in piece.contents:
                for entry in entries_named(content.name, work.materials.lineup):
                    found.setdefault(entry, set()).add(part)
    return found


def needs_chemical(work: WorkedExperiment, entry: int, part: int | None) -> bool:
    """Whether a part needs a listed chemical; what no part names, each may need."""
    used = entries_by_part(work).get(entry, set())
    return part is None or not used - {0} or part in used


def needs_apparatus(
    work: WorkedExperiment, listed: ListedApparatus, part: int | None
) -> bool:
    """Whether a part needs a piece; what no part names, each may need."""
    used = parts_with(work, listed)
    return part is None or not used - {0} or part in used


def parts_with(work: WorkedExperiment, listed: ListedApparatus) -> set[int]:
    """The parts in which a piece is named or drawn."""
    piece = work.laboratory.vocabulary.find(listed.name)
    if piece is None:
        return set()
    named = {
        passage.passage.part
        for passage in work.materials.passages
        if any(piece in mention.pieces for mention in passage.apparatus)
    }
    drawn = {
        part
        for part, drawing in _drawings(work.experiment)
        if piece.name in drawn_pieces((drawing,))
    }
    return named | drawn


def amount_in_part(
    work: WorkedExperiment, entry: int, part: int | None
) -> Quantity | None:
    """What each group is given for a part: what its steps use, where they say it.

    The whole amount on the list where they do not, or where no other part
    uses the chemical.
    """
    listed = work.materials.lineup.entries[entry].listed
    whole = listed.amount.value if listed.amount else _handled(work, entry, None)
    used = entries_by_part(work).get(entry, set()) - {0}
    if part is None or used <= {part}:
        return whole
    in_part = _handled(work, entry, part)
    if in_part is None or whole is None or in_part.dimension != whole.dimension:
        return whole
    return min(in_part, whole, key=lambda amount: amount.si_value)


def stations_with(work: WorkedExperiment, used: set[int]) -> int:
    """How many stations use something; all of them where none is known to."""
    stations = {
        number
        for number, part in enumerate(parts_of(work.experiment), start=1)
        if part.kind is PartKind.STATION
    }
    return len(stations & used or stations) or 1


def _handled(work: WorkedExperiment, entry: int, part: int | None) -> Quantity | None:
    handled = [
        h for h in work.materials.handled(entry) if part is None or h.part == part
    ]
    if not handled or any(h.open_ended for h in handled):
        return None
    first = handled[0].amount
    if any(h.amount.dimension != first.dimension for h in handled):
        return None
    total = sum((h.amount.si_value * h.times for h in handled), Fraction(0))
    in_unit = total / first.unit.factor
    return Quantity(_decimal(in_unit), first.unit)


def _decimal(value: Fraction) -> Decimal:
    return Decimal(value.numerator) / Decimal(value.denominator)


def _drawings(experiment: Experiment) -> Iterator[tuple[int, Setup]]:
    part = 0
    for block in _method(experiment):
        part += isinstance(block, PartHeading)
        yield from ((part, b) for b in walk((block,)) if isinstance(b, Setup))


def _method(experiment: Experiment) -> Blocks:
    sections = (s for s in experiment.sections if s.kind is SectionKind.METHOD)
    return tuple(block for section in sections for block in section.blocks)
