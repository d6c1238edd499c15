"""What is put away afterwards is disposal, and what is filled for use is a step.

The sentences are our own: common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.adopting import adopted, text_document
from manualgen.adopting.draft import Place

NOTES = """\
Blue crystals

Weigh 2 g of malachite into a beaker.
{sentence}
"""


def _places(sentence: str) -> set[Place]:
    document = text_document("n.txt", NOTES.format(sentence=sentence))
    (draft,) = adopted(document, "n")
    last = max(s.number for _, row in draft.blocks for b in row for s in b.said)
    return {
        place
        for place, row in draft.blocks
        if any(s.number == last for b in row for s in b.said)
    }


@pytest.mark.parametrize(
    "sentence",
    [
        "Copper stuff goes in the copper bottle.",
        "Put the leftover copper in the copper bottle.",
        "Tip the filtrate into the lead salts container.",
        "Pour whatever is left into the residues jar.",
        "The washings go in the heavy metals container.",
        "Empty the tubes into the halide waste.",
    ],
)
def test_what_goes_into_a_bottle_for_it_is_disposal(sentence: str) -> None:
    assert _places(sentence) == {Place.DISPOSAL}


@pytest.mark.parametrize(
    "sentence",
    [
        "Pour the water into the plastic bottle.",
        "Put the cream into the jar.",
        "Put 5 g of zinc in the weighing bottle.",
        "Tip the residue into an evaporating basin.",
        "Put the iron nail in the beaker.",
    ],
)
def test_what_is_filled_for_use_is_a_step(sentence: str) -> None:
    assert _places(sentence) == {Place.METHOD}
