"""Talk whose lines are not whole sentences: typed in a hurry, or notes read out."""

from __future__ import annotations

from manualgen.adopting import adopted, text_document
from manualgen.adopting.proof import proved
from tests.adopting.measure import practical

HURRIED = """\
0:02 morning all. today it's the limescale
0:06 you need a beaker, a pipette and some vinegar
0:11 put the shell in the beaker. right side up
0:15 add the vinegar with the pipette. slowly
0:20 weigh it. two decimal places
0:24 leave it for ten minutes
0:28 weigh it again. then write it down
0:33 the shell fizzes. isn't that great
0:37 wash your hands
"""
READ_OUT = """\
0:02 title is limescale
0:06 equipment a beaker and a pipette
0:10 chemicals twenty cm cubed of vinegar
0:14 method put the shell in the beaker
0:18 add the vinegar with the pipette
0:22 results the shell fizzes
0:26 conclusion the shell is made of a carbonate
"""


def test_a_line_is_a_sentence_where_small_letters_follow_the_stops() -> None:
    assert practical("", _only_draft(HURRIED)).steps == (
        "Put the shell in the beaker.",
        "Add the vinegar with the pipette.",
        "Weigh it.",
        "Leave it for ten minutes.",
        "Weigh it again.",
        "Write it down.",
    )


def test_headings_that_are_read_out_part_the_talk() -> None:
    draft = _only_draft(READ_OUT)
    found = practical("", draft)
    assert found.needs == (
        "chemicals: vinegar, 20 cm3",
        "apparatus: beaker",
        "apparatus: pipette",
    )
    assert found.steps == (
        "Put the shell in the beaker.",
        "Add the vinegar with the pipette.",
    )
    assert found.seen == ("The shell [_fizzes_].",)
    assert "made of a carbonate" in draft.partition("## Conclusion")[2]


def _only_draft(talk: str) -> str:
    (draft,) = adopted(text_document("talk.txt", talk), "talk")
    return proved(draft, "talk")[1]
