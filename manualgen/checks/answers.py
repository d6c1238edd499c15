"""The answers family: what the key owes to the questions."""

from __future__ import annotations

import re

from manualgen.checks.registry import Report, check
from manualgen.drawing.room import RULING_MM, fit_text
from manualgen.model.blocks import Question
from manualgen.model.fences import ColumnKind, Readings
from manualgen.model.finding import Fault, Severity
from manualgen.model.responses import (
    answer_lines,
    frame_mm,
    is_answered_in_place,
    marks_inside,
    paragraphs,
)
from manualgen.model.walk import blocks_of, plain, texts
from manualgen.working.worked import WorkedExperiment

_MARKS_IN_WORDS = re.compile(
    r"[\[(]\s*(?P<number>\d{1,2})\s*(?:marks?|m|points?)\s*[\])]"
)
MOST_LINES = 60
"""Beyond this no number of ruled lines is proposed."""


@check("answer-missing", Severity.WARNING)
def answer_missing(work: WorkedExperiment) -> Report:
    """Every question has an answer, and every table for readings has sample readings.

    A question that is filled in where it stands answers itself; one that only
    the student's own work can answer says ``(open)``.
    """
    for question in blocks_of(work.experiment, Question):
        if question.answer or question.parts or is_answered_in_place(question):
            continue
        yield Fault(
            question.place,
            "the question has no answer",
            "> **Answer:** …, or > **Answer (open):** … for the student's own work",
        )
    for readings in blocks_of(work.experiment, Readings):
        kinds = {column.kind for column in readings.columns}
        is_recipe = kinds == {ColumnKind.GIVEN}
        if not is_recipe and not kinds & {ColumnKind.SAMPLE, ColumnKind.FORMULA}:
            yield Fault(
                readings.place,
                "no column of the table has sample readings for the key",
                "sample: [...] in a column",
            )


@check("answer-space", Severity.WARNING)
def answer_space(work: WorkedExperiment) -> Report:
    """Every answer fits into the room that students have for it, in small type at most."""
    for question in blocks_of(work.experiment, Question):
        answer = question.answer
        if answer is None:
            continue
        text = paragraphs(answer.blocks)
        frame, lines = frame_mm(answer), answer_lines(question)
        if fit_text(text, frame or lines * RULING_MM) is not None:
            continue
        room = f"a frame of {frame / 10:g} cm" if frame else f"{lines} lines"
        yield Fault(
            answer.place,
            f"the answer does not fit into {room}; it will stand on the teacher pages",
            None if frame else _lines_enough(text),
        )


def _lines_enough(text: tuple[str, ...]) -> str | None:
    enough = (n for n in range(1, MOST_LINES) if fit_text(text, n * RULING_MM))
    found = next(enough, None)
    return f"({found} lines)" if found else None


@check("marks-sum", Severity.ERROR)
def marks_sum(work: WorkedExperiment) -> Report:
    """Marks inside an answer add up to the question's, or say ``[max 2]``."""
    for question in blocks_of(work.experiment, Question):
        if question.answer is None or question.marks is None:
            continue
        inside = marks_inside(question.answer.blocks)
        points = sum(m.number for m in inside if not m.maximum)
        limits = [m.number for m in inside if m.maximum]
        asked = question.marks.number
        if not points or (points == asked and not limits):
            continue
        if limits and limits[-1] == asked and points >= asked:
            continue
        yield Fault(
            question.marks.place,
            _uneven(asked, points, limits),
            _either_way(asked, points, limits),
        )


def _uneven(asked: int, points: int, limits: list[int]) -> str:
    told = f"the question has [{asked}], and the marks inside its answer add up to"
    at_most = f", of which [max {limits[-1]}] count" if limits else ""
    return f"{told} {points}{at_most}"


def _either_way(asked: int, points: int, limits: list[int]) -> str:
    """Nothing tells whether the question or its answer is what was changed."""
    counted = limits[-1] if limits and points >= limits[-1] else points
    if limits and points >= asked:
        return f"[{counted}] here, or [max {asked}] in the answer"
    added = f"points in the answer that add up to {asked}"
    if points > asked:
        return f"[{counted}] here, {added}, or [max {asked}] behind them"
    return f"[{counted}] here, or {added}"


@check("marks-missing", Severity.NOTE)
def marks_missing(work: WorkedExperiment) -> Report:
    """Every question that is not only the head of its parts says what it is worth."""
    for question in blocks_of(work.experiment, Question):
        if question.marks is None and not question.parts:
            yield _without_marks(question)


def _without_marks(question: Question) -> Fault:
    words = " ".join(plain(t) for block in question.blocks for t in texts(block))
    found = _MARKS_IN_WORDS.search(words)
    if found is None:
        return Fault(question.place, "the question has no marks", "[1] at its end")
    message = f"{found[0]} is not read as marks"
    return Fault(question.place, message, f"[{found['number']}]")
