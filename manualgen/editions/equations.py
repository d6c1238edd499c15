"""Equation fences: shown, left to balance, or left for the student to write."""

from __future__ import annotations

from manualgen.chemistry import Equation, Term
from manualgen.editions.compositor import Compositor
from manualgen.editions.fence_panels import (
    CoefficientGap,
    EquationPanel,
    EquationRow,
    Skeleton,
)
from manualgen.editions.key import FilledLine
from manualgen.editions.line import GapWidth, Line
from manualgen.model.fences import EquationBlock
from manualgen.model.place import Place
from manualgen.model.text import EquationSpan, Words
from manualgen.working.worked import WorkedEquation, WorkedExperiment


def set_equations(
    compositor: Compositor, work: WorkedExperiment, block: EquationBlock
) -> EquationPanel:
    """A panel with a row for each equation, and for each net ionic form."""
    rows: list[EquationRow] = []
    for worked in work.equations:
        if worked.block is block:
            rows.extend(_rows(compositor, worked, block))
    return EquationPanel(
        compositor.number_at(block.place),
        compositor.anchor_at(block.place) or None,
        tuple(rows),
    )


def _rows(
    compositor: Compositor, worked: WorkedEquation, block: EquationBlock
) -> list[EquationRow]:
    hidden = block.answer and not compositor.showing_answers
    rows = [_row(compositor, worked, block, hidden)]
    if block.with_ionic and worked.net_ionic:
        rows.append(_shown_or_gap(compositor, worked.net_ionic, worked, hidden, True))
    return rows


def _row(
    compositor: Compositor, worked: WorkedEquation, block: EquationBlock, hidden: bool
) -> EquationRow:
    equation = worked.balance.equation if block.to_balance else worked.equation
    if equation is None:
        equation = worked.equation
    if block.to_balance and not hidden and not compositor.showing_answers:
        return EquationRow(_skeleton(compositor, equation, worked.place), False)
    return _shown_or_gap(compositor, equation, worked, hidden, block.ionic)


def _shown_or_gap(
    compositor: Compositor,
    equation: Equation,
    worked: WorkedEquation,
    hidden: bool,
    ionic: bool,
) -> EquationRow:
    if not hidden:
        return EquationRow(equation, ionic)
    filling: Line = (EquationSpan(equation, "", worked.place),)
    return EquationRow(compositor.gap(filling, GapWidth.FULL), ionic)


def _skeleton(compositor: Compositor, equation: Equation, place: Place) -> Skeleton:
    def gap(term: Term) -> CoefficientGap:
        coefficient = str(term.coefficient or 1)
        key = compositor.new_key(FilledLine((Words(coefficient, place),)))
        return CoefficientGap(key, term.formula, term.state)

    return Skeleton(
        tuple(gap(t) for t in equation.reactants),
        tuple(gap(t) for t in equation.products),
        equation.arrow,
    )
