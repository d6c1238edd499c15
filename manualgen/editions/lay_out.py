"""The two editions of an experiment, laid out in one pass.

`lay_out` gives the student's sheet and, apart from it, the teacher's key.
The student edition is the first alone: what made it has no way to the second.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from manualgen.editions.catalogue import TEACHER_SECTIONS, Numbered
from manualgen.editions.compositor import Compositor
from manualgen.editions.hazards import environment_rows, set_hazards
from manualgen.editions.key import Key, TeacherPages, UnknownRow
from manualgen.editions.lists import apparatus_row, students_chemical, true_chemical
from manualgen.editions.panels import set_aside, set_panels
from manualgen.editions.results import printed_result
from manualgen.editions.sheet import Sheet, SheetSection
from manualgen.editions.wording import Wording, wording_of
from manualgen.model.experiment import Experiment, Reviewed, Section
from manualgen.working.worked import WorkedExperiment


def student(work: WorkedExperiment, numbers: Mapping[str, Numbered]) -> Sheet:
    """The student's sheet of an experiment."""
    return lay_out(work, numbers)[0]


def lay_out(
    work: WorkedExperiment, numbers: Mapping[str, Numbered]
) -> tuple[Sheet, Key]:
    """The sheet of an experiment, and the key that makes it the teacher's."""
    experiment = work.experiment
    compositor = Compositor(numbers, experiment.id, _values(work))
    for_students = tuple(
        _section(compositor, work, section)
        for section in experiment.sections
        if section.kind not in TEACHER_SECTIONS
    )
    wording = wording_of(work.settings)
    sheet = Sheet(
        experiment.id,
        compositor.own.number,
        experiment.title,
        experiment.time,
        experiment.group,
        experiment.techniques,
        set_hazards(work, f"{compositor.own.number}.1"),
        tuple(students_chemical(c, wording) for c in experiment.chemicals),
        tuple(apparatus_row(a, wording) for a in experiment.apparatus),
        for_students,
    )
    pages = _teacher_pages(compositor, work)
    has_pages = pages != TeacherPages()
    filled = MappingProxyType(dict(compositor.filled))
    return sheet, Key(filled, pages if has_pages else None)


def _values(work: WorkedExperiment) -> dict[str, str]:
    house = wording_of(work.settings).house
    stated = work.numbers.stated
    return {name: printed_result(value, house) for name, value in stated.items()}


def _section(
    compositor: Compositor, work: WorkedExperiment, section: Section
) -> SheetSection:
    blocks = set_panels(compositor, work, section.blocks)
    heading = wording_of(work.settings).heading(section.heading)
    return SheetSection(heading, _anchor(work, section), blocks)


def _anchor(work: WorkedExperiment, section: Section) -> str:
    """``section.method``; a second of the same heading gets its number behind it."""
    words = "".join(c if c.isalnum() else " " for c in section.heading.casefold())
    same = [s for s in work.experiment.sections if s.heading == section.heading]
    count = f"-{same.index(section) + 1}" if same.index(section) else ""
    return "section." + "-".join(words.split()) + count


def _teacher_pages(compositor: Compositor, work: WorkedExperiment) -> TeacherPages:
    experiment, wording = work.experiment, wording_of(work.settings)
    sections = tuple(
        SheetSection(
            wording.heading(s.heading),
            _anchor(work, s),
            set_aside(compositor, work, s.blocks),
        )
        for s in experiment.sections
        if s.kind in TEACHER_SECTIONS
    )
    has_unknowns = any(c.shown for c in experiment.chemicals)
    return TeacherPages(
        notes=tuple(compositor.notes),
        sections=sections,
        unknowns=tuple(_unknowns(experiment, wording)),
        chemicals=tuple(true_chemical(c, wording) for c in experiment.chemicals)
        if has_unknowns
        else (),
        hazards=environment_rows(work),
        reviewed=_reviewed(experiment.reviewed, wording),
    )


def _unknowns(experiment: Experiment, wording: Wording) -> list[UnknownRow]:
    rows: list[UnknownRow] = []
    for listed in experiment.chemicals:
        if listed.shown is None:
            continue
        strength = wording.strength(listed.made or listed.strength)
        if not listed.sets:
            rows.append(UnknownRow(listed.shown, "", _made(listed.name, strength)))
        for each in listed.sets:
            groups = f"{each.first_group}–{each.last_group}"
            rows.append(UnknownRow(listed.shown, groups, _made(each.name, strength)))
    return rows


def _made(name: str, strength: str) -> str:
    """What an unknown is, and the strength that it is made up to."""
    return ", ".join(filter(None, (name, strength)))


def _reviewed(reviewed: Reviewed | None, wording: Wording) -> str:
    if reviewed is None:
        return ""
    when = f", {reviewed.date.isoformat()}" if reviewed.date else ""
    due = ""
    if reviewed.due:
        due = "; " + wording.say["due_again"].format(date=reviewed.due.isoformat())
    return f"{reviewed.by}{when}{due}"
