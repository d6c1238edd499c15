"""Changed words: what is gone and what is new, however long the texts."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from manualgen.reports.changed_words import MOST_COMPARED, Mark, runs

TEXTS = st.lists(st.sampled_from("abcde"), min_size=1, max_size=12).map(" ".join)


def read(before: str, after: str, *marks: Mark) -> str:
    return " ".join(run.text for run in runs(before, after) if run.mark in marks)


@given(TEXTS, TEXTS)
def test_both_texts_can_be_read_from_the_runs(before: str, after: str) -> None:
    assert read(before, after, Mark.SAME, Mark.GONE) == before
    assert read(before, after, Mark.SAME, Mark.NEW) == after


@given(TEXTS, TEXTS)
def test_of_very_long_texts_the_whole_between_is_marked(old: str, new: str) -> None:
    long = " ".join(["x", "y"] * int(MOST_COMPARED**0.5))
    before, after = f"{long} {old} {long}", f"{long} {new} {long}"
    assert read(before, after, Mark.SAME, Mark.GONE) == before
    assert read(before, after, Mark.SAME, Mark.NEW) == after
    assert read(before, after, Mark.SAME).startswith(long)


def test_a_quantity_is_one_word() -> None:
    found = runs("take 20\u00a0cm3 of it", "take 25\u00a0cm3 of it")
    assert [(run.mark, run.text) for run in found] == [
        (Mark.SAME, "take"),
        (Mark.GONE, "20 cm3"),
        (Mark.NEW, "25 cm3"),
        (Mark.SAME, "of it"),
    ]


def test_texts_with_little_in_common_stand_one_after_the_other() -> None:
    assert [run.mark for run in runs("a b c d e", "v w x y e")] == [Mark.GONE, Mark.NEW]
