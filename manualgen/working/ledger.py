"""What is known so far while an experiment's numbers are worked out.

Tables, graphs and calculations are taken in the order of the source, and each
may use what stands before it.  A name without a value (an empty table, a line
whose expression is at fault) is known all the same: whatever depends on it has
no value either, and nobody is told of one mistake twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from manualgen.chemistry import elements, molar_mass, parse_formula
from manualgen.model.manual import Settings
from manualgen.quantities import HouseStyle, Quantity, Rounding, Unit, parse_unit
from manualgen.quantities.evaluate import Scope
from manualgen.quantities.expression import ColumnMean, Expression, Symbol, parts
from manualgen.quantities.figures import place
from manualgen.quantities.precision import LastPlace
from manualgen.quantities.uncertainty import Input
from manualgen.quantities.value import Value
from manualgen.working.instruments import Bench

G_PER_MOL = parse_unit("g/mol")


@dataclass(frozen=True, slots=True)
class Excerpt:
    """What the ledger knew of an expression's names when its line was worked out.

    A name may come to mean something else on a later line.
    """

    stated: Mapping[str, Quantity]
    """Each name's value as it is printed."""
    exact: Mapping[str, Value]
    """The same before rounding, of the names that have one."""
    averaged: Mapping[str, str]
    """Which column each table averages."""
    house: HouseStyle
    rounding: Rounding


@dataclass(slots=True)
class Ledger:
    """The values of an experiment by name, as far as they have been worked out."""

    settings: Settings
    bench: Bench
    values: dict[str, Value] = field(default_factory=dict)
    means: dict[str, Value] = field(default_factory=dict)
    """Of columns, by ``TABLE.COLUMN``."""
    units: dict[str, Unit] = field(default_factory=dict)
    """The unit in which each name is stated."""
    stated: dict[str, Quantity] = field(default_factory=dict)
    """Each value as it is printed."""
    averaged: dict[str, str] = field(default_factory=dict)
    """Which column each table averages."""
    answers: dict[str, Quantity] = field(default_factory=dict)
    """The author's own answers."""
    defined_on: dict[str, int] = field(default_factory=dict)
    """The line on which each symbol of a calculation is first defined."""
    without_value: set[str] = field(default_factory=set)
    """Names that are defined and have no value."""

    def enter(self, name: str, value: Value, unit: Unit, shown: Quantity) -> None:
        """Make a value known."""
        self.values[name] = value
        self.units[name] = unit
        self.stated[name] = shown
        self.without_value.discard(name)

    def scope(self, more: Mapping[str, Value] | None = None) -> Scope:
        """What an expression may refer to, ``more`` before the rest."""
        values = {**self.values, **more} if more else self.values
        return Scope(values, self.means, molar_mass_of)

    def excerpt(self, expression: Expression) -> Excerpt:
        """What is known now of the names in an expression."""
        used = [p for p in parts(expression) if isinstance(p, Symbol | ColumnMean)]
        names = [name for part in used if (name := name_of(part)) in self.stated]
        tables = {
            part.name.partition(".")[0] for part in used if isinstance(part, Symbol)
        }
        return Excerpt(
            {name: self.stated[name] for name in names},
            {name: value for name in names if (value := self._exact(name))},
            {of: column for of, column in self.averaged.items() if of in tables},
            self.settings.house,
            self.settings.rounding,
        )

    def _exact(self, name: str) -> Value | None:
        return self.values.get(name) or self.means.get(column_of(name))

    def lacks_value(self, expression: Expression) -> bool:
        """Whether an expression uses a name that is known and has no value."""
        return any(
            name_of(part) in self.without_value
            for part in parts(expression)
            if isinstance(part, Symbol | ColumnMean)
        )


def name_of(part: Symbol | ColumnMean) -> str:
    """The name under which a symbol or a column's mean is known."""
    match part:
        case Symbol():
            return part.name
        case ColumnMean():
            return f"mean({part.table}.{part.column})"


def column_of(name: str) -> str:
    """The column of which a name is the mean: ``mean(TABLE.COLUMN)``."""
    return name.removeprefix("mean(").removesuffix(")")


@lru_cache(maxsize=512)
def molar_mass_of(text: str) -> Value:
    """The molar mass of a formula, with the figures of its atomic weights.

    The weights' uncertainties are half-widths (CIAAW); a course that adds
    half-widths up leaves them out.  Raises `FormulaError`, a `ValueError`, for
    what is no formula or has no molar mass.
    """
    formula = parse_formula(text)
    number = molar_mass(formula)
    table = elements()
    weights = [table[symbol] for symbol in formula.atoms]
    coarsest = max(place(element.weight) for element in weights)
    widths = (
        (element.uncertainty or Decimal(0)) * Decimal(str(float(count)))
        for element, count in zip(weights, formula.atoms.values(), strict=True)
    )
    width = float(sum((w * w for w in widths), Decimal(0)).sqrt())
    factor = float(G_PER_MOL.factor)
    datum = Input(f"M({formula})", width * factor / 3**0.5, 0.0, tabulated=True)
    in_si = Quantity(number, G_PER_MOL).si_value
    precision = LastPlace(G_PER_MOL.factor * Fraction(10) ** coarsest)
    return Value(in_si, G_PER_MOL.dimension, precision, {datum: 1.0})
