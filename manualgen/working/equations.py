"""Every equation of an experiment with its balance, worked out once."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.chemistry import Equation, balance, net_ionic
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
    return WorkedEquation(
        stated.equation,
        balance(stated.equation, half=block is not None and block.half),
        stated.place,
        block,
        _net_ionic(stated.equation, block),
        stated.source,
    )


def _net_ionic(equation: Equation, block: EquationBlock | None) -> Equation | None:
    """The net ionic form of a full equation; half-equations and the like have none."""
    if block and (block.half or block.ionic):
        return None
    return net_ionic(equation).net
