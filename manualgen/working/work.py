"""Work out a manual: everything that is computed from it, in one order."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from manualgen.model.experiment import Experiment
from manualgen.model.manual import Manual
from manualgen.quantities import printed
from manualgen.working.equations import work_equations
from manualgen.working.numbers import work_numbers
from manualgen.working.worked import Worked, WorkedExperiment


def work_out(
    manual: Manual,
    lines: Mapping[str, tuple[str, ...]],
    today: datetime.date,
) -> Worked:
    """The worked manual; ``lines`` is the source text by file."""
    experiments = tuple(work_experiment(manual, e) for e in manual.experiments)
    return Worked(manual, experiments, today, lines)


def work_experiment(manual: Manual, experiment: Experiment) -> WorkedExperiment:
    """One experiment of a manual, worked out by itself."""
    numbers = work_numbers(experiment, manual.settings)
    house = manual.settings.house
    return WorkedExperiment(
        experiment,
        manual.number_of(experiment.id),
        manual.settings,
        equations=work_equations(experiment),
        numbers=numbers,
        printed_values={n: printed(q, house) for n, q in numbers.stated.items()},
    )
