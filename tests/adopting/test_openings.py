"""Where talk opens another practical, and what is then said to be its title.

The talk is our own: common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.adopting import adopted, text_document

TALK = """\
[0:03] {first}
[0:12] They weigh out eight grams of potassium nitrate into a boiling tube.
[0:20] Add ten cubic centimetres of water and warm the tube until it is clear.
[0:31] Then they let it cool and note the temperature when crystals show.
[1:00] {second}
[1:08] Tip twenty cubic centimetres of sulfuric acid into a beaker.
[1:17] Add ground malachite with a spatula until some stays at the bottom.
[1:25] Filter it, heat the liquid in a basin, and leave it till next lesson.
"""
FIRST = "So what I want typed up is the solubility one, with potassium nitrate."


def _drafts(first: str, second: str) -> list[tuple[str, str]]:
    document = text_document("t.txt", TALK.format(first=first, second=second))
    return [(draft.origin, draft.title) for draft in adopted(document, "talk")]


@pytest.mark.parametrize(
    "cue",
    [
        "Okay, second one. That's the malachite one.",
        "Right, next one. This is the malachite one.",
        "Next practical. That's the malachite one.",
        "Now the second practical. It's called malachite.",
        "Second practical: that's the malachite one.",
        "Experiment two. It's the malachite one.",
        "The second experiment is called malachite.",
        "The second one is the malachite one.",
        "Now on to the next one, the malachite one.",
        "Then for the next practical we do malachite.",
    ],
)
def test_a_new_practical_is_announced_in_any_of_these_ways(cue: str) -> None:
    assert _drafts(FIRST, cue) == [
        ("0:03", "Solubility, with potassium nitrate"),
        ("1:00", "Malachite"),
    ]


@pytest.mark.parametrize(
    "first",
    [
        FIRST,
        "The first one I want written up is the solubility one, with potassium nitrate.",
        "The first one I'd like to have written out is the solubility one, with potassium nitrate.",
    ],
)
def test_what_is_wanted_of_a_practical_is_no_title(first: str) -> None:
    (_, title), _ = _drafts(first, "Next practical. It's called malachite.")
    assert title == "Solubility, with potassium nitrate"


def test_steps_before_the_first_opening_are_a_draft_of_their_own() -> None:
    drafts = _drafts("Good morning.", "Next practical. It's called malachite.")
    assert [origin for origin, _ in drafts] == ["0:03", "1:00"]
    assert drafts[0][1] == "talk"


@pytest.mark.parametrize(
    "aside",
    [
        "Then the second one.",
        "The second one. It goes clear more slowly.",
        "Next one please.",
        "That's the important one.",
    ],
)
def test_a_second_tube_begins_no_practical(aside: str) -> None:
    assert [origin for origin, _ in _drafts(FIRST, aside)] == ["0:03"]


def test_housekeeping_before_the_first_practical_is_none() -> None:
    talk = (
        "[0:01] Put your bags away, take your coats off and put your goggles on.\n"
        + TALK.format(
            first="First practical. It's called solubility.",
            second="Next practical. It's called malachite.",
        )
    )
    found = [d.origin for d in adopted(text_document("t.txt", talk), "talk")]
    assert found == ["0:03", "1:00"]
