"""Answers in their rooms: what is reckoned to fit does fit, measured in a browser."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

from manualgen.drawing.room import LARGE_RULING_MM, RULING_MM, fit_text
from manualgen.pages.assets import assets
from manualgen.press.browser import is_root
from manualgen.press.chromium import find_chromium

WORDS = [
    "the",
    "acid",
    "is",
    "used",
    "up",
    "so",
    "that",
    "fewer",
    "particles",
    "meet",
    "the",
    "surface",
    "of",
    "marble",
    "in",
    "each",
    "second",
    "and",
    "bring",
    "collisions",
    "that",
    "lead",
    "to",
    "reaction",
    "precipitate",
    "concentration",
    "hydrogencarbonate",
    "titration",
    "phenolphthalein",
    "of",
    "by",
    "a",
    "to",
    "it",
    "as",
    "at",
    "because",
]

BELOW_PX = """() => [...document.querySelectorAll('.room')].map(room => {
  const words = room.querySelector('p').getBoundingClientRect();
  return words.bottom - room.getBoundingClientRect().bottom;
})"""

SHIFT = 0.23
"""How far text that stands on the lines is moved down, as a part of a line."""


def rooms(ruling_mm: float, *, large: bool) -> list[str]:
    """Rooms of one to eight lines with answers of every length that fits."""
    chance = random.Random(1869)
    found: list[str] = []
    while len(found) < 150:
        lines = chance.randint(1, 8)
        text = " ".join(chance.choices(WORDS, k=chance.randint(3, lines * 34)))
        fit = fit_text([text], lines * ruling_mm, large=large)
        if fit is not None:
            rules = '<i class="rule"></i>' * lines
            found.append(
                f'<div class="room lines">{rules}<div class="filled {fit.value}">'
                f"<p>{text}</p></div></div>"
            )
    return found


@pytest.mark.browser
@pytest.mark.parametrize(
    ("name", "width_mm"),
    [
        ("ordinary", 178.0),
        ("ordinary", 183.9),
        ("ordinary snug", 178.0),
        ("large", 178.0),
    ],
)
def test_an_answer_that_is_reckoned_to_fit_its_room_does(
    tmp_path: Path, name: str, width_mm: float
) -> None:
    is_large = name == "large"
    ruling_mm = LARGE_RULING_MM if is_large else RULING_MM
    for path, read in assets():
        (tmp_path / "assets" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "assets" / path).write_bytes(read())
    page = tmp_path / "rooms.html"
    page.write_text(
        f'<!DOCTYPE html><html class="{name}"><meta charset="utf-8"><link rel="stylesheet"'
        f' href="assets/manual.css"><body style="width:{width_mm}mm"><main>'
        + "".join(rooms(ruling_mm, large=is_large)),
        encoding="utf-8",
    )
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=find_chromium(), chromium_sandbox=not is_root()
        )
        opened = browser.new_page()
        opened.emulate_media(media="print")
        opened.goto(page.as_uri())
        opened.evaluate(
            "Promise.all([...document.fonts].map(f => f.load())).then(() => 0)"
        )
        below = opened.evaluate(BELOW_PX)
        browser.close()
    assert len(below) == 150
    assert max(below) <= SHIFT * ruling_mm / 25.4 * 96
