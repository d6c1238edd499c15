"""A warning word alone goes with the fact that it warns of, and takes no step away.

The sentences are our own: common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.adopting import adopted, text_document
from manualgen.adopting.draft import Form

NOTES = """\
Blue crystals

Method:
1. Weigh 2 g of malachite into a beaker.

{sentence}
"""


def _blocks(sentence: str) -> list[tuple[Form, str]]:
    document = text_document("n.txt", NOTES.format(sentence=sentence))
    (draft,) = adopted(document, "n")
    return [(b.form, b.text) for _, row in draft.blocks for b in row][1:]


@pytest.mark.parametrize(
    "warning",
    [
        "CAREFUL! The basin spits near the end.",
        "Be careful. Iodine stains the skin.",
        "DANGER! Hot glass looks cold.",
        "Take care. The solution is corrosive.",
        "Watch out... The acid gets warm.",
    ],
)
def test_a_lone_warning_and_its_fact_are_one_box(warning: str) -> None:
    assert _blocks(warning) == [(Form.SAFETY, warning)]


def test_a_step_behind_a_warning_stays_a_step() -> None:
    assert _blocks("Careful! Add 5 cm3 of water to the beaker.") == [
        (Form.SAFETY, "Careful!"),
        (Form.STEP, "Add `5 cm3` of water to the beaker."),
    ]


def test_a_warning_at_the_end_stands_alone() -> None:
    assert _blocks("Be careful!") == [(Form.SAFETY, "Be careful!")]
