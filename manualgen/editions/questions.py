"""Questions, and room for their answers of the same height in both editions."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from manualgen.editions.catalogue import question_label
from manualgen.editions.compositor import Compositor
from manualgen.editions.key import FilledRoom
from manualgen.editions.sheet import AnswerRoom, Panels, QuestionItem, SpaceKind
from manualgen.model.blocks import Answer, Blocks, Question
from manualgen.working.worked import WorkedExperiment

LINES_PER_MARK = 2
LINES_WITHOUT_MARKS = 2

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
    if answer is None and question.parts:
        return None
    key = compositor.new_key()
    if answer:
        before, compositor.showing_answers = compositor.showing_answers, True
        compositor.filled[key] = FilledRoom(set_panels(compositor, work, answer.blocks))
        compositor.showing_answers = before
    if answer and answer.space.drawing:
        height = float(answer.space.drawing.si_value) * 1000
        return AnswerRoom(key, SpaceKind.FRAME, 0, height)
    own = bool(answer and answer.space.own_work)
    kind = SpaceKind.OWN if own else SpaceKind.LINES
    return AnswerRoom(key, kind, answer_lines(question, answer), 0.0)


def answer_lines(question: Question, answer: Answer | None) -> int:
    """Ruled lines for an answer: what the author asks for, or two a mark."""
    if answer and answer.space.lines is not None:
        return answer.space.lines
    if question.marks:
        return LINES_PER_MARK * question.marks.number
    return LINES_WITHOUT_MARKS
