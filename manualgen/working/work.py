"""Work out a manual: everything that is computed from it, in one order."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from manualgen.model.experiment import Experiment
from manualgen.model.manual import Manual
from manualgen.working.equations import work_equations
from manualgen.working.evolved import made_in, reactions_of
from manualgen.working.hazards import hazard_box
from manualgen.working.laboratory import Laboratory, laboratory_of
from manualgen.working.materials import work_materials
from manualgen.working.numbers import work_numbers
from manualgen.working.worked import Worked, WorkedExperiment


def work_out(
    manual: Manual,
    lines: Mapping[str, tuple[str, ...]],
    today: datetime.date,
) -> Worked:
    """The worked manual; ``lines`` is the source text by file."""
    laboratory = laboratory_of(manual)
    experiments = tuple(
        work_experiment(manual, e, laboratory) for e in manual.experiments
    )
    return Worked(manual, experiments, today, laboratory, lines)


def work_experiment(
    manual: Manual, experiment: Experiment, laboratory: Laboratory
) -> WorkedExperiment:
    """One experiment of a manual, worked out by itself."""
    equations = work_equations(experiment)
    materials = work_materials(experiment, laboratory)
    reactions = reactions_of(equations, materials, laboratory)
    made = made_in(reactions, materials, laboratory)
    numbers = work_numbers(experiment, manual.settings)
    return WorkedExperiment(
        experiment,
        manual.number_of(experiment.id),
        manual.settings,
        equations=equations,
        numbers=numbers,
        laboratory=laboratory,
        materials=materials,
        reactions=reactions,
        made=made,
        hazards=hazard_box(materials, reactions, made, manual.settings),
        accepts=(*manual.accepts, *experiment.accepts),
    )
