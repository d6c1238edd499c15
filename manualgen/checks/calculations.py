"""Calculations: units that fit, names that exist, answers that are right."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import inf

from manualgen.checks.comparison import (
    Comparison,
    alternatives,
    correct,
    last_place_stated,
    message_of,
    reason,
)
from manualgen.checks.concordance import disagreement, rough_averaged
from manualgen.checks.impossible import below_nothing, impossible_readings
from manualgen.checks.limits import coarsest_datum, molar_mass_faults
from manualgen.checks.mole_ratios import turned_ratios
from manualgen.checks.registry import Report, check
from manualgen.checks.unit_forgotten import forgotten_units
from manualgen.model.fences import Computed
from manualgen.model.finding import Fault, Severity
from manualgen.model.nearest import nearest
from manualgen.model.text import ValueSpan
from manualgen.model.walk import inlines_of
from manualgen.quantities import Quantity
from manualgen.quantities.figures import place, rounded_to_place
from manualgen.quantities.mend import typed
from manualgen.quantities.refusals import kind_of
from manualgen.working.calculations import WorkedAnswer
from manualgen.working.readings import WorkedReadings
from manualgen.working.stated import stated
from manualgen.working.worked import WorkedExperiment

MOST_NAMED = 6
"""Symbols offered where none is near."""


@check("calculation-undefined", Severity.ERROR)
def calculation_undefined(work: WorkedExperiment) -> Report:
    """Every name, column and row that a calculation uses is defined before it."""
    numbers = work.numbers
    unread = _first_unread(work)
    yield from (
        n.fault
        for n in numbers.noted
        if n.check == "calculation-undefined" and n.fault.place.line < unread
    )
    for span in inlines_of(work.experiment, ValueSpan):
        if span.symbol not in numbers.names and span.place.line < unread:
            near = nearest(span.symbol, numbers.names)
            message = f"no calculation gives a value of {span.symbol}"
            given = [a.symbol for c in numbers.calculations for a in c.block.lines]
            known = ", ".join(dict.fromkeys(given[-MOST_NAMED:]))
            mend = (
                f"value of {near}" if near else known and f"the value of one of {known}"
            )
            yield Fault(span.place, message, mend or None)


def _first_unread(work: WorkedExperiment) -> float:
    """The first line below the settings that could not be read.

    What it was to define is asked for below it in vain.
    """
    sections = work.experiment.sections
    body = sections[0].place.line if sections else 0
    places = (
        n.fault.place for n in work.experiment.noted if n.check == "source-syntax"
    )
    return min((p.line for p in places if p.line >= body), default=inf)


@check("calculation-dimension", Severity.ERROR)
def calculation_dimension(work: WorkedExperiment) -> Report:
    """Like things are added, and a result has the unit that its expression gives.

    A temperature in a product or ratio is in kelvin.
    """
    forgotten = forgotten_units(work)
    yield from (each.fault for each in forgotten)
    borne = {line for each in forgotten for line in each.lines}
    yield from (
        n.fault
        for n in work.numbers.noted
        if n.check == "calculation-dimension" and n.fault.place.line not in borne
    )
    for worked in _answers(work):
        value, quantity = worked.line.value, worked.answer.quantity
        if value and worked.line.unit and value.dimension != quantity.dimension:
            message = (
                f"{worked.answer.symbol} is given as {kind_of(quantity.dimension)} "
                f"and its expression gives {kind_of(value.dimension)}"
            )
            right = stated(value, worked.line.unit, work.settings)
            right = replace(right, half_width=None, standard=False)
            yield Fault(worked.answer.value_place, message, typed(right))


@check("calculation-answer", Severity.ERROR)
def calculation_answer(work: WorkedExperiment) -> Report:
    """The author's own answers are the computed ones, to the figures they state."""
    wrong = [pair for pair in _compared(work) if not pair[1].agrees]
    others = alternatives(work.numbers, (w for w, _ in wrong)) if wrong else ()
    mended: set[str] = set()
    for worked, comparison in wrong:
        right = correct(comparison, work.settings)
        why = reason(worked, comparison, work.numbers, others)
        if why and why.mend:
            if why.mend in mended:
                continue  # mending the one line rights this answer too
            mended.add(why.mend)
        message = message_of(worked.answer.symbol, comparison, right, why)
        mend = (why and why.mend) or typed(right)
        yield Fault(worked.answer.value_place, message, mend)
    yield from molar_mass_faults(work)


@check("significant-figures", Severity.WARNING)
def significant_figures(work: WorkedExperiment) -> Report:
    """No answer has more figures than the data from which it comes allow."""
    for worked, comparison in _compared(work):
        answer, value = comparison.answer, comparison.value
        if not comparison.agrees or value.precision is None:
            continue
        allowed = stated(value, answer.unit, work.settings)
        by_figures = place(value.rounded_in(answer.unit, work.settings.rounding))
        last = min(place(allowed.value), by_figures)
        if last_place_stated(answer.value) >= last:
            continue
        number = rounded_to_place(comparison.computed, last, work.settings.rounding)
        best = Quantity(number, answer.unit)
        message = _too_many(worked, answer, best, work)
        yield Fault(worked.answer.value_place, message, typed(best))


@check("mole-ratio", Severity.ERROR)
def mole_ratio(work: WorkedExperiment) -> Report:
    """An amount worked out from another is to it as the equation of both says."""
    yield from turned_ratios(work)


@check("reading-impossible", Severity.WARNING)
def reading_impossible(work: WorkedExperiment) -> Report:
    """The sample readings give no volume, mass or time below nothing.

    No spot on a chromatogram is ahead of its solvent either.
    """
    yield from impossible_readings(work)


@check("reading-concordance", Severity.WARNING)
def reading_concordance(work: WorkedExperiment) -> Report:
    """The readings averaged agree within the stated range, without the rough one."""
    tables = {t.block.name: t for t in work.numbers.readings if t.block.name}
    for table in work.numbers.readings:
        if not _is_impossible(table):
            yield from disagreement(table)
    for calculation in work.numbers.calculations:
        for line in calculation.lines:
            if isinstance(line.line, Computed):
                yield from rough_averaged(line.line, tables)


def _is_impossible(table: WorkedReadings) -> bool:
    """Whether a reading behind the mean is found fault with by itself."""
    mean = table.block.mean
    column = table.column(mean.of) if mean else None
    return column is not None and any(below_nothing(table, column))


def _answers(work: WorkedExperiment) -> Iterator[WorkedAnswer]:
    for calculation in work.numbers.calculations:
        yield from calculation.answers


def _compared(work: WorkedExperiment) -> Iterator[tuple[WorkedAnswer, Comparison]]:
    """Every answer whose line has a value of the answer's kind."""
    for worked in _answers(work):
        value, quantity = worked.line.value, worked.answer.quantity
        if value and value.dimension == quantity.dimension:
            yield worked, Comparison(quantity, value)


def _too_many(
    worked: WorkedAnswer, answer: Quantity, best: Quantity, work: WorkedExperiment
) -> str:
    message = (
        f"{worked.answer.symbol} = {typed(answer)} has {answer.significant_figures} "
        f"significant figures, and its data allow {best.significant_figures}"
    )
    datum = coarsest_datum(worked.line.line, work.numbers)
    if datum is None or datum.quantity.significant_figures > best.significant_figures:
        return message
    message += f": {datum.name} is {typed(datum.quantity)}"
    if datum.is_whole_number:
        finer = typed(datum.with_a_decimal)
        message += f" (write {finer} if it was measured so)"
    return message
