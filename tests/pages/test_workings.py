"""Workings in the room beside their results."""

from __future__ import annotations

import pytest

from manualgen.pages.workings import fit_working

FRACTION = "<math><mfrac><mi>{0}</mi><mi>{0}</mi></mfrac></math>"
LINE = "<math><mtext>{0}</mtext></math>"


@pytest.mark.parametrize(
    ("algebra", "numbers", "classes"),
    [
        (LINE.format("n"), LINE.format("0.1 mol"), "roomy"),
        # Two lines of a size that can be read go before one line in small type.
        (LINE.format("n" * 12), LINE.format("0.123 mol" * 4), "roomy stacked"),
        # Two fractions one above the other are too high at full size.
        (FRACTION.format("n" * 20), FRACTION.format("0.123 mol" * 3), "tight"),
        (
            FRACTION.format("n" * 30),
            FRACTION.format("0.123 mol" * 5),
            "tightest stacked",
        ),
        (LINE.format("n" * 200), LINE.format("0.1 mol"), "doubled"),
        ("", "", "roomy"),
    ],
)
def test_a_working_is_set_as_large_as_its_room_allows(
    algebra: str, numbers: str, classes: str
) -> None:
    assert fit_working((algebra, numbers), is_large=False) == classes
