"""A book joined of prints, read back."""

from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest

from manualgen.press.book import Labels, Part, join_book
from tests.press.conftest import WHEN, PrintHtml
from tests.press.readback import (
    destinations,
    facts,
    figures,
    fonts_are_embedded,
    links,
    outline,
    page_texts,
    poppler,
    shared_keys,
    tagged_text,
    tags,
)

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def parts(sheets: tuple[Path, ...]) -> list[Part]:
    groups = ("Acids", "Acids", "Rates", "")
    return [
        Part(
            pdf,
            f"{number} Vinegar",
            (Labels(f"{number}-"), Labels(f"{number}-T", "technical")),
            groups[number - 1],
        )
        for number, pdf in enumerate(sheets, start=1)
    ]


@pytest.fixture(scope="module")
def book(parts: list[Part], tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("book") / "manual.pdf"
    path.write_bytes(join_book(parts, "The manual", "en-GB", WHEN))
    return path


def test_a_book_has_the_pages_of_its_parts_in_order(
    book: Path, sheets: tuple[Path, ...]
) -> None:
    assert page_texts(book) == [text for pdf in sheets for text in page_texts(pdf)]


def test_a_book_bears_title_date_and_language(book: Path) -> None:
    found = facts(book)
    assert found["Title"] == "The manual"
    assert "Sep  1 00:00:00 2026" in found["CreationDate"]
    assert "<dc:title>" in poppler("pdfinfo", "-meta", book)
    with pikepdf.open(book) as opened:
        assert str(opened.Root.Lang) == "en-GB"


def test_a_book_is_well_formed(book: Path) -> None:
    with pikepdf.open(book) as opened:
        assert opened.check_pdf_syntax() == []


def test_pages_are_called_by_experiment_and_teacher_pages_apart(book: Path) -> None:
    with pikepdf.open(book) as opened:
        labels = [page.label for page in opened.pages]
    for number in range(1, 5):
        own = [label for label in labels if label.startswith(f"{number}-")]
        count = len(own) - 1
        assert own == [f"{number}-{n}" for n in range(1, count + 1)] + [f"{number}-T1"]


def test_a_book_says_the_same_to_a_screen_reader_as_its_parts(
    book: Path, sheets: tuple[Path, ...]
) -> None:
    assert tagged_text(book) == " ".join(tagged_text(pdf) for pdf in sheets)
    assert tags(book).count("Part") == len(sheets)
    assert len(figures(book)) == sum(len(figures(pdf)) for pdf in sheets)


def test_tables_of_tags_count_on_from_part_to_part(book: Path) -> None:
    in_tree, held = shared_keys(book)
    assert in_tree == held == list(range(len(held)))


def test_outline_entries_stand_under_their_group(book: Path) -> None:
    found = outline(book)
    assert [title for depth, title in found if depth == 0] == [
        "Acids",
        "Rates",
        "4 Vinegar",
    ]
    assert (1, "2 Vinegar") in found
    assert (2, "Questions") in found


def test_every_place_is_on_its_page_in_the_book(
    book: Path, sheets: tuple[Path, ...]
) -> None:
    first = 0
    expected: dict[str, int] = {}
    for pdf in sheets:
        expected |= {name: page + first for name, page in destinations(pdf).items()}
        first += int(facts(pdf)["Pages"])
    assert destinations(book) == expected


def test_links_across_documents_lead_to_places_of_the_book(
    book: Path, sheets: tuple[Path, ...]
) -> None:
    targets = [target for _, target in links(book)]
    assert "sheet-002/step-2" in targets
    assert f"page {1 + int(facts(sheets[0])['Pages'])}" in targets
    assert not any(target.endswith((".pdf", ".html")) for target in targets)
    assert {t for t in targets if "/" in t and ":" not in t} <= set(destinations(book))


def test_a_link_to_a_document_that_is_not_in_the_book_leads_nowhere(
    parts: list[Part], tmp_path: Path
) -> None:
    path = tmp_path / "one.pdf"
    path.write_bytes(join_book(parts[:1], "One", "en-GB", WHEN))
    targets = {target for _, target in links(path)}
    assert not any("sheet-002" in target for target in targets)
    assert "https://www.example.org/data" in targets


def test_a_book_of_pages_with_neither_words_nor_places_can_be_joined(
    print_html: PrintHtml, tmp_path: Path
) -> None:
    parts = [
        Part(print_html("", name=name).job.pdf, name) for name in ("left", "right")
    ]
    path = tmp_path / "blank.pdf"
    path.write_bytes(join_book(parts, "Blank", "en-GB", WHEN))
    assert page_texts(path) == ["", ""]
    assert outline(path) == [(0, "left"), (0, "right")]


def test_each_part_of_a_duplex_book_begins_on_a_right_hand_page(
    parts: list[Part], print_html: PrintHtml, tmp_path: Path
) -> None:
    cover = Part(print_html("<h1>One page</h1>", name="cover").job.pdf, "Cover")
    path = tmp_path / "duplex.pdf"
    book = join_book([cover, *parts], "Duplex", "en-GB", WHEN, duplex=True)
    path.write_bytes(book)
    with pikepdf.open(path) as opened:
        labels = [page.label for page in opened.pages]
    firsts = [labels.index(f"{number}-1") for number in range(1, 5)]
    assert [first % 2 for first in firsts] == [0, 0, 0, 0]
    assert page_texts(path)[1].strip() == ""
    assert page_texts(path)[2] == page_texts(parts[0].pdf)[0]
    in_tree, held = shared_keys(path)
    assert in_tree == held


def test_fonts_travel_in_the_book(book: Path) -> None:
    assert fonts_are_embedded(book)


def test_a_book_is_the_same_bytes_each_time(book: Path, parts: list[Part]) -> None:
    assert join_book(parts, "The manual", "en-GB", WHEN) == book.read_bytes()


def test_a_part_without_labels_is_numbered_from_one(
    parts: list[Part], tmp_path: Path
) -> None:
    path = tmp_path / "plain.pdf"
    plain = [replace(part, labels=()) for part in parts[:2]]
    path.write_bytes(join_book(plain, "Plain", "en-GB", WHEN))
    with pikepdf.open(path) as opened:
        labels = [page.label for page in opened.pages]
    assert labels[0] == "1"
    assert labels.count("1") == 2
