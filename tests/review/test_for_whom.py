"""Whom a change is for, held against the student's page itself: slips at random."""

from __future__ import annotations

import datetime
import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from manualgen.build.edition import EditionName, lay_out_edition
from manualgen.build.rendered import Renderer
from manualgen.build.reworked import Workshop
from manualgen.pages.experiment import render_experiment
from manualgen.review.compare import Version, compare
from manualgen.sources.texts import Texts
from manualgen.working.worked import Worked

COLLEGE = Path(__file__).parent / "college"
TEXTS = {p.name: p.read_text(encoding="utf-8") for p in COLLEGE.iterdir()}
MANUAL = "title: T\nparts:\n  - title: All\n    experiments: [{}]\n"
SLIPS_EACH = 2
TAG = re.compile(r"<[^>]*>")
WORD = re.compile(r"[a-z]{4,}")

Slip = Callable[[list[str], int], list[str]]


def word_blanked(lines: list[str], at: int) -> list[str]:
    return changed(lines, at, WORD.sub(r"[_\g<0>_]", lines[at], count=1))


def blank_opened(lines: list[str], at: int) -> list[str]:
    return changed(lines, at, lines[at].replace("[_", "").replace("_]", ""))


def marks_doubled(lines: list[str], at: int) -> list[str]:
    return changed(lines, at, re.sub(r"\[(\d)\]", r"[\g<1>0]", lines[at]))


def lines_swapped(lines: list[str], at: int) -> list[str]:
    return [*lines[:at], *lines[at : at + 2][::-1], *lines[at + 2 :]]


def line_twice(lines: list[str], at: int) -> list[str]:
    return [*lines[:at], lines[at], *lines[at:]]


def line_gone(lines: list[str], at: int) -> list[str]:
    return [*lines[:at], *lines[at + 1 :]]


def box_for_teacher(lines: list[str], at: int) -> list[str]:
    words = re.sub(r"\*\*(?:Safety|Note|Answer)[^:]*:", "**Teacher:", lines[at])
    return changed(lines, at, words)


def room_given(lines: list[str], at: int) -> list[str]:
    words = re.sub(r"\*\*Answer[^:]*:", "**Answer (7 lines):", lines[at])
    return changed(lines, at, words)


def digit_changed(lines: list[str], at: int) -> list[str]:
    return changed(lines, at, re.sub(r"\d", "7", lines[at], count=1))


def changed(lines: list[str], at: int, words: str) -> list[str]:
    return [*lines[:at], words, *lines[at + 1 :]]


SLIPS: tuple[Slip, ...] = (
    word_blanked,
    blank_opened,
    marks_doubled,
    lines_swapped,
    line_twice,
    line_gone,
    box_for_teacher,
    room_given,
    digit_changed,
)


def slipped(slip: Slip, chance: random.Random) -> tuple[str, str]:
    """A file and its text with a slip on one of the lines where it makes a difference."""
    found = []
    for file in ("soda.md", "salts.md", "marble.md"):
        lines = TEXTS[file].split("\n")
        texts = ("\n".join(slip(lines, at)) for at in range(len(lines)))
        found += [(file, text) for text in texts if text != TEXTS[file]]
    return chance.choice(found)


def students_page(worked: Worked) -> str:
    edition = lay_out_edition(worked, EditionName.STUDENT, pdf=False)
    (entry,) = edition.entries
    return render_experiment(entry.sheet, entry.key, edition.context())


@pytest.mark.parametrize("slip", SLIPS)
@pytest.mark.parametrize("number", range(SLIPS_EACH))
def test_what_students_read_otherwise_is_told_as_theirs_and_nothing_else(
    slip: Slip, number: int
) -> None:
    file, text = slipped(slip, random.Random(f"{slip.__name__} {number}"))
    around = {name: t for name, t in TEXTS.items() if not name.endswith(".md")}
    around["manual.yaml"] = MANUAL.format(Path(file).stem)
    workshop, renderer = Workshop(None, datetime.date(2026, 9, 1)), Renderer()
    versions, pages = [], []
    for each in (TEXTS[file], text):
        source = Texts({**around, file: each})
        worked = workshop.work_out(source)
        versions.append(Version("it", worked, renderer.rendered(worked, source)))
        pages.append(students_page(worked))
    changes = [c for e in compare(*versions).experiments for c in e.changes]
    theirs = {change.kind for change in changes if not change.teachers}
    if pages[0] == pages[1]:
        assert theirs == set()
    if TAG.sub("", pages[0]) != TAG.sub("", pages[1]):
        assert theirs - {"typesetting"}
