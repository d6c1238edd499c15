"""A short run of what `long.py` runs for an hour, and every text that it found."""

from __future__ import annotations

import time

import pytest
from hypothesis import HealthCheck, given, settings

from tests.fuzz.targets import TARGETS

TEXTS = {
    "reader": 200,
    "whole": 50,
    "department": 24,
    "formula": 300,
    "name": 300,
    "equation": 240,
    "quantity": 300,
    "expression": 300,
    "adopt": 60,
}
"""How many texts each target is given here."""

LONGEST = 3.0
"""Seconds of processor time, which leaves room for measuring coverage."""

FOUND = {
    "whole": [
        # Nothing in the setup is a known piece, and there was no drawing to fit.
        "---\ntitle: T\n---\n\n## Theory\n\n```setup\nI<1<b>\n```\n\n## Method\n\n1. a\n",
        # A picture that was refused was looked for all the same.
        "---\ntitle: T\n---\n\n![a](nowhere.png)\n\n![b](https://example.org/b.png)\n",
    ],
    "formula": ["9" * 5000, "2" + "0" * 5000 + " H2O"],
    # A list of needs was looked for behind each colon.
    "adopt": ["Apparatus:" * 500],
}
"""What once ended in a traceback or took too long; nothing at all is tried as well."""


def test_every_target_is_tried() -> None:
    assert TEXTS.keys() == TARGETS.keys()
    assert FOUND.keys() <= TARGETS.keys()


@pytest.mark.parametrize("name", TARGETS)
def test_no_text_ends_in_a_traceback_or_holds_the_reader_up(name: str) -> None:
    target = TARGETS[name]

    def take(text: str) -> None:
        began = time.process_time()
        target.run(text)
        assert time.process_time() - began < LONGEST, text

    for text in ("", *FOUND.get(name, ())):
        take(text)

    @settings(
        max_examples=TEXTS[name],
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )
    @given(target.texts)
    def takes(text: str) -> None:
        take(text)

    takes()
