"""Guard figures: what a worked line has to show so that its numbers give its result.

Values are stated to the figures that they deserve and worked with unrounded. Put
into the next line as stated, they may come to something else: 1/(0.013 s⁻¹) is
77 s where the result is 74 s. Then what was computed is shown with one or two
figures more (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from manualgen.quantities import Quantity
from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.expression import Expression, ExpressionError
from manualgen.quantities.figures import place, rounded_to_place
from manualgen.quantities.value import Value
from manualgen.working.ledger import Excerpt, column_of, molar_mass_of

MOST = 2


def guarded(
    expression: Expression, known: Excerpt, result: Quantity
) -> Mapping[str, Quantity]:
    """What each name in an expression is shown as where its result is worked out.

    As stated, unless only guard figures make the line come to its result.
    """
    for figures in range(MOST + 1):
        shown = {name: _with_figures(name, figures, known) for name in known.stated}
        if _comes_to(result, expression, shown, known):
            return shown
    return known.stated


def _with_figures(name: str, figures: int, known: Excerpt) -> Quantity:
    """What is stated, a computed value with some figures more."""
    stated, value = known.stated[name], known.exact.get(name)
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
    known: Excerpt,
) -> bool:
    """Whether the numbers that are shown give the result to its last figure."""
    values: dict[str, Value] = {}
    means: dict[str, Value] = {}
    for name, quantity in shown.items():
        value = known.exact.get(name)
        if value is not None:
            # Only the number is wanted, not how far it can be trusted.
            bare = replace(value, number=quantity.si_value, sensitivities={})
            values[name] = means[column_of(name)] = bare
    scope = Scope(values, means, molar_mass_of)
    try:
        exact = evaluate(expression, scope).in_unit(result.unit)
    except ExpressionError:
        return True
    last = place(result.value)
    return rounded_to_place(exact, last, known.rounding) == result.value
