"""The safety family: hazards without their controls, chemicals that must not meet, waste.

What the checks propose stands in a finding for the author; what is printed is
what the author and the laboratory's rules say. A finding is no risk assessment.
"""

from __future__ import annotations

from manualgen.checks.meeting import Meeting, meetings, place_of
from manualgen.checks.missing_controls import missing_controls
from manualgen.checks.registry import Report, check
from manualgen.checks.waste import sent_down_the_sink, without_disposal
from manualgen.knowledge import incompatibility
from manualgen.model.finding import Fault, Severity
from manualgen.working.worked import WorkedExperiment


@check("hazard-unknown", Severity.WARNING)
def hazard_unknown(work: WorkedExperiment) -> Report:
    """The hazards of every chemical in use are known, be it that it has none."""
    for entry in work.materials.lineup.entries:
        for identity in entry.identities:
            if identity.chemical is not None and identity.classification is None:
                yield Fault(
                    identity.place,
                    f"nothing is known of the hazards of {identity.name}",
                    "hazards and their source in chemicals.yaml, from the supplier's "
                    "safety data sheet",
                )


@check("control-missing", Severity.ERROR)
def control_missing(work: WorkedExperiment) -> Report:
    """Each hazard has its usual control in a Safety box, a step or a standing rule."""
    yield from missing_controls(work)


@check("incompatible-chemicals", Severity.ERROR)
def incompatible_chemicals(work: WorkedExperiment) -> Report:
    """No two chemicals in use must be kept from each other, unless they are meant to react."""
    for met in meetings(work, incompatibility):
        if not met.meant:
            yield _must_not_meet(met, work)


@check("disposal-missing", Severity.ERROR)
def disposal_missing(work: WorkedExperiment) -> Report:
    """The Method's disposal has a word on each hazardous chemical, product and residue."""
    yield from without_disposal(work)


@check("disposal-route", Severity.ERROR)
def disposal_route(work: WorkedExperiment) -> Report:
    """Silver, lead, chromium, mercury, nickel, cobalt and solvents never go down the sink."""
    yield from sent_down_the_sink(work)


def _must_not_meet(met: Meeting, work: WorkedExperiment) -> Fault:
    one, other = met.one.name, met.other.name
    return Fault(
        place_of(met.one, work),
        f"{one} and {other} {met.pair.because}: they must not meet",
        "keep them apart, in different practicals; where they are meant to react, "
        "give the equation that holds both and name the control",
    )
