"""The time and the size of a group reach the front matter where the source is sure.

The sentences are our own: common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.adopting import adopted, text_document
from manualgen.adopting.proof import all_unplaced
from manualgen.adopting.writing import written

NOTES = """\
Blue crystals

{head}

Method:
1. Weigh 2 g of malachite into a beaker.
{inside}
"""


def _told(head: str, inside: str = "") -> tuple[str | None, str | None]:
    document = text_document("n.txt", NOTES.format(head=head, inside=inside))
    (draft,) = adopted(document, "n")
    time, group = draft.time, draft.group
    return (time.text if time else None, group.text if group else None)


@pytest.mark.parametrize(
    ("head", "time", "group"),
    [
        ("Time: one double lesson (80 min). Work in pairs.", "80 min", "2"),
        ("80 min", "80 min", None),
        ("Takes about 50 minutes.", "50 min", None),
        ("Work in groups of three.", None, "3"),
        ("Pairs. 70 min.", "70 min", "2"),
        ("Students work in fours.", None, "4"),
    ],
)
def test_time_and_group_near_the_title_are_told(
    head: str, time: str | None, group: str | None
) -> None:
    assert _told(head) == (time, group)


@pytest.mark.parametrize(
    "head",
    [
        "Two lessons of 60 min.",
        "Heat for 5 min or 10 min.",
        "80 min and a night to dry.",
        "Work in pairs or threes.",
        "The pairs of ions swap.",
        "25 cm3",
    ],
)
def test_nothing_is_told_where_the_source_is_not_sure(head: str) -> None:
    assert _told(head) == (None, None)


def test_minutes_inside_a_method_are_no_lesson() -> None:
    assert _told("", "2. 5 min.") == (None, None)


@pytest.mark.parametrize("head", ["80 min", "Work in pairs."])
def test_neither_is_lost_where_nothing_can_be_placed(head: str) -> None:
    document = text_document("n.txt", NOTES.format(head=head, inside=""))
    (draft,) = adopted(document, "n")
    _, _, body = written(all_unplaced(draft), "n").split("---\n", 2)
    assert head in body
