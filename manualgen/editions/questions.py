"""Questions, and room for their answers of the same height in both editions."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from manualgen.drawing.room import RULING_MM, Fit, fit_text
from manualgen.editions.catalogue import question_label
from manualgen.editions.compositor import Compositor
from manualgen.editions.key import FilledRoom
from manualgen.editions.sheet import AnswerRoom, Panels, QuestionItem, SpaceKind
from manualgen.model.blocks import Answer, Blocks, Question
from manualgen.model.responses import (
    answer_lines,
    frame_mm,
    is_answered_in_place,
    paragraphs,
)
from manualgen.working.worked import WorkedExperiment

SetPanels: TypeAlias = Callable[[Compositor, WorkedExperiment, Blocks], Panels]


def set_question(
    compositor: Compositor,
    work: WorkedExperiment,
    question: Question,
    outer: str,
    set_panels: SetPanels,
) -> QuestionItem:
    """A question with its parts; ``outer`` is the label of the one it is part of."""
    label = question_label(outer, question.number)
    return QuestionItem(
        label,
        compositor.anchor_at(question.place),
        set_panels(compositor, work, question.blocks),
        question.marks.number if question.marks else None,
        _room(compositor, work, question, set_panels),
        tuple(
            set_question(compositor, work, part, label, set_panels)
            for part in question.parts
        ),
    )


def _room(
    compositor: Compositor,
    work: WorkedExperiment,
    question: Question,
    set_panels: SetPanels,
) -> AnswerRoom | None:
    answer = question.answer
    if answer is None:
        filled_in = is_answered_in_place(question)
        if question.parts or filled_in:
            return None
        key = compositor.new_key()
        return AnswerRoom(key, SpaceKind.LINES, answer_lines(question), 0.0)
    height = frame_mm(answer)
    lines = 0 if height else answer_lines(question)
    blocks = _set_answer(compositor, work, answer, set_panels)
    fit = fit_text(paragraphs(answer.blocks), height or lines * RULING_MM)
    key = compositor.new_key(_filling(compositor, blocks, fit))
    if height:
        return AnswerRoom(key, SpaceKind.FRAME, 0, height)
    kind = SpaceKind.OWN if answer.space.own_work else SpaceKind.LINES
    return AnswerRoom(key, kind, lines, 0.0)


def _set_answer(
    compositor: Compositor,
    work: WorkedExperiment,
    answer: Answer,
    set_panels: SetPanels,
) -> Panels:
    before, compositor.showing_answers = compositor.showing_answers, True
    try:
        return set_panels(compositor, work, answer.blocks)
    finally:
        compositor.showing_answers = before


def _filling(compositor: Compositor, blocks: Panels, fit: Fit | None) -> FilledRoom:
    """The answer in its room, or a pointer to the teacher pages where it is too long."""
    if fit is not None:
        return FilledRoom(blocks, fit)
    return FilledRoom((), Fit.ON_LINES, compositor.add_note("Answer", blocks))
