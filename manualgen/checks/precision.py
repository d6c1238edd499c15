"""No more figures than the apparatus can give, and readings that match it.

What nothing on the list measures is left alone; a piece without a stated step
gets the benefit of the doubt, a display by one figure more.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from decimal import Decimal
from fractions import Fraction

from manualgen.checks.agreeing import with_article, with_verb
from manualgen.checks.registry import Report, check
from manualgen.checks.stated import Stated, is_quoted, method_blocks, spans_in
from manualgen.knowledge.scales import Scale, scales_of
from manualgen.model.experiment import Experiment
from manualgen.model.fences import Cell, Column, ColumnKind, Readings
from manualgen.model.finding import Fault, Severity
from manualgen.model.walk import blocks_of, plain, texts
from manualgen.quantities import Quantity, Unit, parse_unit
from manualgen.quantities.figures import (
    decimal_places,
    leading_place,
    place,
    rounded_to_place,
    significant_figures,
)
from manualgen.quantities.kinds import kind_of
from manualgen.quantities.mend import typed, typed_unit
from manualgen.working.instruments import Bench, is_read_off_burette
from manualgen.working.worked import WorkedExperiment

BASE = {
    "mass": parse_unit("g"),
    "volume": parse_unit("cm3"),
    "temperature": parse_unit("K"),
}
"""What a step measures out; nobody minds one of these. Clocks and meters are
measured with too, and need not be on the list."""


@check("precision-apparatus", Severity.WARNING)
def precision_apparatus(work: WorkedExperiment) -> Report:
    """Something on the list measures as finely as each step asks.

    What the technician weighs out is measured in the preparation room.
    """
    finest_of: dict[str, Scale] = {}
    for scale in sorted(_scales(work), key=_finest_size):
        finest_of.setdefault(scale.kind, scale)
    marks = {
        piece.capacity.si_value for piece in work.experiment.apparatus if piece.capacity
    }
    for stated, quantity in _asked_for(work.experiment):
        best = finest_of.get(kind_of(quantity.unit))
        if best is None or quantity.si_value in marks:
            continue
        finest = _finest_size(best)
        if _last_size(quantity) < finest:
            yield _too_fine(stated, quantity, best, finest)


def _scales(work: WorkedExperiment) -> tuple[Scale, ...]:
    listed, vocabulary = work.experiment.apparatus, work.laboratory.vocabulary
    return tuple(scales_of(listed, work.settings.burette, vocabulary))


def _asked_for(experiment: Experiment) -> Iterator[tuple[Stated, Quantity]]:
    """What the list gives to weigh, and the quantities of the Method."""
    ready = {
        (c.amount.value.si_value, c.amount.value.dimension)
        for c in experiment.chemicals
        if c.weighed_out and c.amount
    }
    for stated in (*_listed_masses(experiment), *_in_steps(experiment)):
        quantity = stated.value
        if not isinstance(quantity, Quantity) or kind_of(quantity.unit) not in BASE:
            continue
        if (quantity.si_value, quantity.dimension) not in ready:
            yield stated, quantity


def _listed_masses(experiment: Experiment) -> Iterator[Stated]:
    for chemical in experiment.chemicals:
        amount = chemical.amount
        if not amount or is_quoted(chemical.name):
            continue
        if kind_of(amount.value.unit) == "mass":
            yield Stated(amount.value, amount.place)


def _in_steps(experiment: Experiment) -> Iterator[Stated]:
    for block in method_blocks(experiment):
        for content in texts(block):
            if not is_quoted(plain(content)):
                yield from spans_in(content)


def _too_fine(
    stated: Stated, quantity: Quantity, best: Scale, finest: Fraction
) -> Fault:
    message = (
        f"{typed(quantity)} is finer than anything on the list measures; "
        f"the {with_verb(best.listed.name, 'is read')} to {typed(best.step)}"
    )
    last = leading_place(finest / quantity.unit.factor)
    coarser = Quantity(rounded_to_place(quantity.value, last), quantity.unit)
    return Fault(stated.place, message, typed(coarser))


def _last_size(quantity: Quantity) -> Fraction:
    """The size of one in the last place, in the coherent SI unit."""
    return Fraction(10) ** place(quantity.value) * quantity.unit.factor


def _finest_size(scale: Scale) -> Fraction:
    """The smallest last place that a reading of a piece may have, in SI.

    At most one of the base unit: nobody is told that 5 cm³ is too fine.
    """
    base = BASE.get(scale.kind, scale.step.unit)
    last = _finest_place(scale, base)
    return Fraction(10) ** (min(last, 0) if scale.kind in BASE else last) * base.factor


def _finest_place(scale: Scale, unit: Unit) -> int:
    """The last place, in a unit, to which a piece is read."""
    step = Fraction(scale.step.value) * scale.step.unit.factor / unit.factor
    last = leading_place(step)
    if scale.is_stated:
        while (step / Fraction(10) ** last).denominator > 1 and last > -9:
            last -= 1
        return last
    return last - 1 if scale.is_display else last


@check("reading-resolution", Severity.WARNING)
def reading_resolution(work: WorkedExperiment) -> Report:
    """Sample readings are as fine as their scale is read, and all to one place.

    Given columns and times are nobody's readings of a scale.
    """
    bench = Bench(work.experiment.apparatus, work.settings.burette)
    scales = _scales(work)
    for readings in blocks_of(work.experiment, Readings):
        for column in readings.columns:
            if column.kind is not ColumnKind.SAMPLE or column.unit is None:
                continue
            kind = kind_of(column.unit)
            read_off = [s for s in scales if s.kind == kind and _is_known(s)]
            if is_read_off_burette(column, readings, bench):
                read_off = [s for s in read_off if s.name == "burette"]
            fault = _misread(column, column.unit, read_off) or _uneven(column, kind)
            if fault and kind != "time":
                yield fault


def _is_known(scale: Scale) -> bool:
    return scale.is_stated or scale.kind in BASE


def _misread(column: Column, unit: Unit, scales: Collection[Scale]) -> Fault | None:
    """The first reading of a column that none of some scales can give."""
    wrong = [
        cell
        for cell in column.cells
        if scales and not any(_can_be_read(cell, unit, scale) for scale in scales)
    ]
    if not wrong:
        return None
    first, scale = wrong[0], min(scales, key=_finest_size)
    value = first.value or Decimal(0)
    more = f" (and {len(wrong) - 1} more)" if len(wrong) > 1 else ""
    message = (
        f"{first.text} {typed_unit(unit)}{more} from {with_article(scale.listed.name)} "
        f"read to {typed(scale.step)}"
    )
    return Fault(first.place, message, " or ".join(_nearest(value, unit, scale)))


def _can_be_read(cell: Cell, unit: Unit, scale: Scale) -> bool:
    if cell.value is None:
        return True
    is_coarse_enough = place(cell.value) >= _finest_place(scale, unit)
    step = _step_in(scale, unit)
    is_on_step = not scale.is_stated or (Fraction(cell.value) / step).denominator == 1
    return is_coarse_enough and is_on_step


def _step_in(scale: Scale, unit: Unit) -> Fraction:
    return Fraction(scale.step.value) * scale.step.unit.factor / unit.factor


def _nearest(value: Decimal, unit: Unit, scale: Scale) -> Iterator[str]:
    """The reading that the scale gives for a value; both, if it lies between."""
    last = _finest_place(scale, unit)
    step = _step_in(scale, unit) if scale.is_stated else Fraction(10) ** last
    below, over = divmod(Fraction(value), step)
    for count in (below + 1, below):
        away = step - over if count > below else over
        if 2 * away <= step:
            yield str(rounded_to_place(count * step, last))


SCALES = frozenset({"mass", "volume", "temperature", "potential difference"})
METERS = frozenset({"potential difference", "electric current"})
_DILUTION = re.compile(r"dilut|stock|water", re.IGNORECASE)


def _uneven(column: Column, kind: str) -> Fault | None:
    """The first reading with fewer decimal places than another of its column."""
    read = [(cell, cell.value) for cell in column.cells if cell.value is not None]
    if not read or kind not in SCALES | METERS or _DILUTION.search(column.heading):
        return None
    if kind in METERS and len({significant_figures(value) for _, value in read}) == 1:
        return None  # a meter that chooses its range itself
    most = max(decimal_places(value) for _, value in read)
    finest = next(cell for cell, value in read if decimal_places(value) == most)
    for cell, value in read:
        if decimal_places(value) < most:
            message = (
                f"{cell.text} and {finest.text} in one column: a scale is read to the "
                "same place every time"
            )
            return Fault(cell.place, message, str(rounded_to_place(value, -most)))
    return None
