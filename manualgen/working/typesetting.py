"""A line of a calculation as MathML: its algebra, and with the numbers put in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from manualgen.chemistry import FormulaError, parse_formula
from manualgen.quantities import (
    DecimalMark,
    HouseStyle,
    Quantity,
    printed,
)
from manualgen.quantities.constants import constants
from manualgen.quantities.expression import (
    ColumnMean,
    Expression,
    Measured,
    MolarMass,
    Number,
    Symbol,
)
from manualgen.quantities.figures import rounded_to_figures
from manualgen.quantities.mathml import (
    Leaf,
    Notation,
    formula_of,
    mean_of,
    symbol,
    word,
)
from manualgen.working.guard_figures import guarded
from manualgen.working.ledger import G_PER_MOL, Excerpt, molar_mass_of, name_of

CONSTANT_FIGURES = 4
"""Figures of a constant as it is printed; it is calculated with all of them."""


def algebra(expression: Expression, known: Excerpt) -> str:
    """The expression in symbols, from ``<math>`` to ``</math>``."""
    house = known.house

    def leaf(part: Leaf) -> str:
        match part:
            case Number():
                return _number(part.text, house)
            case Measured():
                return word(printed(part.quantity, house))
            case Symbol():
                return _symbol(part.name, known.averaged)
            case ColumnMean():
                return mean_of(part.column)
            case MolarMass():
                return _molar_mass_symbol(part)

    return formula_of(expression, Notation(leaf, _is_word_in_algebra))


def substitution(expression: Expression, known: Excerpt, result: Quantity) -> str:
    """The expression with values in place of its symbols; they must have some.

    The values are those that give the ``result`` as it is stated.
    """
    house = known.house
    shown = guarded(expression, known, result)

    def leaf(part: Leaf) -> str:
        if isinstance(part, Number):
            return _number(part.text, house)
        return word(printed(_quantity(part, shown), house))

    def is_negative(part: Leaf) -> bool:
        return not isinstance(part, Number) and _quantity(part, shown).value < 0

    return formula_of(expression, Notation(leaf, lambda part: True, is_negative))


def _is_word_in_algebra(leaf: Leaf) -> bool:
    match leaf:
        case Symbol():
            return "." in leaf.name and not leaf.name.endswith((".mean", ".sd"))
        case ColumnMean():
            return False
        case _:
            return True


def _number(text: str, house: HouseStyle) -> str:
    mantissa, _, power = text.lower().partition("e")
    if house.decimal is DecimalMark.COMMA:
        mantissa = mantissa.replace(".", ",")
    if not power:
        return f"<mn>{mantissa}</mn>"
    exponent = f"<mn>{int(power)}</mn>".replace("-", "−")
    return f"<mn>{mantissa}</mn><mo>×</mo><msup><mn>10</mn>{exponent}</msup>"


def _symbol(name: str, averaged: Mapping[str, str]) -> str:
    of, _, what = name.partition(".")
    match what:
        case "":
            return symbol(name)
        case "mean" if of in averaged:
            return mean_of(averaged[of])
        case "sd" if of in averaged:
            return f"<mi>s</mi><mo>(</mo>{symbol(averaged[of])}<mo>)</mo>"
        case "crossing_x":
            return word("x of the crossing")
        case "crossing_y":
            return word("y of the crossing")
        case "tangent":
            return word("gradient of the tangent")
        case _:
            return word(what)


def _molar_mass_symbol(part: MolarMass) -> str:
    try:
        pretty = parse_formula(part.formula).pretty
    except FormulaError:
        pretty = part.formula
    return f"<mrow><mi>M</mi><mo>(</mo>{word(pretty)}<mo>)</mo></mrow>"


def _quantity(
    part: Measured | Symbol | ColumnMean | MolarMass, shown: Mapping[str, Quantity]
) -> Quantity:
    """What a leaf is worth, as printed in a substitution: without uncertainty."""
    if isinstance(part, MolarMass):
        return Quantity(molar_mass_of(part.formula).rounded_in(G_PER_MOL), G_PER_MOL)
    if isinstance(part, Measured):
        quantity = part.quantity
    else:
        name = name_of(part)
        quantity = shown.get(name) or _constant(name)
    return replace(quantity, half_width=None, standard=False, of=None)


def _constant(name: str) -> Quantity:
    exact = constants()[name].quantity
    return replace(exact, value=rounded_to_figures(exact.value, CONSTANT_FIGURES))
