"""Questions, their parts, marks and answers."""

from __future__ import annotations

import pytest

from manualgen.model.blocks import (
    Answer,
    AnswerSpace,
    Paragraph,
    Question,
)
from manualgen.model.fences import EquationBlock
from manualgen.model.text import EquationSpan, Marks
from manualgen.model.walk import plain
from manualgen.quantities import parse_quantity

from .shelf import Page, read_questions, where


def questions(page: Page) -> list[Question]:
    return [b for b in page.blocks if isinstance(b, Question)]


def question(page: Page) -> Question:
    (only,) = questions(page)
    return only


def words(blocks: tuple[object, ...]) -> list[str]:
    return [plain(b.content) for b in blocks if isinstance(b, Paragraph)]


def answer(page: Page) -> Answer:
    found = question(page).answer
    assert found is not None
    return found


def test_a_question_has_words_marks_and_an_answer() -> None:
    page = read_questions(
        "1. Why is it rinsed? [2]\n\n"
        "   > **Answer (3 lines):** Acid is left [1]; water adds none [1]."
    )
    asked = question(page)
    assert words(asked.blocks) == ["Why is it rinsed?"]
    assert asked.marks is not None
    assert (asked.marks.number, asked.marks.maximum) == (2, False)
    assert where(asked.marks.place) == page.at("[2]")
    assert answer(page).space == AnswerSpace(lines=3)
    points = [
        i
        for b in answer(page).blocks
        if isinstance(b, Paragraph)
        for i in b.content
        if isinstance(i, Marks)
    ]
    assert [p.number for p in points] == [1, 1]
    assert not page.faults


def test_a_question_with_parts_has_parts() -> None:
    page = read_questions(
        "1. Two parts:\n"
        "   1. Write the equation. [1]\n"
        "      > **Answer:** `NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)`\n"
        "   2. Name the salt. [1]\n\n"
        "      > **Answer (1 line):** Sodium chloride."
    )
    first, second = question(page).parts
    assert (first.number, second.number) == (1, 2)
    assert question(page).marks is None
    assert first.answer is not None
    (written,) = first.answer.blocks
    assert isinstance(written, Paragraph)
    assert isinstance(written.content[0], EquationSpan)
    assert first.answer.space == AnswerSpace()
    assert not page.faults


@pytest.mark.parametrize(
    ("label", "space"),
    [
        ("Answer", AnswerSpace()),
        ("Answer (1 line)", AnswerSpace(lines=1)),
        ("Answer (12 lines)", AnswerSpace(lines=12)),
        ("Answer (drawing 6 cm)", AnswerSpace(drawing=parse_quantity("6 cm"))),
        ("Answer (open)", AnswerSpace(own_work=True)),
        ("Answer (open, 8 lines)", AnswerSpace(lines=8, own_work=True)),
    ],
)
def test_the_label_says_how_much_room_there_is(label: str, space: AnswerSpace) -> None:
    page = read_questions(f"1. Why? [1]\n\n   > **{label}:** Because.")
    assert answer(page).space == space
    assert not page.faults


@pytest.mark.parametrize(
    "where_it_stands", ["[2]", "**[2]**", "[2] [#why]", "[#why] [2]"]
)
def test_marks_stand_at_the_end_with_or_without_a_name(where_it_stands: str) -> None:
    asked = question(read_questions(f"1. Why? {where_it_stands}"))
    assert asked.marks is not None
    assert asked.marks.number == 2
    assert words(asked.blocks) == ["Why?"]


def test_a_number_in_brackets_amid_a_question_is_words() -> None:
    page = read_questions("1. What does note [1] say? [2]")
    assert words(question(page).blocks) == ["What does note [1] say?"]


@pytest.mark.parametrize(
    "text",
    [
        "1. Name two. [max 2]",
        "1. Name two. [2]\n\n   > **Answer:** a [1], b [1] or c [1] [max 2]",
    ],
)
def test_max_says_that_more_points_are_offered_than_count(text: str) -> None:
    page = read_questions(text)
    asked = question(page)
    blocks = asked.answer.blocks if asked.answer else ()
    said = [asked.marks] + [
        i for b in blocks if isinstance(b, Paragraph) for i in b.content
    ]
    assert any(isinstance(i, Marks) and i.maximum and i.number == 2 for i in said)
    assert not page.faults


def test_marks_in_brackets_stay_words_in_what_a_question_lists() -> None:
    page = read_questions("1. Choose, *see [1]* and [_[2]_]:\n   - iron [3]\n   - zinc")
    assert question(page).marks is None
    assert words(question(page).blocks) == ["Choose, see [1] and [2]:"]


def test_a_question_may_hold_an_equation_to_write() -> None:
    page = read_questions(
        "1. Balance it. [1]\n\n   ```equation to-balance\n   H2 + O2 -> H2O\n   ```"
    )
    block = question(page).blocks[1]
    assert isinstance(block, EquationBlock)
    assert block.to_balance


def test_an_answer_that_is_not_indented_belongs_to_the_question_above() -> None:
    page = read_questions("1. Why? [1]\n\n> **Answer:** So.\n\n2. How? [1]")
    first, second = questions(page)
    assert first.answer is not None
    assert second.answer is None
    assert not page.faults


def test_a_name_on_an_answer_is_the_questions() -> None:
    page = read_questions("1. Why? [1]\n\n   > **Answer #why:** So.")
    assert question(page).name == "why"


@pytest.mark.parametrize(
    ("body", "check", "at"),
    [
        ("1. Why? [1]\n\n   > **Answer (3 lnes):** x", "source-syntax", "**Answer"),
        ("1. Why? [1]\n\n   > **Answer (drawing 6):** x", "unit-dimension", "**Answer"),
        (
            "1. Why? [1]\n\n   > **Answer (drawing 6 g):** x",
            "unit-dimension",
            "**Answer",
        ),
        ("1. A? [1]\n\n   B? [1]", "source-syntax", "[1]"),
        (
            "1. Why? [1]\n\n   > **Answer:** x\n\n   > **Answer:** y",
            "source-syntax",
            "> **Answer:** y",
        ),
        ("> **Answer:** x\n\n1. Why? [1]", "source-syntax", "> **Answer"),
        ("1. A:\n   1. b [1]\n\n> **Answer:** x", "source-syntax", "> **Answer"),
        ("1. Why?\n3. How?", "source-syntax", "3. How"),
        ("1. Why?\n\n   > **Answer (drawing x cm):** x", "source-syntax", "**Answer"),
        ("1. A:\n   1. b\n   3. c", "source-syntax", "3. c"),
    ],
)
def test_slips_in_questions_are_found(body: str, check: str, at: str) -> None:
    page = read_questions(body)
    assert [(c, w) for c, w, _ in page.faults] == [(check, page.at(at))]
