"""Guard figures: what a worked line has to show so that its numbers give its result.

Values are stated to the figures that they deserve and worked with unrounded. Put
into the next line as stated, they may come to something else: 1/(0.013 s⁻¹) is
77 s where the result is 74 s. Then what was computed is shown with one or two
figures more (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from manualgen.quantities import Quantity
from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.expression import (
    ColumnMean,
    Expression,
    ExpressionError,
    Symbol,
    parts,
)
from manualgen.quantities.figures import place, rounded_to_place
from manualgen.quantities.value import Value
from manualgen.working.ledger import Ledger, name_of

MOST = 2


def guarded(
    expression: Expression, ledger: Ledger, result: Quantity
) -> Mapping[str, Quantity]:
    """What each name in an expression is shown as where its result is worked out.

    As stated, unless only guard figures make the line come to its result.
    """
    names = tuple(_names(expression, ledger))
    for figures in range(MOST + 1):
        shown = {name: _with_figures(name, figures, ledger) for name in names}
        if _comes_to(result, expression, shown, ledger):
            return shown
    return {name: ledger.stated[name] for name in names}


def _names(expression: Expression, ledger: Ledger) -> Iterator[str]:
    for part in parts(expression):
        if isinstance(part, Symbol | ColumnMean) and name_of(part) in ledger.stated:
            yield name_of(part)


def _exact(name: str, ledger: Ledger) -> Value | None:
    return ledger.values.get(name) or ledger.means.get(_column(name))


def _column(name: str) -> str:
    """The column of which a name is the mean: `mean(TABLE.COLUMN)`."""
    return name.removeprefix("mean(").removesuffix(")")


def _with_figures(name: str, figures: int, ledger: Ledger) -> Quantity:
    """What is stated, a computed value with some figures more."""
    stated, value = ledger.stated[name], _exact(name, ledger)
    if value is None or not figures or stated.mixed:
        return stated
    exact = value.in_unit(stated.unit)
    if exact == stated.value:
        return stated
    number = rounded_to_place(exact, place(stated.value) - figures)
    return replace(stated, value=number)


def _comes_to(
    result: Quantity,
    expression: Expression,
    shown: Mapping[str, Quantity],
    ledger: Ledger,
) -> bool:
    """Whether the numbers that are shown give the result to its last figure."""
    values: dict[str, Value] = {}
    means: dict[str, Value] = {}
    for name, quantity in shown.items():
        value = _exact(name, ledger)
        if value is not None:
            # Only the number is wanted, not how far it can be trusted.
            bare = replace(value, number=quantity.si_value, sensitivities={})
            values[name] = means[_column(name)] = bare
    scope = Scope(values, means, ledger.scope().molar_mass)
    try:
        exact = evaluate(expression, scope).in_unit(result.unit)
    except ExpressionError:
        return True
    rounding = ledger.settings.rounding
    return rounded_to_place(exact, place(result.value), rounding) == result.value
