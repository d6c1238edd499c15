"""The pages around the experiments, and the search."""

from __future__ import annotations

import json
import re

import pytest

from manualgen.pages.book import (
    Book,
    BookEntry,
    BookPart,
    index_of_chemicals,
    index_of_techniques,
)
from manualgen.pages.matter import render_answer_key, render_back, render_front
from manualgen.pages.search import search_index
from manualgen.pages.site import Edition, Offered, render_contents, render_start
from tests.pages.reading_html import read
from tests.pages.sample import CONTEXT, KEY, SHEET
from tests.pages.test_experiment import answers

ENTRY = BookEntry(SHEET, KEY, {"hot-flask": "4-2"})
BOOK = Book((BookPart("Volumetric analysis", (ENTRY,)),), record=True)

PAGES = {
    "front": render_front(BOOK, CONTEXT),
    "back": render_back(BOOK, CONTEXT),
    "key": render_answer_key(BOOK, CONTEXT),
    "contents": render_contents(BOOK, CONTEXT),
    "start": render_start(
        (Edition("student", (Offered("index.html", "read"),)),), CONTEXT
    ),
}


@pytest.mark.parametrize("name", PAGES)
def test_every_page_around_the_experiments_is_well_formed(name: str) -> None:
    found = read(PAGES[name])
    assert found.faults == []
    assert [i for i, count in found.ids.items() if count > 1] == []


@pytest.mark.parametrize("name", ["front", "back", "contents"])
def test_what_students_get_around_the_experiments_holds_no_answer(name: str) -> None:
    assert [w for w in answers() if w in PAGES[name]] == []


def places() -> list[list[str]]:
    script = search_index([SHEET], CONTEXT)
    match = re.fullmatch(r"const manualPlaces = (.*);\n", script, re.DOTALL)
    assert match is not None
    found: list[list[str]] = json.loads(match[1].replace("<\\/", "</"))
    return found


def test_the_search_holds_no_answer() -> None:
    assert [w for w in answers() if w in search_index([SHEET], CONTEXT)] == []


def test_the_search_leads_to_every_step_and_question() -> None:
    addresses = {place[0] for place in places()}
    assert "vinegar.html#rinse" in addresses
    assert "vinegar.html#question.3" in addresses
    assert "vinegar.html#section.theory" in addresses


def test_the_search_knows_a_formula_as_it_is_typed() -> None:
    assert any("CH3COOH" in place[3] for place in places())


def test_the_record_page_counts_the_marks_of_every_question() -> None:
    assert ENTRY.total_marks == 2 + 1 + 2 + 3 + 2
    assert "/ 10" in PAGES["front"]


def test_a_manual_without_a_record_page_has_none() -> None:
    without = render_front(Book(BOOK.parts), CONTEXT)
    assert "front.record" in PAGES["front"]
    assert "front.record" not in without


def test_the_safety_summary_gives_each_box_its_page() -> None:
    found = "".join(read(PAGES["front"]).words)
    assert "4.2" in found
    assert "4-2" in found


def test_the_notice_names_the_employers_risk_assessment() -> None:
    assert "risk assessment that your employer or school" in PAGES["front"]
    assert "supplier’s current safety data sheet" in PAGES["front"]


def test_the_index_is_alphabetical() -> None:
    words = [row.word for row in index_of_chemicals(BOOK)]
    assert words == sorted(words, key=str.casefold)
    assert [row.word for row in index_of_techniques(BOOK)] == [
        "gas syringe",
        "titration",
    ]


def test_the_periodic_table_puts_each_element_in_its_group() -> None:
    """Groups and periods: IUPAC Periodic Table of the Elements, 2022 (from memory)."""
    back = PAGES["back"]
    for symbol, row, column in (
        ("H", 1, 1),
        ("He", 1, 18),
        ("C", 2, 14),
        ("Na", 3, 1),
        ("Fe", 4, 8),
        ("Zn", 4, 12),
        ("Br", 4, 17),
        ("La", 9, 3),
        ("Hf", 6, 4),
        ("Lu", 9, 17),
        ("U", 10, 6),
        ("Og", 7, 18),
    ):
        cell = rf'grid-area:{row}/{column}"><span class="z">\d+</span> <b>{symbol}</b>'
        assert re.search(cell, back), symbol


def test_the_appendix_has_every_element_once() -> None:
    assert PAGES["back"].count('role="listitem"') == 118


def test_the_answer_key_gives_answers_marks_and_the_total() -> None:
    key = " ".join("".join(read(PAGES["key"]).words).split())
    assert "Water left in the pipette would dilute the vinegar" in key
    assert "Total: 10 marks" in key
    assert "(0.0858 ± 0.0003) mol dm" in key


def test_the_start_page_leads_to_each_edition() -> None:
    assert "student/index.html" in read(PAGES["start"]).links
