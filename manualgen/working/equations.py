"""Every equation of an experiment with its balance, worked out once."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from manualgen.chemistry import Balance, Equation, balance, net_ionic
from manualgen.model.experiment import Experiment
from manualgen.model.fences import EquationBlock, EquationLine
from manualgen.model.text import EquationSpan, Inlines
from manualgen.model.walk import all_blocks, inlines, texts
from manualgen.working.worked import WorkedEquation


def work_equations(experiment: Experiment) -> tuple[WorkedEquation, ...]:
    """The equations of an experiment in source order, in fences and in the line."""
    return tuple(_equations(experiment))


def _equations(experiment: Experiment) -> Iterator[WorkedEquation]:
    for block in all_blocks(experiment):
        if isinstance(block, EquationBlock):
            for line in block.lines:
                yield _worked(line, block)
        else:
            for content in texts(block):
                yield from _in_line(content)


def _in_line(content: Inlines) -> Iterator[WorkedEquation]:
    for inline in inlines(content):
        if isinstance(inline, EquationSpan):
            yield _worked(inline, None)


def _worked(
    stated: EquationLine | EquationSpan, block: EquationBlock | None
) -> WorkedEquation:
    is_half = block is not None and block.half
    is_full = not is_half and not (block and block.ionic)
    return WorkedEquation(
        stated.equation,
        _balance(stated.equation, stated.source, is_half),
        stated.place,
        block,
        _net_ionic(stated.equation, stated.source) if is_full else None,
        stated.source,
    )


@lru_cache(maxsize=512)
def _balance(equation: Equation, _source: str, half: bool) -> Balance:
    """Its balance; a manual says the same in a fence, in the text and in a question.

    Equations are alike wherever their terms stand, so the source tells them apart.
    """
    return balance(equation, half=half)


@lru_cache(maxsize=512)
def _net_ionic(equation: Equation, _source: str) -> Equation | None:
    """The net ionic form of a full equation; half-equations and the like have none."""
    return net_ionic(equation).net
