"""Every equation of an experiment with its balance, worked out once."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.chemistry import balance
from manualgen.model.experiment import Experiment
from manualgen.model.fences import EquationBlock
from manualgen.model.text import EquationSpan, Inlines
from manualgen.model.walk import inlines, texts, walk
from manualgen.working.worked import WorkedEquation


def work_equations(experiment: Experiment) -> tuple[WorkedEquation, ...]:
    """The equations of an experiment in source order, in fences and in the line."""
    return tuple(_equations(experiment))


def _equations(experiment: Experiment) -> Iterator[WorkedEquation]:
    for block in walk(experiment.blocks()):
        if isinstance(block, EquationBlock):
            for line in block.lines:
                yield WorkedEquation(
                    line.equation, balance(line.equation), line.place, block
                )
        else:
            for content in texts(block):
                yield from _in_line(content)


def _in_line(content: Inlines) -> Iterator[WorkedEquation]:
    for inline in inlines(content):
        if isinstance(inline, EquationSpan):
            yield WorkedEquation(
                inline.equation, balance(inline.equation), inline.place, None
            )
