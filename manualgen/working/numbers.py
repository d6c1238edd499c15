"""All numbers of an experiment: its tables, graphs and calculations in source order.

Each uses what stands before it; a name that is defined only further down is
said to be so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from manualgen.model.experiment import Experiment
from manualgen.model.fences import Calculation, Graph, Readings
from manualgen.model.finding import Noted
from manualgen.model.manual import Settings
from manualgen.model.walk import all_blocks, blocks_of
from manualgen.quantities import Quantity
from manualgen.quantities.evaluate import Scope
from manualgen.working.calculations import WorkedCalculation, work_calculation
from manualgen.working.graphs import WorkedGraph, work_graph
from manualgen.working.instruments import Bench
from manualgen.working.ledger import Ledger
from manualgen.working.readings import WorkedReadings, work_readings


@dataclass(frozen=True, slots=True)
class Numbers:
    """What an experiment's tables, graphs and calculations come to."""

    readings: tuple[WorkedReadings, ...] = ()
    graphs: tuple[WorkedGraph, ...] = ()
    calculations: tuple[WorkedCalculation, ...] = ()
    scope: Scope = field(default_factory=Scope)
    """Every value by its name, to evaluate further expressions with."""
    stated: Mapping[str, Quantity] = field(default_factory=dict)
    """Every value as it is printed: rounded, with its uncertainty."""
    names: frozenset[str] = frozenset()
    """Every name that is defined, with a value or without."""

    @property
    def noted(self) -> tuple[Noted, ...]:
        """Whatever is wrong with an expression, in source order of each kind."""
        return (
            *(fault for table in self.readings for fault in table.noted),
            *(fault for graph in self.graphs for fault in graph.noted),
            *(
                fault
                for calculation in self.calculations
                for line in calculation.lines
                for fault in line.noted
            ),
        )


def work_numbers(experiment: Experiment, settings: Settings) -> Numbers:
    """The numbers of an experiment, worked out in the order of its source."""
    ledger = Ledger(settings, Bench(experiment.apparatus, settings.burette))
    ledger.defined_on = _definitions(experiment)
    tables: dict[str, WorkedReadings] = {}
    readings: list[WorkedReadings] = []
    graphs: list[WorkedGraph] = []
    calculations: list[WorkedCalculation] = []
    for block in all_blocks(experiment):
        match block:
            case Readings():
                readings.append(work_readings(block, ledger))
                tables[block.name or ""] = readings[-1]
            case Graph():
                graphs.append(work_graph(block, tables, ledger))
            case Calculation():
                calculations.append(work_calculation(block, ledger))
            case _:
                pass
    return Numbers(
        tuple(readings),
        tuple(graphs),
        tuple(calculations),
        ledger.scope(),
        ledger.stated,
        frozenset(ledger.values) | ledger.without_value,
    )


def _definitions(experiment: Experiment) -> dict[str, int]:
    """The line on which each symbol is first defined."""
    found: dict[str, int] = {}
    for calculation in blocks_of(experiment, Calculation):
        for line in calculation.lines:
            found.setdefault(line.symbol, line.place.line)
    return found
