"""The hazard box as a panel: Safety N.1.

Students are told what can harm them.  Hazards to the environment decide how
things are disposed of, which is the teacher's and the technician's business:
their statements stand on the teacher pages.
"""

from __future__ import annotations

from manualgen.editions.sheet import HazardPanel, HazardRow
from manualgen.editions.wording import Wording, wording_of
from manualgen.knowledge import Classification
from manualgen.quantities import Quantity, parse_unit, printed
from manualgen.quantities.figures import rounded_to_figures
from manualgen.working.hazards import HazardEntry
from manualgen.working.worked import WorkedExperiment

_ENVIRONMENT = ("H400", "H410", "H411", "H412", "H413")
_ENVIRONMENT_PICTOGRAM = "GHS09"
_CM3 = parse_unit("cm3")
_GAS_FIGURES = 2


def set_hazards(work: WorkedExperiment, number: str) -> HazardPanel:
    """Safety N.1, made from the chemicals and what the equations evolve."""
    wording = wording_of(work.settings)
    precautions = wording.precautionary_statements()
    rows = [(entry, _row(entry, wording)) for entry in work.hazards.entries]
    return HazardPanel(
        number,
        tuple(row for entry, row in rows if _matters(entry, row)),
        work.hazards.controls,
        tuple(precautions[p.code] for p in work.hazards.response),
        tuple(_called(row) for entry, row in rows if _is_unclassified(entry, row)),
        tuple(_called(row) for entry, row in rows if _only_environment(entry, row)),
    )


def environment_rows(work: WorkedExperiment) -> tuple[HazardRow, ...]:
    """What the students' box leaves out: hazards to the environment."""
    wording = wording_of(work.settings)
    texts = wording.hazard_statements()
    found: list[HazardRow] = []
    for entry in work.hazards.entries:
        codes = _codes(entry.classification)
        left_out = tuple(texts[code] for code in codes if code in _ENVIRONMENT)
        if left_out:
            row = _row(entry, wording)
            found.append(
                HazardRow(
                    row.name, row.strength, "", (_ENVIRONMENT_PICTOGRAM,), left_out, ""
                )
            )
    return tuple(found)


def _matters(entry: HazardEntry, row: HazardRow) -> bool:
    if _only_environment(entry, row):
        return False
    return bool(row.statements or row.remark) or entry.classification is None


def _only_environment(entry: HazardEntry, row: HazardRow) -> bool:
    """Whether it is classified, and as nothing that harms a person."""
    found = entry.classification
    is_classified = found is not None and found.is_classified
    return is_classified and not row.statements and entry.gas_m3 is None


def _is_unclassified(entry: HazardEntry, row: HazardRow) -> bool:
    return not _matters(entry, row) and not _only_environment(entry, row)


def _called(row: HazardRow) -> str:
    return " ".join(filter(None, (row.name, row.strength)))


def _row(entry: HazardEntry, wording: Wording) -> HazardRow:
    found = entry.classification
    texts = wording.hazard_statements()
    signal = found.signal_word if found else None
    worded = found.worded(texts) if found else ()
    statements = tuple(text for code, text in worded if code not in _ENVIRONMENT)
    pictograms = found.pictograms if found else ()
    return HazardRow(
        entry.name,
        wording.strength(entry.strength),
        wording.say[signal] if signal and statements else "",
        tuple(p for p in pictograms if p != _ENVIRONMENT_PICTOGRAM),
        statements,
        _remark(entry, wording),
    )


def _codes(found: Classification | None) -> tuple[str, ...]:
    return (*found.h_statements, *found.euh) if found else ()


def _remark(entry: HazardEntry, wording: Wording) -> str:
    found, say = entry.classification, wording.say
    if found is None:
        return say["no_hazard_data"]
    if entry.made is None:
        return say[f"{found.advice}_advice"] if found.advice else ""
    if entry.gas_m3 is None:
        return say["made_here"] if found.is_classified else ""
    value = rounded_to_figures(entry.gas_m3 / _CM3.factor, _GAS_FIGURES)
    volume = printed(Quantity(value, _CM3), wording.house)
    return say["made_at_most"].format(volume=volume)
