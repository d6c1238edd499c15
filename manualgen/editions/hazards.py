"""The hazard box as a panel."""

from __future__ import annotations

from manualgen.editions.sheet import HazardPanel
from manualgen.working.worked import WorkedExperiment


def set_hazards(work: WorkedExperiment, number: str) -> HazardPanel:
    """Safety N.1, made from the chemicals and what the equations evolve."""
    return HazardPanel(number, (), work.settings.standing_controls, ())
