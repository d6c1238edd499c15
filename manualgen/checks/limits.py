"""What a calculation is built on: the datum with the fewest figures, molar masses."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from manualgen.chemistry import ChemistryError, Formula, molar_mass
from manualgen.model.fences import CalculationLine, Given
from manualgen.model.finding import Fault
from manualgen.model.text import FormulaSpan
from manualgen.model.walk import inlines, plain
from manualgen.quantities import Quantity, parse_unit
from manualgen.quantities.expression import ColumnMean, Measured, Symbol, parts
from manualgen.quantities.figures import place, rounded_to_place
from manualgen.quantities.mend import typed
from manualgen.quantities.value import constant, datum
from manualgen.working.ledger import name_of
from manualgen.working.numbers import Numbers
from manualgen.working.variants import other_forms
from manualgen.working.worked import WorkedExperiment

G_PER_MOL = parse_unit("g/mol")
NEAR_ENOUGH = Fraction(1, 200)
"""Tables of atomic weights, as courses round them, differ by less than this."""


@dataclass(frozen=True, slots=True)
class Datum:
    """A value that a result depends on."""

    name: str
    quantity: Quantity
    is_typed: bool = True
    """Whether its author typed it; a mean or a gradient is worked out."""

    @property
    def is_whole_number(self) -> bool:
        """Whether it was typed without decimals, as 25 cm3 for 25.0."""
        return self.is_typed and place(self.quantity.value) == 0

    @property
    def with_a_decimal(self) -> Quantity:
        """The same with one decimal place."""
        finer = self.quantity.value.quantize(Decimal("0.1"))
        return replace(self.quantity, value=finer)


def coarsest_datum(line: CalculationLine, numbers: Numbers) -> Datum | None:
    """The datum of fewest figures among those from which a line comes."""
    found = list(_data_of(line, _lines(numbers), numbers, set()))
    return min(found, key=lambda d: d.quantity.significant_figures, default=None)


def _lines(numbers: Numbers) -> dict[str, CalculationLine]:
    return {
        line.line.symbol: line.line
        for calculation in numbers.calculations
        for line in calculation.lines
    }


def _data_of(
    line: CalculationLine,
    lines: dict[str, CalculationLine],
    numbers: Numbers,
    seen: set[str],
) -> Iterator[Datum]:
    if line.symbol in seen:
        return
    seen.add(line.symbol)
    if isinstance(line, Given):
        if datum(line.symbol, line.quantity).precision:
            yield Datum(line.symbol, replace(line.quantity, half_width=None, of=None))
        return
    for part in parts(line.expression):
        match part:
            case Measured() if constant(part.quantity).precision:
                yield Datum(f"({part.text})", part.quantity)
            case Symbol() if part.name in lines:
                yield from _data_of(lines[part.name], lines, numbers, seen)
            case Symbol() | ColumnMean() if name_of(part) in numbers.stated:
                shown = numbers.stated[name_of(part)]
                bare = replace(shown, half_width=None)
                yield Datum(name_of(part), bare, is_typed=False)
            case _:
                pass


def molar_mass_faults(work: WorkedExperiment) -> Iterator[Fault]:
    """A molar mass that is stated beside its formula, and is another substance's."""
    for calculation in work.numbers.calculations:
        for line in calculation.lines:
            if isinstance(line.line, Given):
                yield from _wrong_molar_mass(line.line)


def _wrong_molar_mass(line: Given) -> Iterator[Fault]:
    formulas = [i for i in inlines(line.description) if isinstance(i, FormulaSpan)]
    says_so = re.search(r"molar mass", plain(line.description), re.IGNORECASE)
    if (
        len(formulas) != 1
        or not says_so
        or line.quantity.dimension != G_PER_MOL.dimension
    ):
        return
    formula, said = formulas[0].formula, line.quantity
    right = _molar_mass(formula)
    number = said.si_value / G_PER_MOL.factor
    if right is None or _is_near(number, right):
        return
    in_unit = Fraction(right) * G_PER_MOL.factor / said.unit.factor
    best = Quantity(rounded_to_place(in_unit, place(said.value)), said.unit)
    message = f"the molar mass of {formula.pretty} is {typed(best)}, not {typed(said)}"
    for other in other_forms(str(formula)):
        mass = _molar_mass(other)
        if mass is not None and _is_near(number, mass):
            message += f", which is that of {other.pretty}"
    yield Fault(line.value_place, message, typed(best))


def _is_near(number: Fraction, right: Decimal) -> bool:
    return abs(number - Fraction(right)) <= NEAR_ENOUGH * Fraction(right)


def _molar_mass(formula: Formula) -> Decimal | None:
    try:
        return molar_mass(formula)
    except ChemistryError:
        return None
