"""How the pages of the whole demonstration manual come out, read from the PDFs."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import pairwise
from pathlib import Path
from typing import TypeAlias

import pikepdf
import pytest

from manualgen.editions.catalogue import catalogue
from manualgen.editions.lay_out import student
from manualgen.editions.sheet import BoxPanel, QuestionItem, StepItem, Text
from manualgen.editions.within import within
from manualgen.model.text import Words
from manualgen.press.overflow import measure_fit
from tests.build.printed import Demo, fills, grouped, labels, places
from tests.build.rulings import level_lines
from tests.build.tagged import tagged_runs
from tests.build.test_page_parallel import SIZES
from tests.press.readback import page_texts

pytestmark = pytest.mark.browser

EDITIONS = ("student", "teacher")

Whole: TypeAlias = StepItem | QuestionItem | BoxPanel | Text

LEAST_FILL = {False: 0.5, True: 0.35}
"""Of a page before an experiment's last, ordinary and in large print."""
LEAST_LAST_FILL = {False: 0.15, True: 0.1}


@pytest.mark.parametrize(("paper", "large"), SIZES)
def test_no_page_is_half_empty_and_no_last_one_nearly(
    demos: Mapping[str, Demo], paper: str, large: bool
) -> None:
    book = demos[paper].book("student", large=large)
    called, filled = labels(book), fills(book)
    faults: list[tuple[str, float]] = []
    for indices in grouped(called).values():
        # Where both sides are printed an empty page may follow the last.
        used = [n for n in indices if filled[n] > 0]
        least = [LEAST_FILL[large]] * (len(used) - 1) + [LEAST_LAST_FILL[large]]
        faults += [
            (called[n], filled[n])
            for n, wanted in zip(used, least, strict=True)
            if filled[n] < wanted
        ]
    assert faults == []


@pytest.mark.parametrize(("paper", "large"), SIZES)
def test_the_check_line_measures_ten_centimetres_under_every_graph(
    demos: Mapping[str, Demo], paper: str, large: bool
) -> None:
    """100.0 ± 0.1 mm on paper, in both editions; common practice, no source."""
    demo = demos[paper]
    drawn = {
        e: demo.html("student", e).count('<figure class="graph"')
        for e in demo.experiments
    }
    assert sum(drawn.values()) >= 5
    for edition in EDITIONS:
        assert _check_lines(demo.book(edition, large=large)) == sum(drawn.values())
        for experiment, graphs in drawn.items():
            if not large and graphs:
                assert _check_lines(demo.pdf(edition, experiment)) == graphs


def _check_lines(pdf: Path) -> int:
    """How many of a file's lines marked ``10 cm`` measure that on paper."""
    found = 0
    with pikepdf.open(pdf) as opened:
        for page, text in zip(opened.pages, page_texts(pdf), strict=True):
            marked = len(re.findall(r"\b10 cm$", text, re.MULTILINE))
            if marked:
                true = sum(abs(length - 100) <= 0.1 for length in level_lines(page))
                found += min(marked, true)
    return found


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_print_was_shrunk_to_its_paper(
    demos: Mapping[str, Demo], paper: str
) -> None:
    pdfs = demos[paper].pdfs()
    assert len(pdfs) >= 2 * (2 + len(demos[paper].experiments))
    shrunk = {p.name for p in pdfs if measure_fit(p.read_bytes()).scale != 1}
    assert shrunk == set()


@pytest.mark.parametrize(("paper", "large"), SIZES)
def test_no_step_question_box_or_short_paragraph_stands_on_two_pages(
    demos: Mapping[str, Demo], paper: str, large: bool
) -> None:
    """Its first words and its last are found on the page of its anchor."""
    demo = demos[paper]
    book = demo.book("student", large=large)
    pages = [f" {' '.join(_words(text))} " for text in page_texts(book)]
    stands, called = places(book), labels(book)
    parted: list[str] = []
    looked_at = 0
    for experiment, panel in _whole_panels(demo, large):
        anchor = None if isinstance(panel, Text) else panel.anchor
        at = stands.get(f"{experiment}/{anchor}")
        on = [pages[called.index(at)]] if at else pages
        first, last = _ends(panel)
        looked_at += 1
        if not any(first in page and last in page for page in on):
            parted.append(f"{experiment}: {first} … {last}")
    assert looked_at > 300
    assert parted == []


def _whole_panels(demo: Demo, large: bool) -> Iterator[tuple[str, Whole]]:
    numbers = catalogue(demo.worked.manual)
    for work in demo.worked.experiments:
        sheet = student(work, numbers)
        yield from ((sheet.id, step) for step in within(sheet, StepItem))
        yield from ((sheet.id, asked) for asked in within(sheet, QuestionItem))
        yield from ((sheet.id, box) for box in within(sheet, BoxPanel))
        most = 120 if large else 220
        texts = (text for text in within(sheet, Text) if _is_short(text, most))
        yield from ((sheet.id, text) for text in texts)


def _is_short(text: Text, most: int) -> bool:
    """Whether a paragraph is too short to be parted: three lines, or fewer."""
    runs = [piece.text for piece in within(text, Words)]
    return (
        bool(runs and _words(runs[0]) and _words(runs[-1]))
        and len("".join(runs)) < most
    )


def _ends(panel: Whole) -> tuple[str, str]:
    """Up to four words at the start and at the end, each run from one piece of text."""
    runs = [run for piece in within(panel, Words) if (run := _words(piece.text))]
    return f" {' '.join(runs[0][:4])} ", f" {' '.join(runs[-1][-4:])} "


def _words(text: str) -> list[str]:
    """The longer words alone: figures and formulas are set in pieces."""
    return re.findall(r"[A-Za-z]{3,}", text)


@pytest.mark.parametrize(("paper", "large"), SIZES)
@pytest.mark.parametrize("edition", EDITIONS)
def test_no_heading_is_the_last_on_its_page(
    demos: Mapping[str, Demo], edition: str, paper: str, large: bool
) -> None:
    """The content that follows a heading in the tags is on the heading's page."""
    alone: list[str] = []
    headings = 0
    called = labels(book := demos[paper].book(edition, large=large))
    for heading, after in pairwise(tagged_runs(book)):
        if heading.is_heading and not after.is_heading:
            headings += 1
            if heading.page != after.page:
                alone.append(called[heading.page])
    assert headings > 200
    assert alone == []
