"""Words that no list foresees: practicals are parted, and sentences placed, by weak signs.

The sentences and texts are our own: common practice, no source. Of four of the texts
it was settled before the rules were where their practicals begin.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from manualgen.adopting import Draft, adopted, text_document
from manualgen.adopting.draft import Place

PARTED = Path(__file__).parent / "parted"
NOTES = """\
Blue crystals

Weigh 2 g of malachite into a beaker.
{sentence}
"""


def _draft(sentence: str) -> Draft:
    document = text_document("n.txt", NOTES.format(sentence=sentence))
    (draft,) = adopted(document, "n")
    return draft


def _texts(sentence: str, place: Place) -> list[str]:
    return [b.text for p, row in _draft(sentence).blocks for b in row if p is place]


@pytest.mark.parametrize(
    ("name", "begins"),
    [
        ("van.txt", ["0:10", "0:51", "1:17"]),
        ("email.txt", ["line 8", "line 10", "line 12"]),
        ("trolleys.txt", ["00:10", "01:24", "02:18"]),
        ("kitchen.txt", ["0:13", "0:55", "1:42"]),
        ("visit.txt", ["0:09", "0:48", "1:26"]),
        ("pages.txt", ["00:06", "00:52", "01:38"]),
        ("periods.txt", ["01:10", "02:06", "02:59"]),
        ("plan.txt", ["0:08", "0:52", "1:35"]),
        ("head.txt", ["line 4"]),
        ("cover.txt", ["line 9", "line 11"]),
        ("rundown.txt", ["0:04", "0:32", "1:08"]),
        ("single.txt", ["00:01"]),
        ("friday.txt", ["line 7", "line 9"]),
        ("demos.txt", ["0:05", "0:39", "1:12"]),
        ("sheets.txt", ["0:07", "1:06", "1:48"]),
        ("form.txt", ["line 5"]),
        ("labels.md", ["line 5", "line 16"]),
        ("numbered.txt", ["line 5", "line 11"]),
        ("sections.md", ["line 5", "line 25"]),
    ],
)
def test_practicals_begin_where_they_are_named(name: str, begins: list[str]) -> None:
    document = text_document(name, (PARTED / name).read_text("utf-8"))
    assert [draft.origin for draft in adopted(document, "talk")] == begins


@pytest.mark.parametrize(
    ("sentence", "steps"),
    [
        ("One warms the beaker and stirs it.", ["Warm the beaker.", "Stir it."]),
        ("Could you pour the water in?", ["Pour the water in."]),
        ("The kids then tip it into a dish.", ["Tip it into a dish."]),
        (
            "The acid goes in the flask and the bung goes on top.",
            ["Put the acid in the flask.", "Put the bung on top."],
        ),
        (
            "Each tube gets two drops of iodine solution.",
            ["Add two drops of iodine solution to each tube."],
        ),
        ("Step three, swirl the beaker.", ["Swirl the beaker."]),
        (
            "Only then does one add the ethanol.",
            ["Only then add the ethanol (`C2H5OH`)."],
        ),
        ("Spill some vinegar on the tray.", ["Spill some vinegar on the tray."]),
        ("Next morning rinse the crystals.", ["Next morning rinse the crystals."]),
    ],
)
def test_whoever_does_it_and_to_what_is_a_step(sentence: str, steps: list[str]) -> None:
    assert _texts(sentence, Place.METHOD)[1:] == steps


@pytest.mark.parametrize(
    ("sentence", "seen"),
    [
        ("A violet vapour fills the beaker.", "[_A violet vapour fills the beaker_]."),
        (
            "The indicator turns the water red.",
            "The indicator turns the water [_red_].",
        ),
        (
            "At the end it is a clear sky blue.",
            "At the end it is [_a clear sky blue_].",
        ),
        ("The crystals lose their shine.", "The crystals [_lose their shine_]."),
        (
            "The weaker the acid is the longer the cross lasts.",
            "The weaker the acid is [_the longer the cross lasts_].",
        ),
    ],
)
def test_a_verb_of_change_and_a_look_tell_what_is_seen(
    sentence: str, seen: str
) -> None:
    assert _texts(sentence, Place.OBSERVATIONS) == [seen]


@pytest.mark.parametrize(
    ("sentence", "chemicals", "apparatus"),
    [
        (
            "Collect 5 g of borax, some ice and a glass rod.",
            ["borax, 5 g", "ice"],
            ["glass rod"],
        ),
        (
            "Who hasn't got half a lemon, a saucer and a cotton bud?",
            ["half a lemon"],
            ["saucer", "cotton bud"],
        ),
        (
            "The sodium chloride solution is 0.5 molar, 60 ml a group.",
            ["sodium chloride solution, 0.5 mol/dm3, 60 mL"],
            [],
        ),
        (
            "I left out ethanol, propanone and hexane, 5 ml of each, plus a dropper.",
            ["ethanol, 5 mL", "propanone, 5 mL", "hexane, 5 mL"],
            ["dropper"],
        ),
        (
            "They will want zinc oxide, calcium oxide and iron(II) oxide, 2 g of each.",
            ["zinc oxide, 2 g", "calcium oxide, 2 g", "iron(II) oxide, 2 g"],
            [],
        ),
    ],
)
def test_a_list_of_known_things_is_needed(
    sentence: str, chemicals: list[str], apparatus: list[str]
) -> None:
    draft = _draft(sentence)
    assert [e.text for e in draft.chemicals] == chemicals
    assert [e.text for e in draft.apparatus] == apparatus


@pytest.mark.parametrize(
    "sentence",
    [
        "You will need the chlorides of lithium, sodium and potassium.",
        "Iodine vapour attacks the eyes of anybody who leans over.",
        "The point is that ammonia molecules are lighter and so travel faster.",
        "Do you think they can wipe it up with a cloth?",
        "Tube one has zinc oxide, tube two gets the borax and tube three the glucose.",
        "There is lemon cake in my bottom drawer and it is all for you.",
    ],
)
def test_what_no_sign_is_sure_of_is_placed_nowhere_else(sentence: str) -> None:
    draft = _draft(sentence)
    assert draft.chemicals == draft.apparatus == ()
    assert len(_texts(sentence, Place.METHOD)) == 1
    assert _texts(sentence, Place.OBSERVATIONS) == []
