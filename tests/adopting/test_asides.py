"""What typed notes say beside the practical, and steps that are numbered without a stop.

The notes are our own: common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.adopting import Draft, adopted, text_document
from manualgen.adopting.draft import Form, Place

NOTES = """\
Blue crystals

Weigh 2 g of malachite into a beaker.
{sentence}
"""


def _draft(text: str) -> Draft:
    (draft,) = adopted(text_document("n.txt", text), "n")
    return draft


def _steps(draft: Draft) -> list[str]:
    return [b.text for b in draft.section(Place.METHOD) if b.form is Form.STEP]


@pytest.mark.parametrize(
    ("place", "sentence"),
    [
        (Place.TEACHER, "They should find malachite makes no difference to the time."),
        (Place.TEACHER, "Students should find that the mass is the same."),
        (Place.TEACHER, "Set up the fans before the lesson, the left one is broken."),
        (Place.TEACHER, "Slow ones skip the second weighing."),
        (Place.TEACHER, "If they finish early page 12."),
        (Place.UNPLACED, "Put in a lump of zinc??"),
        (Place.UNPLACED, "NO - use the electric heater, 6 V power pack and a beaker."),
        (Place.UNPLACED, "Mean of the three = ……… g"),
        (Place.DISPOSAL, "All solutions may be poured down the sink with water."),
    ],
)
def test_what_is_said_beside_the_practical_is_no_step(
    place: Place, sentence: str
) -> None:
    for text in (sentence, f"\nMethod:\n1. Stir it.\n2. {sentence}"):
        draft = _draft(NOTES.format(sentence=text))
        (block,) = draft.section(place)
        assert block.text.rstrip(".").replace("`", "") == sentence.rstrip(".")
        assert not any(sentence[:8] in step for step in _steps(draft))
        assert not draft.apparatus


@pytest.mark.parametrize(
    "sentence",
    [
        "They should find the mass of the crystals.",
        "Set up the burette before the acid is warm.",
        "Measure the mass again.",
        "NO is given off.",
        "Compare the colours of NO, NO2 and N2O4.",
        "Repeat it with 2 g, 4 g and no water.",
    ],
)
def test_what_is_like_it_is_left_to_the_method(sentence: str) -> None:
    draft = _draft(NOTES.format(sentence=sentence))
    assert not draft.section(Place.TEACHER)
    assert not draft.section(Place.UNPLACED)


@pytest.mark.parametrize(
    ("said", "boxes"),
    [
        ("\ngoggles!! keep it dry", ["Goggles!!"]),
        ("Tie long hair back!", ["Tie long hair back!"]),
        (
            "The smoke makes your eyes water - windows open and pour away into the bucket.",
            [
                "The smoke makes your eyes water - windows open and pour away into the bucket."
            ],
        ),
    ],
)
def test_a_warning_is_a_box(said: str, boxes: list[str]) -> None:
    draft = _draft(NOTES.format(sentence=said))
    row = draft.section(Place.METHOD)
    assert [b.text for b in row if b.form is Form.SAFETY] == boxes
    assert not draft.section(Place.DISPOSAL)


@pytest.mark.parametrize("mark", ["{n} ", "{n}) ", "{a}. ", "{a}) ", "{n}. "])
def test_lines_that_run_on_in_order_are_steps(mark: str) -> None:
    said = [
        "Put 4 ml of water and 4 ml of vinegar in a small glass test tube",
        "add 1 g of pepper and wait for a bit",
        "same with more of it",
        "Pour it out.",
    ]
    lines = [
        mark.format(n=n, a="abcd"[n - 1]) + words for n, words in enumerate(said, 1)
    ]
    heading = "" if "n" in mark else "Method\n"
    draft = _draft(f"Chalk\n\nEverybody has the sheet.\n{heading}" + "\n".join(lines))
    assert _steps(draft) == [
        "Put `4 ml` of water and `4 ml` of vinegar in a small glass test tube.",
        "Add `1 g` of pepper.",
        "Wait for a bit.",
        "Same with more of it.",
        "Pour it out.",
    ]


def test_counted_things_in_order_are_no_steps() -> None:
    draft = _draft("Chalk\n\nYou will need:\n1 beaker\n2 test tubes\n3 bungs\n")
    entries = [e.text for e in draft.apparatus]
    assert (entries, _steps(draft)) == (["1 beaker", "2 test tubes", "3 bungs"], [])


def test_tubes_that_end_a_sentence_are_no_initials() -> None:
    draft = _draft(
        "Soap\n\nMethod:\n1. Do the same with B, C and D. Shake the flask.\n"
    )
    assert _steps(draft) == ["Do the same with B, C and D.", "Shake the flask."]


def test_a_step_that_calls_out_keeps_its_mark() -> None:
    draft = _draft("Soap\n\nMethod:\n1. Remove the funnel!\n2. Shake it.\n")
    assert _steps(draft) == ["Remove the funnel!", "Shake it."]
