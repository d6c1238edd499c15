"""What only paper shows: the two editions, printed and read back."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable
from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest

from manualgen.editions.key import NO_KEY, Key
from manualgen.model.manual import Paper
from manualgen.pages.assets import assets
from manualgen.pages.context import PageContext
from manualgen.pages.experiment import render_experiment
from manualgen.press.jobs import Job, Print
from manualgen.press.press import Press
from tests.pages.sample import CONTEXT, KEY, SHEET
from tests.press import readback

Point = tuple[float, float]
WHEN = datetime(2026, 9, 1, tzinfo=UTC)
PAPERS = {
    "A4": CONTEXT,
    "Letter": dataclasses.replace(CONTEXT, paper=Paper.LETTER),
    "large": dataclasses.replace(CONTEXT, large=True),
    "duplex": dataclasses.replace(CONTEXT, duplex=True),
}

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def prints(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Print]:
    """The sample in both editions and every size, printed once."""
    folder = tmp_path_factory.mktemp("print")
    for name, read in assets():
        path = folder / "assets" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(read())
    jobs = [
        job(folder, f"{paper}-{edition}", key, context)
        for paper, context in PAPERS.items()
        for edition, key in (("student", NO_KEY), ("teacher", KEY))
    ]
    with Press(folder, WHEN) as press:
        done = [future.result() for future in [press.submit(each) for each in jobs]]
    by_name = {print_.job.name: print_ for print_ in done}
    return lambda name: by_name[name]


def job(folder: Path, name: str, key: Key, context: PageContext) -> Job:
    html = folder / f"{name}.html"
    html.write_text(render_experiment(SHEET, key, context), encoding="utf-8")
    return Job(name, html, html.with_suffix(".pdf"))


def places(print_: Print) -> dict[str, int]:
    """The page of every anchor that students have too."""
    found = readback.destinations(print_.job.pdf)
    return {
        name.partition("/")[2] or name: page
        for name, page in found.items()
        if "note." not in name and "section.teacher" not in name
    }


@pytest.mark.parametrize("paper", PAPERS)
def test_both_editions_turn_to_the_same_page(
    prints: Callable[[str], Print], paper: str
) -> None:
    student = places(prints(f"{paper}-student"))
    teacher = places(prints(f"{paper}-teacher"))
    assert len(student) > 15
    assert {name: teacher[name] for name in student} == student


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("edition", ["student", "teacher"])
def test_nothing_is_wider_than_the_paper(
    prints: Callable[[str], Print], paper: str, edition: str
) -> None:
    printed = prints(f"{paper}-{edition}")
    assert (printed.scale, printed.wide) == (1, ())


def test_pages_are_numbered_within_the_experiment(
    prints: Callable[[str], Print],
) -> None:
    texts = readback.page_texts(prints("A4-teacher").job.pdf)
    numbers = [re.findall(r"\b4-(T?\d+)\b", text)[-1] for text in texts]
    assert numbers == [str(n + 1) for n in range(len(texts) - 1)] + ["T1"]


def test_every_face_is_embedded(prints: Callable[[str], Print]) -> None:
    assert readback.fonts_are_embedded(prints("A4-teacher").job.pdf)


def test_no_answer_is_in_the_students_print(prints: Callable[[str], Print]) -> None:
    text = " ".join(readback.page_texts(prints("A4-student").job.pdf))
    assert "Water left in the pipette" not in text
    assert "pale green" not in text
    assert "Why is the pipette rinsed" in text


def test_the_squares_measure_two_millimetres(prints: Callable[[str], Print]) -> None:
    """Measured from the lines that the PDF draws, with a ruler of our own."""
    pitches = readback_squares(prints("A4-student").job.pdf)
    assert len(pitches) > 50
    assert all(abs(pitch - 2) < 0.01 for pitch in pitches)


def readback_squares(pdf: Path) -> list[float]:
    """The distances in mm between neighbouring uprights of the squared paper."""
    texts = readback.page_texts(pdf)
    index = next(
        i for i, text in enumerate(texts) if re.search(r"(?<![.\d])10 cm\b", text)
    )
    with pikepdf.open(pdf) as document:
        xs = uprights(document.pages[index])
    return [b - a for a, b in pairwise(xs) if 1 < b - a < 3]


def is_tall(matrix: pikepdf.Matrix, a: Point, b: Point) -> bool:
    """Whether a line is longer than 40 mm on paper."""
    return abs(matrix.transform(a)[1] - matrix.transform(b)[1]) > 40 / 25.4 * 72


def uprights(page: pikepdf.Page) -> list[float]:
    """Where upright lines stand on a page, in mm from its left edge."""
    matrix, stack, at = pikepdf.Matrix(), [pikepdf.Matrix()], (0.0, 0.0)
    found: set[float] = set()
    for instruction in pikepdf.parse_content_stream(page):
        operator = str(instruction.operator)
        if operator == "q":
            stack.append(matrix)
        elif operator == "Q":
            matrix = stack.pop()
        elif operator in ("cm", "m", "l"):
            numbers = [float(str(o)) for o in instruction.operands]
            if operator == "cm":
                matrix = pikepdf.Matrix(*numbers) @ matrix
                continue
            to = (numbers[0], numbers[1])
            if (
                operator == "l"
                and abs(to[0] - at[0]) < 1e-6
                and is_tall(matrix, at, to)
            ):
                found.add(round(matrix.transform(at)[0] / 72 * 25.4, 4))
            at = to
    return sorted(found)
