"""Talk typed in a hurry: stops here and there, and small letters after them."""

from __future__ import annotations

from manualgen.adopting import adopted, text_document
from manualgen.adopting.proof import proved
from tests.adopting.measure import practical

TALK = """\
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


def test_a_line_is_a_sentence_where_small_letters_follow_the_stops() -> None:
    (draft,) = adopted(text_document("talk.txt", TALK), "talk")
    steps = practical(draft.origin, proved(draft, "talk")[1]).steps
    assert steps == (
        "Put the shell in the beaker.",
        "Add the vinegar with the pipette.",
        "Weigh it.",
        "Leave it for ten minutes.",
        "Weigh it again.",
        "Write it down.",
    )
