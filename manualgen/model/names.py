"""The names that pieces of an experiment carry, one family whatever carries them."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.model.blocks import Box, Figure, PipeTable, Question, Step
from manualgen.model.experiment import Experiment
from manualgen.model.fences import Calculation, EquationBlock, Graph, Readings, Setup
from manualgen.model.place import Place
from manualgen.model.walk import all_blocks


def named(experiment: Experiment) -> Iterator[tuple[str, Place]]:
    """Every name that is given, with the place of its bearer, in source order."""
    for block in all_blocks(experiment):
        match block:
            case (
                Step()
                | PipeTable()
                | Figure()
                | Box()
                | Question()
                | EquationBlock()
                | Readings()
                | Calculation()
                | Graph()
                | Setup()
            ) if block.name:
                yield block.name, block.place
            case _:
                pass


def names_in(experiment: Experiment) -> dict[str, Place]:
    """Each name once, with the place where it was first given."""
    found: dict[str, Place] = {}
    for name, place in named(experiment):
        found.setdefault(name, place)
    return found
