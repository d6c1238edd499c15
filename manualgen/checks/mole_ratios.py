"""Amounts worked out from one another, held against the equation that has both.

    n_b = 2 * n_a -> mol    # amount of calcium hydroxide

An amount may also be scaled from a portion to a flask, or go through several
reactions. So a line is judged only where it multiplies one amount by small
numbers, each of the two is described as the amount of one substance and no
more, and all equations with both of them have one ratio; and it is wrong only
where the ratio is turned round or left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from manualgen.knowledge import mentions
from manualgen.model.fences import CalculationLine, Computed
from manualgen.model.finding import Fault
from manualgen.quantities.expression import (
    Binary,
    Expression,
    Number,
    Operator,
    Symbol,
)
from manualgen.working.prose import prose_of
from manualgen.working.worked import WorkedEquation, WorkedExperiment

_AMOUNT: Final = frozenset(
    (
        *(
            "amount",
            "amounts",
            "moles",
            "mole",
            "mol",
            "number",
            "of",
            "the",
            "in",
            "is",
        ),
        *("from", "by", "see", "to", "with", "it", "this", "that", "as", "equation"),
        *("used", "reacted", "reacts", "needed", "neutralised", "titrated", "solution"),
    )
)
"""What may be said of an amount without making it that of another portion."""


@dataclass(frozen=True, slots=True)
class _Ratio:
    """How many moles of one substance an equation has for one of another."""

    own: Fraction
    other: Fraction
    equation: WorkedEquation

    @property
    def factor(self) -> Fraction:
        return self.own / self.other


def turned_ratios(work: WorkedExperiment) -> Iterator[Fault]:
    """Each amount that an equation's ratio is turned round or left out for."""
    lines = [line.line for c in work.numbers.calculations for line in c.lines]
    first: dict[str, CalculationLine] = {}
    for line in lines:
        first.setdefault(line.symbol, line)
    for line in lines:
        if not isinstance(line, Computed) or first[line.symbol] is not line:
            continue
        multiple = _multiple(line.expression)
        base = first.get(multiple[0]) if multiple else None
        if multiple is None or base is None or line.unit is None:
            continue
        own, other = _substance(line, work), _substance(base, work)
        if own is None or other is None or own == other:
            continue
        ratio = _ratio(own, other, work)
        if ratio and ratio.factor != 1 and multiple[1] in (1, 1 / ratio.factor):
            yield _fault(line, base.symbol, own, other, ratio)


def _fault(line: Computed, base: str, own: str, other: str, ratio: _Ratio) -> Fault:
    message = (
        f"{line.symbol} is {line.source.strip()} here, and in "
        f"{ratio.equation.balance.equation}, {_mol(ratio.own)} of {own} "
        f"{'goes' if ratio.own <= 1 else 'go'} with {_mol(ratio.other)} of {other}"
    )
    return Fault(line.expression_place, message, _times(base, ratio.factor))


def _mol(number: Fraction) -> str:
    return f"{number} mol"


def _times(symbol: str, factor: Fraction) -> str:
    over, under = factor.numerator, factor.denominator
    times = symbol if over == 1 else f"{over} * {symbol}"
    return times if under == 1 else f"{times} / {under}"


def _multiple(expression: Expression) -> tuple[str, Fraction] | None:
    """The one symbol of an expression and the bare number that it is multiplied by."""
    match expression:
        case Symbol(name=name):
            return name, Fraction(1)
        case Binary(operator=Operator.TIMES, left=Number(value=value), right=other):
            return _scaled(other, value)
        case Binary(operator=Operator.TIMES, left=other, right=Number(value=value)):
            return _scaled(other, value)
        case Binary(operator=Operator.OVER, left=other, right=Number(value=value)):
            return _scaled(other, 1 / value) if value else None
        case _:
            return None


def _scaled(expression: Expression, by: Fraction) -> tuple[str, Fraction] | None:
    inner = _multiple(expression)
    return (inner[0], inner[1] * by) if inner else None


def _substance(line: CalculationLine, work: WorkedExperiment) -> str | None:
    """The formula of the one substance whose amount a line is described as."""
    prose = prose_of(line.description)
    found = [
        (m.start, m.end, m.chemical.formula)
        for m in mentions(prose.text, work.laboratory.store).chemicals
    ]
    found += [(start, end, span.formula) for start, end, span in prose.formulas()]
    formulas = {_anhydrous(str(formula)) for _, _, formula in found if formula}
    rest = "".join(
        " " if any(s <= at < e for s, e, _ in found) else letter
        for at, letter in enumerate(prose.text.casefold())
    )
    words = set(re.findall(r"[^\W\d_]+", rest))
    if len(formulas) != 1 or not words <= _AMOUNT or not words & {"amount", "moles"}:
        return None
    return formulas.pop()


def _anhydrous(formula: str) -> str:
    return formula.partition("·")[0]


def _ratio(own: str, other: str, work: WorkedExperiment) -> _Ratio | None:
    """The ratio in which two substances stand in every equation that has both."""
    found = []
    for worked in work.equations:
        if worked.balance.status not in ("balanced", "rebalanced"):
            continue
        terms = worked.balance.equation.terms
        mine = [t.amount for t in terms if _anhydrous(str(t.formula)) == own]
        others = [t.amount for t in terms if _anhydrous(str(t.formula)) == other]
        if len(mine) == len(others) == 1:
            found.append(_Ratio(mine[0], others[0], worked))
        elif mine and others:
            return None
    is_one = len({ratio.factor for ratio in found}) == 1
    return found[0] if is_one else None
