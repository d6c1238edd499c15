"""The units of an experiment: known, of the right kind, and written as they should be."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Protocol

from manualgen.checks.agreeing import verb, with_article
from manualgen.checks.durations import of_another_kind
from manualgen.checks.listed_kinds import (
    amounts_of_another_kind,
    strengths_beyond_any,
)
from manualgen.checks.registry import Report, check, noted_check
from manualgen.checks.stated import (
    Stated,
    is_quoted,
    method_blocks,
    spans_in,
    stated_in,
)
from manualgen.checks.step_kinds import steps_of_another_kind
from manualgen.knowledge import mentions
from manualgen.knowledge.apparatus import Vocabulary, find_apparatus
from manualgen.model.experiment import Experiment
from manualgen.model.fences import Graph, Readings
from manualgen.model.finding import Edit, Fault, Severity
from manualgen.model.lab import ListedApparatus, ListedChemical
from manualgen.model.place import Place
from manualgen.model.text import QuantitySpan
from manualgen.model.walk import all_blocks, blocks_of, plain, texts
from manualgen.quantities import Quantity, Unit, Verdict, parse_unit
from manualgen.quantities.kinds import NORMALITY, PURE, a_kind, kind_of
from manualgen.quantities.mend import converted, mended, typed, typed_unit
from manualgen.working.worked import WorkedExperiment

_OF = re.compile(r"\s+(?:more\s+)?of\s+(?:the\s+|your\s+)?")
_WEIGH = re.compile(
    r"\bweigh(?:\s+out)?(?:\s+(?:about|exactly|accurately|roughly|approximately|between))*\s*$",
    re.IGNORECASE,
)
_NEXT_WORD = 8
"""Characters between a strength and its chemical: *of the*."""

UNWIELDY_BELOW, UNWIELDY_FROM = Fraction(1, 10), 1000
"""Outside these a value is better left in the unit that it has."""


class Placed(Protocol):
    """Whatever bears a place."""

    @property
    def place(self) -> Place:
        """Where it is written."""


noted_check(
    "unit-unknown",
    Severity.ERROR,
    "units",
    "Every unit is one that the SI Brochure or the trade knows.",
)
noted_check(
    "unit-dimension",
    Severity.ERROR,
    "units",
    "Strengths, amounts, capacities, times and tolerances are of the kind that "
    "belongs where they stand.",
)


@check("unit-style", Severity.WARNING)
def unit_style(work: WorkedExperiment) -> Report:
    """Units and powers of ten are written as the SI Brochure writes them.

    Per cent with w/v, w/w or v/v, ppm, vol and drops are a practical's own
    words and right here.
    """
    for stated in stated_in(work.experiment):
        fault = _style_fault(stated)
        if fault:
            yield fault


def _style_fault(stated: Stated) -> Fault | None:
    wrong = [s for s in stated.value.slips if s.verdict is Verdict.DISCOURAGED]
    if not wrong:
        return None
    message = f"{wrong[0].written}: {wrong[0].why}"
    mend, is_same_value = _style_mend(stated.value)
    can_edit = is_same_value and stated.is_exact
    edit = Edit(stated.place, mend) if mend and can_edit else None
    return Fault(stated.place_of(wrong[0]), message, mend, edit)


def _style_mend(value: Quantity | Unit) -> tuple[str | None, bool]:
    """What to write instead, and whether it is the very same value.

    An old unit within a product has no other that is usual in its place.
    """
    unit = value.unit if isinstance(value, Quantity) else value
    targets = [slip.convert_to for slip in value.slips if slip.convert_to]
    if targets and len(unit.parts) > 1:
        return None, False
    if isinstance(value, Quantity):
        better = mended(value)
        return typed(better), better.si_value == value.si_value
    return (targets[0], False) if targets else (typed_unit(value), True)


@check("unit-dimension", Severity.ERROR)
def unit_dimension(work: WorkedExperiment) -> Report:
    """Strengths, amounts, capacities, times and tolerances are of the right kind."""
    experiment = work.experiment
    for piece in experiment.apparatus:
        yield from _piece_of_another_kind(piece, work.laboratory.vocabulary)
    for readings in blocks_of(experiment, Readings):
        yield from _range_of_another_kind(readings)
    for graph in blocks_of(experiment, Graph):
        yield from _tangent_of_another_kind(graph)
    yield from _solutions_by_mass(experiment)
    yield from amounts_of_another_kind(work)
    yield from strengths_beyond_any(work)
    yield from _weighed_by_volume(experiment)
    yield from _normalities(experiment)
    yield from of_another_kind(work)
    yield from steps_of_another_kind(work)


def _piece_of_another_kind(
    listed: ListedApparatus, vocabulary: Vocabulary
) -> Iterator[Fault]:
    """A burette of 50 g, a balance that reads to 0.01 cm3."""
    piece = find_apparatus(listed.name, vocabulary)
    if piece is None:
        return
    if listed.capacity and piece.capacities and kind_of(listed.capacity.unit) == "mass":
        yield _of_wrong_kind(
            listed.capacity,
            f"{with_article(piece.name)} {verb(piece.name, 'holds')} a volume",
            listed,
        )
    usual = piece.graduation(None) or next((d for _, d in piece.graduations), None)
    read_to = listed.resolution
    if read_to and usual and read_to.dimension != usual.dimension:
        kind = a_kind(usual.unit)
        yield _of_wrong_kind(
            read_to,
            f"{with_article(piece.name)} {verb(piece.name, 'reads')} {kind}",
            listed,
        )


def _range_of_another_kind(readings: Readings) -> Iterator[Fault]:
    mean = readings.mean
    if mean is None or mean.concordant is None:
        return
    for column in readings.columns:
        unit = column.unit
        if column.symbol == mean.of and unit:
            what = f"{column.symbol} is in {unit.text}"
            if mean.concordant.dimension != unit.dimension:
                fault = _of_wrong_kind(mean.concordant, what, mean)
                lacks_unit = kind_of(mean.concordant.unit) == PURE
                bare = f"concordant: {typed(mean.concordant)} {unit.text}"
                yield replace(fault, mend=bare) if lacks_unit else fault


def _tangent_of_another_kind(graph: Graph) -> Iterator[Fault]:
    at, axis = graph.line.at, graph.x
    if at and at.dimension != axis.unit.dimension:
        what = f"the axis of {axis.symbol} is in {axis.unit.text}"
        yield _of_wrong_kind(at, what, graph.line)


def _of_wrong_kind(quantity: Quantity, what: str, bearer: Placed) -> Fault:
    """A quantity that does not fit the thing that it is stated of."""
    kind = a_kind(quantity.unit)
    return Fault(bearer.place, f"{typed(quantity)} is {kind}, and {what}")


def _solutions_by_mass(experiment: Experiment) -> Iterator[Fault]:
    """`25 g` of a solution that the list gives out by volume."""
    by_volume = _given_by_volume_alone(experiment.chemicals)
    runs = (content for b in method_blocks(experiment) for content in texts(b))
    for content in runs:
        for at, span in enumerate(content, start=1):
            if not isinstance(span, QuantitySpan):
                continue
            named = _named_after_of(plain(content[at:]), by_volume)
            if named and kind_of(span.quantity.unit) == "mass":
                what = f"the list gives {named} by volume"
                yield _of_wrong_kind(span.quantity, what, span)


def _weighed_by_volume(experiment: Experiment) -> Iterator[Fault]:
    """*Weigh about `3.6 cm3`*: a balance gives a mass."""
    for block in method_blocks(experiment):
        for content in texts(block):
            for at, span in enumerate(content):
                if not isinstance(span, QuantitySpan):
                    continue
                is_volume = kind_of(span.quantity.unit) == "volume"
                if is_volume and _WEIGH.search(plain(content[:at])):
                    yield _of_wrong_kind(span.quantity, "a balance gives a mass", span)


def _normalities(experiment: Experiment) -> Iterator[Fault]:
    """`0.1 N` beside a chemical: a strength in the old way."""
    for block in all_blocks(experiment):
        for content in texts(block):
            for at, span in enumerate(content, start=1):
                if not isinstance(span, QuantitySpan) or (
                    kind_of(span.quantity.unit) != "force"
                ):
                    continue
                named = mentions(plain(content[at:])).chemicals
                if named and named[0].start <= _NEXT_WORD:
                    message = f"{typed(span.quantity)} is no strength; {NORMALITY}"
                    yield Fault(span.place, message)


def _given_by_volume_alone(chemicals: Iterable[ListedChemical]) -> frozenset[str]:
    """The solutions of the list that it gives out by volume and in no other way."""
    kinds: dict[str, set[str]] = {}
    for chemical in chemicals:
        is_solution = chemical.strength or chemical.name.endswith("solution")
        amount = chemical.amount.value if chemical.amount else None
        kind = kind_of(amount.unit) if amount and is_solution else "other"
        kinds.setdefault(chemical.name.casefold(), set()).add(kind)
    return frozenset(name for name, found in kinds.items() if found == {"volume"})


def _named_after_of(words: str, names: Iterable[str]) -> str | None:
    """The longest of some names with which `of the …` goes on."""
    found = _OF.match(words.casefold())
    rest = words.casefold()[found.end() :] if found else ""
    matching = [name for name in names if re.match(rf"{re.escape(name)}\b", rest)]
    return max(matching, key=len, default=None)


@check("unit-mixed", Severity.WARNING)
def unit_mixed(work: WorkedExperiment) -> Report:
    """Like things are stated in like units: no 500 mg beside 2.5 g.

    A dose quoted from a label and a value that the other unit would make
    unwieldy may differ.
    """
    weighed = tuple(_measured_out(work.experiment))
    yield from _mixed(weighed, parse_unit("g"), parse_unit("mg"))
    yield from _mixed(weighed, parse_unit("dm3"), parse_unit("cm3"))


def _measured_out(experiment: Experiment) -> Iterator[Stated]:
    """The amounts of the list and of the Method, but for what a label says."""
    for chemical in experiment.chemicals:
        if chemical.amount and not is_quoted(chemical.name):
            yield Stated(chemical.amount.value, chemical.amount.place)
    for block in method_blocks(experiment):
        for content in texts(block):
            if not is_quoted(plain(content)):
                yield from spans_in(content)


def _mixed(stated: Iterable[Stated], larger: Unit, smaller: Unit) -> Iterator[Fault]:
    """The amounts in the rarer of two units that the other would suit."""
    in_larger = [s for s in stated if _is_in(s, larger)]
    in_smaller = [s for s in stated if _is_in(s, smaller)]
    if not in_larger or not in_smaller:
        return
    rarer, usual = in_smaller, larger
    if len(in_larger) <= len(in_smaller):
        rarer, usual = in_larger, smaller
    for each in rarer:
        quantity = each.value
        if isinstance(quantity, Quantity) and _suits(quantity, usual):
            message = f"{typed(quantity)} stands beside amounts in {typed_unit(usual)}"
            yield Fault(each.place, message, typed(converted(quantity, usual)))


def _is_in(stated: Stated, unit: Unit) -> bool:
    own = stated.value.unit if isinstance(stated.value, Quantity) else stated.value
    return own.dimension == unit.dimension and own.factor == unit.factor


def _suits(quantity: Quantity, unit: Unit) -> bool:
    value = quantity.si_value / unit.factor
    return UNWIELDY_BELOW <= value < UNWIELDY_FROM
