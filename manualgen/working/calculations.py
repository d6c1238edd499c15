"""Calculations worked out line by line, for the teacher and for the checks."""

from __future__ import annotations

from dataclasses import dataclass

from manualgen.model.fences import Calculation, CalculationLine, Computed, Given
from manualgen.model.finding import Fault, Noted
from manualgen.quantities import Quantity, Unit
from manualgen.quantities.dimension import Dimension
from manualgen.quantities.evaluate import ResultUnitError, as_result, evaluate
from manualgen.quantities.expression import ColumnMean, ExpressionError, Symbol
from manualgen.quantities.kinds import is_named, si_unit
from manualgen.quantities.value import Value, datum
from manualgen.working.instruments import measured_with
from manualgen.working.ledger import Excerpt, Ledger, name_of
from manualgen.working.noting import noted
from manualgen.working.stated import stated
from manualgen.working.typesetting import algebra, substitution


@dataclass(frozen=True, slots=True)
class WorkedLine:
    """A line of a calculation with its value."""

    line: CalculationLine
    value: Value | None = None
    """None where it has none: a fault, an empty table."""
    unit: Unit | None = None
    stated: Quantity | None = None
    """As the teacher's sheet prints it: rounded, with its uncertainty."""
    noted: tuple[Noted, ...] = ()
    known: Excerpt | None = None
    """What its expression was worked out with; None for a value that is given."""

    @property
    def algebra(self) -> str:
        """The expression as MathML; empty for a value that is given."""
        if self.known is None or isinstance(self.line, Given):
            return ""
        return algebra(self.line.expression, self.known)

    @property
    def substitution(self) -> str:
        """The same with the numbers put in; empty where it has no value."""
        if self.known is None or isinstance(self.line, Given) or self.stated is None:
            return ""
        return substitution(self.line.expression, self.known, self.stated)


@dataclass(frozen=True, slots=True)
class WorkedAnswer:
    """The author's own answer beside the line that it answers."""

    answer: Given
    line: WorkedLine


@dataclass(frozen=True, slots=True)
class WorkedCalculation:
    """A calculation: its lines, and the answers that its author gives."""

    block: Calculation
    lines: tuple[WorkedLine, ...]
    answers: tuple[WorkedAnswer, ...]


def work_calculation(block: Calculation, ledger: Ledger) -> WorkedCalculation:
    """A calculation worked out, and its values entered in the ledger."""
    ledger.without_value |= set(block.unread) - set(ledger.values)
    lines: dict[str, WorkedLine] = {}
    answers: list[WorkedAnswer] = []
    for line in block.lines:
        before = lines.get(line.symbol)
        if isinstance(line, Given) and before and isinstance(before.line, Computed):
            answers.append(WorkedAnswer(line, before))
            _enter_answer(line, ledger)
            continue
        worked = (
            _given(line, ledger) if isinstance(line, Given) else _computed(line, ledger)
        )
        lines[line.symbol] = worked
        _enter(worked, ledger)
    return WorkedCalculation(block, tuple(lines.values()), tuple(answers))


def _enter(worked: WorkedLine, ledger: Ledger) -> None:
    symbol = worked.line.symbol
    if worked.value and worked.unit and worked.stated:
        ledger.enter(symbol, worked.value, worked.unit, worked.stated)
    else:
        ledger.without_value.add(symbol)


def _enter_answer(answer: Given, ledger: Ledger) -> None:
    """An answer stands in for a result that could not be computed."""
    quantity = answer.quantity
    ledger.answers[answer.symbol] = quantity
    if answer.symbol in ledger.without_value:
        value = datum(_name_of(answer), quantity)
        ledger.enter(answer.symbol, value, quantity.unit, quantity)


def _name_of(line: CalculationLine) -> str:
    """A name for the datum of a line, its own wherever the symbol stands."""
    return f"{line.symbol} of line {line.place.line}"


def _given(line: Given, ledger: Ledger) -> WorkedLine:
    quantity, unit = line.quantity, line.quantity.unit
    if quantity.of is None:
        value = datum(_name_of(line), quantity)
        return WorkedLine(line, value, unit, quantity)
    found = measured_with(_name_of(line), quantity, ledger.bench)
    if found:
        return WorkedLine(line, found[0], unit, found[1])
    message = (
        f"the list has no {quantity.of} whose tolerance holds for "
        f"{quantity.value} {unit.text}"
    )
    mend = f"{quantity.value} {unit.text}, or list the {quantity.of} with capacity and class"
    fault = Noted("calculation-undefined", Fault(line.value_place, message, mend))
    value = datum(_name_of(line), quantity)
    return WorkedLine(line, value, unit, quantity, noted=(fault,))


def _computed(line: Computed, ledger: Ledger) -> WorkedLine:
    faults: tuple[Noted, ...] = ()
    if not ledger.lacks_value(line.expression):
        try:
            return _evaluated(line, ledger)
        except ExpressionError as error:
            faults = (noted(error, line.expression_place, ledger),)
    return WorkedLine(line, noted=faults, known=ledger.excerpt(line.expression))


def _evaluated(line: Computed, ledger: Ledger) -> WorkedLine:
    value = evaluate(line.expression, ledger.scope())
    if line.unit is None:
        return _without_unit(line, value, ledger)
    try:
        value = as_result(line.expression, value, line.unit)
    except ResultUnitError as error:
        unit = unit_for(error.dimension, ledger)
        place = line.unit_place or line.expression_place
        # Either may be wrong, and an odd unit would only dress up an expression.
        other = f"another expression, or the unit {unit.text}"
        mend = other if is_named(error.dimension) else None
        fault = Noted("calculation-dimension", Fault(place, error.message, mend))
        return _stated(line, value, unit, ledger, fault)
    return _stated(line, value, line.unit, ledger)


def _without_unit(line: Computed, value: Value, ledger: Ledger) -> WorkedLine:
    """``V = titres.mean`` has its unit already; an expression must state one."""
    match line.expression:
        case Symbol() | ColumnMean():
            known = ledger.units.get(name_of(line.expression))
            return _stated(
                line, value, known or unit_for(value.dimension, ledger), ledger
            )
        case _:
            unit = unit_for(value.dimension, ledger)
            fault = Fault(
                line.expression_place,
                f"{line.symbol} has no unit; say in which it is stated",
                f"{line.source} -> {unit.text}",
            )
            noted_fault = Noted("calculation-dimension", fault)
            return _stated(line, value, unit, ledger, noted_fault)


def _stated(
    line: Computed, value: Value, unit: Unit, ledger: Ledger, *faults: Noted
) -> WorkedLine:
    result = stated(value, unit, ledger.settings)
    known = ledger.excerpt(line.expression)
    return WorkedLine(line, value, unit, result, faults, known)


def unit_for(dimension: Dimension, ledger: Ledger) -> Unit:
    """A unit of a dimension: the one last used here, or else the SI's."""
    used = (u for u in reversed(ledger.units.values()) if u.dimension == dimension)
    return next(used, None) or si_unit(dimension)
