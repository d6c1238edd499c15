"""What is needed and cannot be parted surely stands in the draft, with all its words.

The lists are our own: common practice, no source.
"""

from __future__ import annotations

import re

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.adopting import adopted, text_document
from manualgen.adopting.proof import proved

NOTES = """\
Salts without labels

You will need:
- sodium hydroxide solution, 0.4 mol/dm3
- {need}
- 3 beakers

Method:
1. Put some of the first salt in a beaker.
"""
SALTS = ["potassium chloride", "sodium bromide", "ammonium sulfate", "zinc oxide"]
LEADS = ["three unknown salts", "white powders", "solutions", "the mystery metals"]
SHARES = ["", ", a spatula of each", ", 2 g of each", ", two spatulas of each"]


def _parts(need: str) -> tuple[dict[str, list[str]], str, str]:
    """The front matter, the body without comments, and what is not placed."""
    (draft,) = adopted(text_document("n.txt", NOTES.format(need=need)), "salts")
    _, front, body = proved(draft, "salts")[1].split("---\n", 2)
    bare = re.sub(r"^ *\[[^\]]*\]: #.*$", "", body, flags=re.MULTILINE)
    listed = yaml.load(front, Loader=yaml.CBaseLoader)
    return listed, bare, bare.partition("### Not placed yet")[2]


def _row(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", text.casefold())


@given(
    st.sampled_from(LEADS),
    st.integers(2, 4),
    st.lists(st.sampled_from(SALTS), min_size=0, max_size=3, unique=True),
    st.sampled_from(SHARES),
)
def test_things_named_by_letters_stay_whole(
    lead: str, count: int, salts: list[str], share: str
) -> None:
    *letters, last = list("ABCD"[:count])
    bracket = f" ({', '.join(salts)})" if salts else ""
    need = f"{lead} {', '.join(letters)} and {last}{bracket}{share}"
    listed, _, unplaced = _parts(need)
    assert _row(f"Needed: {need}") == _row(unplaced)
    assert listed["chemicals"] == ["sodium hydroxide solution, 0.4 mol/dm3"]
    assert listed["apparatus"] == ["3 beakers"]


@given(
    st.lists(
        st.sampled_from(
            [
                "a gizmo (zinc oxide)",
                "C",
                "the thing from upstairs",
                "a spatula of each",
                "powders A and B",
                "test tubes",
                "sodium chloride",
                "wire (copper)",
                "beakers (100 cm3, 250 cm3)",
            ]
        ),
        min_size=1,
        max_size=4,
        unique=True,
    )
)
def test_each_word_of_an_unsure_need_stands_in_the_draft(needs: list[str]) -> None:
    listed, body, _ = _parts("; ".join(needs))
    entries = " ".join([*listed["chemicals"], *listed["apparatus"]])
    kept = {*_row(entries), *_row(body)}
    # An article before a thing of the lists is left out.
    assert set(_row(" ".join(needs))) - kept <= {"a", "the"}


@pytest.mark.parametrize(
    ("need", "entry"),
    [
        ("vitamin C (ascorbic acid), 5 g", "vitamin C, 5 g"),
        ("sodium chloride (NaCl), 5 g", "sodium chloride, 5 g"),
        ("ammonia solution (2 mol/dm3)", "ammonia solution, 2 mol/dm3"),
        ("copper(II) oxide (dry)", "copper(II) oxide"),
        ("vitamin C, 1 g", "vitamin C, 1 g"),
    ],
)
def test_brackets_that_tell_no_other_thing_leave_a_need_sure(
    need: str, entry: str
) -> None:
    listed, _, unplaced = _parts(need)
    assert (entry in listed["chemicals"], unplaced) == (True, "")
