"""What stands under a heading of questions, and answers by their numbers.

The sheets are our own: common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.adopting import adopted, text_document
from manualgen.adopting.draft import Form, Place

SHEET = """\
Copper by displacement

Method:
1. Put 2 g of copper(II) sulfate in a beaker.

{heading}
{questions}
"""


def _asked(questions: str, heading: str = "Questions") -> tuple[list[str], list[str]]:
    """Questions and answers in order, and what is not placed."""
    text = SHEET.format(heading=heading, questions=questions)
    (draft,) = adopted(text_document("n.txt", text), "n")
    blocks = draft.section(Place.QUESTIONS)
    row = [("A: " if b.form is Form.ANSWER else "") + b.text for b in blocks]
    assert len(draft.section(Place.METHOD)) == 1
    return row, [b.text for b in draft.section(Place.UNPLACED)]


@pytest.mark.parametrize(
    "heading",
    ["Questions", "Qs", "Question", "Follow-up questions", "Analysis and questions:"],
)
def test_each_item_under_a_heading_of_questions_is_one(heading: str) -> None:
    said = (
        "1. Why is the zinc cleaned? (2 marks)\n"
        "2. Hence calculate the mass of copper. (4)\n"
        "3. The label says 5 g. Comment. (2)\n"
        "4. Draw a bar chart of your results.\n"
        "5. What is the gas? Write the formula. [2 marks]\n"
    )
    assert _asked(said, heading) == (
        [
            "Why is the zinc cleaned? [2]",
            "Hence calculate the mass of copper. [4]",
            "The label says `5 g`. Comment. [2]",
            "Draw a bar chart of your results.",
            "What is the gas? Write the formula. [2]",
        ],
        [],
    )


def test_lines_without_marks_are_questions_where_they_ask() -> None:
    said = (
        "why did the mass go down\n"
        "why is the carbonate not heated in a small beaker (2)\n"
        "how would you know that it is over? - no more fizzing\n"
        "\nThe caretaker has the key. Set the fan up before the lesson.\n"
    )
    assert _asked(said) == (
        [
            "Why did the mass go down",
            "Why is the carbonate not heated in a small beaker [2]",
            "How would you know that it is over?",
            "A: no more fizzing",
        ],
        ["The caretaker has the key.", "Set the fan up before the lesson."],
    )


def test_numbered_answers_go_to_those_numbers() -> None:
    said = (
        "1. Draw a graph.\n2. Which is the fastest?\n3. Why was it stirred?\n\n"
        "Answers (staff copy only)\n2. the warm one. It had most energy.\n3. to mix it\n5. see book\n"
    )
    assert _asked(said) == (
        [
            "Draw a graph.",
            "Which is the fastest?",
            "A: the warm one. It had most energy.",
            "Why was it stirred?",
            "A: to mix it",
        ],
        ["see book"],
    )


def test_questions_lettered_without_a_bracket_are_no_answers() -> None:
    said = "a. Why is it stirred? (1)\nb. Suggest another way. (2)\n"
    assert _asked(said) == (["Why is it stirred? [1]", "Suggest another way. [2]"], [])
