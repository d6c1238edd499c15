"""Words planted in all the teacher's places of the demonstration reach no student.

A copy of it gets a word of its own in every answer, blank, teacher and technician
box and teacher's section, and for every reviewer.  The student edition is
printed and read back to its bytes.
"""

from __future__ import annotations

import datetime
import re
import shutil
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from manualgen.build import read_and_work
from manualgen.build.edition import EditionName
from manualgen.build.site import BuildOptions, build_manual
from tests.build.test_nothing_leaks import everything

pytestmark = pytest.mark.browser

CONTENT = Path(__file__).parents[2] / "content"
TODAY = datetime.date(2026, 9, 1)

TOLD = re.compile(
    r"(> \*\*(?:Answer|Teacher|Technician)[^*]*:\*\* "
    r"|^## For the (?:teacher|preparation room)\n\n)",
    re.MULTILINE,
)
BLANK = re.compile(r"\[_")
FENCE = re.compile(r"^( *```)", re.MULTILINE)


@dataclass
class Planter:
    """Makes words that stand nowhere else."""

    words: list[str] = field(default_factory=list)
    """What the teacher's edition prints."""

    def planted(self, text: str) -> str:
        """An experiment with words in the places that only teachers see."""
        head, _, body = text.removeprefix("---\n").partition("\n---\n")
        if "reviewed:" not in head:
            head += f"\nreviewed: {{by: {self.word()}, date: 2026-01-02}}"
        pieces = FENCE.split(body)
        # Text, the mark of a fence, what is in it, the mark of its end, and so on.
        pieces[::4] = [self.in_prose(piece) for piece in pieces[::4]]
        return f"---\n{head}\n---\n{''.join(pieces)}"

    def in_prose(self, text: str) -> str:
        text = TOLD.sub(lambda found: f"{found[1]}{self.word()} ", text)
        return BLANK.sub(lambda _: f"[_{self.word()} ", text)

    def word(self) -> str:
        self.words.append(f"kanari{len(self.words):04}x")
        return self.words[-1]


@pytest.fixture(scope="module")
def planter() -> Planter:
    return Planter()


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory, planter: Planter) -> Path:
    folder = tmp_path_factory.mktemp("demonstration")
    content = folder / "content"
    shutil.copytree(CONTENT, content)
    for path in sorted(content.rglob("*.md")):
        path.write_text(planter.planted(path.read_text("utf-8")), "utf-8")
    worked = read_and_work(content, None, TODAY)
    students, teachers = EditionName.STUDENT, EditionName.TEACHER
    for name, pdf in ((students, True), (teachers, False)):
        out, options = folder / name.value, BuildOptions((name,), pdf=pdf)
        assert build_manual(content, worked, out, options).findings == ()
    return folder


def test_many_words_are_planted(site: Path, planter: Planter) -> None:
    assert len(planter.words) > 200
    sources = "".join(p.read_text("utf-8") for p in CONTENT.rglob("*.md"))
    assert all(f"made: {strength} " in sources for strength in MADE)


MADE = ("0.0960", "0.0650")
"""Strengths of unknowns as they are made up; students are to find them."""


def planted_in(text: str) -> set[str]:
    return set(re.findall(r"kanari\d{4}x", text, re.IGNORECASE))


def test_no_byte_of_the_student_edition_holds_a_planted_word(site: Path) -> None:
    students = site / "student" / "student"
    printed = {path.stem for path in students.glob("pdf/*.pdf")}
    assert printed >= {path.stem for path in CONTENT.rglob("*.md")}
    assert (students / "manual.pdf").exists()
    said = everything(students)
    assert planted_in(said) == set()
    assert [strength for strength in MADE if strength in said] == []


def test_the_teacher_edition_shows_every_planted_word(
    site: Path, planter: Planter
) -> None:
    pages = sorted((site / "teacher" / "teacher").glob("*.html"))
    shown = planted_in("".join(page.read_text("utf-8") for page in pages))
    assert shown == set(planter.words)


GAPS = re.compile(r'<span class="gap ([^"]*)"([^>]*)>')
WIDTHS = {"short", "medium", "long", "full", "coefficient"}
"""The four widths of a gap in text, and the one of every coefficient."""


def test_a_gap_tells_by_its_width_no_more_than_which_of_four(site: Path) -> None:
    gaps = [
        found
        for page in (site / "student" / "student").glob("*.html")
        for found in GAPS.findall(page.read_text("utf-8"))
    ]
    assert len(gaps) > 50
    assert {width for width, _ in gaps} <= WIDTHS
    assert not [more for _, more in gaps if "style" in more]
