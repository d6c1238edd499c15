"""Students and teacher turn to the same page: the whole demonstration manual."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping

import pytest

from tests.build.printed import Demo, Word, by_label, places

pytestmark = pytest.mark.browser

SIZES = [("A4", False), ("Letter", False), ("A4", True)]
STUDENTS_PAGE = re.compile(r"\d+-\d+")
TEXT_TOP_MM, FOOT_MM = 16.0, 15.0
NEAR_MM = 0.15


@pytest.mark.parametrize(("paper", "large"), SIZES)
def test_every_place_is_on_the_same_page_in_both_editions(
    demos: Mapping[str, Demo], paper: str, large: bool
) -> None:
    demo = demos[paper]
    student = places(demo.book("student", large=large))
    teacher = places(demo.book("teacher", large=large))
    own = {name for name in student if name.partition("/")[0] in demo.experiments}
    for experiment in demo.experiments:
        ids = re.findall(r'\bid="([^"]+)"', demo.html("student", experiment))
        assert {f"{experiment}/{i}" for i in ids} <= own
    assert {name: teacher[name] for name in own} == {n: student[n] for n in own}


@pytest.mark.parametrize(("paper", "large"), SIZES)
def test_every_word_that_students_get_stands_where_it_stands_for_the_teacher(
    demos: Mapping[str, Demo], paper: str, large: bool
) -> None:
    """Boxes without a number, table heads and labels of figures are found by it too."""
    demo = demos[paper]
    student = by_label(demo.book("student", large=large))
    teacher = by_label(demo.book("teacher", large=large))
    shared = [
        label
        for label, words in student.items()
        if words and STUDENTS_PAGE.fullmatch(label)
    ]
    moved = {
        label: lost
        for label in shared
        if (lost := _not_found(student[label], teacher[label]))
    }
    assert len(shared) > 80
    assert moved == {}


def _not_found(students: list[Word], teachers: list[Word]) -> list[str]:
    """The students' words that the teacher's page has nowhere near."""
    there: dict[str, list[Word]] = defaultdict(list)
    for word in teachers:
        there[word.text].append(word)
    foot = max(word.bottom for word in students) - FOOT_MM / 2
    return [
        word.text
        for word in students
        if TEXT_TOP_MM < word.top < foot
        and not any(_is_near(word, other) for other in there[word.text])
    ]


def _is_near(one: Word, other: Word) -> bool:
    return (
        abs(one.left - other.left) < NEAR_MM
        and abs(one.bottom - other.bottom) < NEAR_MM
    )
