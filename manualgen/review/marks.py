"""The marks of a question that came or went, and what all marks come to."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.editions.catalogue import TEACHER_SECTIONS
from manualgen.model.blocks import Question
from manualgen.model.experiment import Experiment, Section
from manualgen.model.manual import Manual
from manualgen.model.place import Place
from manualgen.model.walk import walk
from manualgen.review.changes import Change
from manualgen.review.pieces import Piece

KIND = "marks"
IN_ALL = "in all"


def with_marks(piece: Piece) -> str:
    """What a piece is called where it is new or gone: a question with its marks."""
    marks = next((fact.text for fact in piece.facts if fact.kind == KIND), None)
    if marks is None:
        return piece.what
    word = "mark" if marks.split()[-1] == "1" else "marks"
    return f"{piece.what}, {marks} {word}"


def total_changes(old: Experiment, new: Experiment) -> Iterator[Change]:
    """The marks of all an experiment's questions, where they come to another number."""
    asked = (section.place for section in new.sections if _marks_in(section))
    place = next(asked, new.title_place)
    yield from _moved(_total(old), _total(new), place)


def manual_total_changes(old: Manual, new: Manual) -> Iterator[Change]:
    """The same of all experiments that the manual lists."""
    yield from _moved(_manual_total(old), _manual_total(new), None)


def _moved(before: int, after: int, place: Place | None) -> Iterator[Change]:
    if before != after:
        yield Change(KIND, IN_ALL, str(before), str(after), place)


def _manual_total(manual: Manual) -> int:
    totals = {e.id: _total(e) for e in manual.experiments}
    return sum(totals.get(entry.experiment, 0) for entry in manual.entries())


def _total(experiment: Experiment) -> int:
    return sum(_marks_in(section) for section in experiment.sections)


def _marks_in(section: Section) -> int:
    """The marks that students find; questions in the teacher's sections give none."""
    if section.kind in TEACHER_SECTIONS:
        return 0
    return sum(
        block.marks.number
        for block in walk(section.blocks)
        if isinstance(block, Question) and block.marks
    )
