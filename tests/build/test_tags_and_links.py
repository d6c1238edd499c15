"""What a screen reader and a mouse find in every PDF of the demonstration manual.

Tagged PDF: ISO 32000-1, 14.8; what is asked of it: ISO 14289-1, 7 (from memory).
"""

from __future__ import annotations

import re
from collections import Counter
from itertools import groupby, pairwise

import pikepdf
import pytest

from tests.build.printed import Demo, labels
from tests.build.tagged import elements, linked, tagged_runs
from tests.press.readback import (
    destinations,
    facts,
    figures,
    fonts_are_embedded,
    links,
    outline,
    page_texts,
    unmarked_paint,
)

pytestmark = pytest.mark.browser

EDITIONS = ("student", "teacher")


def test_every_pdf_is_tagged_titled_and_in_its_language(demo: Demo) -> None:
    for pdf in demo.pdfs():
        found = facts(pdf)
        assert found["Tagged"] == "yes", pdf.name
        assert found["Title"], pdf.name
        with pikepdf.open(pdf) as opened:
            assert str(opened.Root.Lang) == "en-GB", pdf.name
            assert opened.Root.ViewerPreferences.DisplayDocTitle, pdf.name


def test_every_face_of_every_pdf_is_embedded(demo: Demo) -> None:
    assert [p.name for p in demo.pdfs() if not fonts_are_embedded(p)] == []


def test_tags_follow_the_pages(demo: Demo) -> None:
    """What a voice reads goes from page to page and never back.

    Where a row of a table goes on over the page, its cells are read one by one.
    """
    for pdf in demo.pdfs():
        runs = tagged_runs(pdf)
        pages = [run.page for run in runs if "Table" not in run.within]
        assert pages == sorted(pages), pdf.name
        assert {run.page for run in runs} == set(range(len(labels(pdf)))), pdf.name
        heads = [r for r in runs if "TH" in r.within]
        assert [r.page for r in heads] == sorted(r.page for r in heads), pdf.name


@pytest.mark.parametrize("edition", EDITIONS)
def test_tags_stand_in_the_order_of_the_page_of_the_site(
    demo: Demo, edition: str
) -> None:
    """Every step, box, table, figure and question has a link, read in its place."""
    for experiment in demo.experiments:
        on_paper = [
            target.removeprefix(f"{experiment}/")
            for target in linked(demo.pdf(edition, experiment))
            if target.startswith(f"{experiment}/")
        ]
        on_screen = _inner_links(demo.html(edition, experiment))
        assert len(on_screen) > 12
        assert _once(on_paper) == _once(on_screen), experiment


def _once(links: list[str]) -> list[str]:
    """The links without repetition: one that goes on over a line counts twice on paper."""
    return [link for link, _ in groupby(links)]


def _inner_links(html: str) -> list[str]:
    """Where the links of a page lead inside it, without those that only a screen has."""
    main = html[html.index("<main") : html.index("</main>")]
    printed = re.sub(r"<details.*?</details>", "", main, flags=re.DOTALL)
    return re.findall(r'<a [^>]*?href="#([^"]+)"', printed)


def test_headings_go_down_one_level_at_a_time(demo: Demo) -> None:
    for pdf in demo.pdfs():
        levels = [int(tag[1:]) for tag in elements(pdf) if re.fullmatch(r"H\d", tag)]
        assert levels[0] == 1, pdf.name
        jumps = [(a, b) for a, b in pairwise(levels) if b - a > 1]
        assert jumps == [], pdf.name


def test_every_table_has_heads_and_every_figure_words(demo: Demo) -> None:
    for pdf in demo.pdfs():
        assert all(figures(pdf)), pdf.name
        with pikepdf.open(pdf) as opened:
            tables = [
                thing
                for thing in opened.objects
                if isinstance(thing, pikepdf.Dictionary) and thing.get("/S") == "/Table"
            ]
            assert all("TH" in set(_below(table)) for table in tables), pdf.name


def _below(element: pikepdf.Object) -> list[str]:
    kids = element.get("/K", pikepdf.Array())
    listed = kids if isinstance(kids, pikepdf.Array) else [kids]
    inner = [k for k in listed if isinstance(k, pikepdf.Dictionary) and "/S" in k]
    return [str(k.S)[1:] for k in inner] + [tag for k in inner for tag in _below(k)]


@pytest.mark.parametrize("edition", EDITIONS)
def test_all_that_is_painted_is_tagged_or_an_artefact(demo: Demo, edition: str) -> None:
    assert unmarked_paint(demo.book(edition)) == []


def test_no_pdf_names_a_file_of_this_machine(demo: Demo) -> None:
    for pdf in demo.pdfs():
        targets = {target for _, target in links(pdf)}
        assert not any(target.startswith("file:") for target in targets), pdf.name
        assert str(demo.site.parent).encode() not in pdf.read_bytes()


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("large", [False, True])
def test_every_link_of_the_book_leads_to_a_place_in_it(
    demo: Demo, edition: str, large: bool
) -> None:
    book = demo.book(edition, large=large)
    known = set(destinations(book))
    targets = Counter(target for _, target in links(book))
    astray = {
        target
        for target in targets
        if target not in known and not re.match(r"page \d+$|https://", target)
    }
    assert astray == set()
    assert sum(targets.values()) > 500


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("large", [False, True])
def test_contents_lead_to_the_pages_that_they_name(
    demo: Demo, edition: str, large: bool
) -> None:
    book = demo.book(edition, large=large)
    called, texts = labels(book), page_texts(book)
    named: list[str] = []
    led: list[str] = []
    for number in _contents_pages(texts):
        named += re.findall(r" (\d+-1)$", texts[number], re.MULTILINE)
        led += [
            called[int(target.removeprefix("page ")) - 1]
            for page, target in links(book)
            if page == number + 1
        ]
    assert named == led == [f"{n}-1" for n in range(1, len(demo.experiments) + 1)]


def _contents_pages(texts: list[str]) -> range:
    first = next(n for n, t in enumerate(texts) if re.search(r"^\s*Contents$", t, re.M))
    after = next(
        n for n, t in enumerate(texts) if re.search(r"^\s*Safety summary$", t, re.M)
    )
    return range(first, after)


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_safety_summary_names_the_page_of_every_box(
    demo: Demo, edition: str
) -> None:
    book = demo.book(edition)
    texts, called = page_texts(book), labels(book)
    first = next(n for n, t in enumerate(texts) if "Safety summary" in t)
    last = called.index("1-1")
    summary = "\n".join(texts[first:last])
    rows = re.findall(r"^\s*(\d+\.\d+) .*? (\d+-\d+)$", summary, re.MULTILINE)
    assert len(rows) > 60
    for number, page in rows:
        shown = texts[called.index(page)]
        assert re.search(rf"^\s*Safety {re.escape(number)}$", shown, re.MULTILINE)


def test_the_outline_of_the_book_holds_every_experiment(demo: Demo) -> None:
    entries = {title for _, title in outline(demo.book("student"))}
    for experiment in demo.worked.manual.experiments:
        number = demo.worked.manual.number_of(experiment.id)
        assert f"{number} {experiment.title}" in entries
