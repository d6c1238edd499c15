"""What a finished print holds, read back."""

import re
from pathlib import Path

import pytest
from pikepdf import Pdf

from manualgen.press.places import places_of
from tests.press.conftest import PrintHtml
from tests.press.readback import (
    destinations,
    facts,
    figures,
    fonts_are_embedded,
    header_ids,
    links,
    outline,
    page_texts,
    shared_keys,
    tagged_text,
    tags,
    unmarked_paint,
)

pytestmark = pytest.mark.browser


@pytest.fixture
def pdf(sheets: tuple[Path, ...]) -> Path:
    return sheets[0]


def test_a_print_is_tagged_and_on_the_paper_of_its_style_sheet(pdf: Path) -> None:
    found = facts(pdf)
    assert found["Tagged"] == "yes"
    # ISO 216: A4 is 210 mm by 297 mm, in points 595.28 by 841.89; Chromium
    # rounds the page to whole CSS pixels, three quarters of a point.
    width, height = map(float, re.findall(r"[\d.]+", found["Page size"])[:2])
    assert width == pytest.approx(595.28, abs=0.75)
    assert height == pytest.approx(841.89, abs=0.75)


def test_a_print_bears_the_given_date_and_no_trace_of_the_browser(pdf: Path) -> None:
    found = facts(pdf)
    assert "Sep  1 00:00:00 2026" in found["CreationDate"]
    assert found["Producer"] == "manualgen"
    assert "Creator" not in found
    assert found["Title"] == "Vinegar, trial 1"


def test_tags_come_in_the_order_of_the_page_and_say_what_things_are(pdf: Path) -> None:
    found = tags(pdf)
    assert found[0] == "Document"
    assert found.index("H1") < found.index("L") < found.index("Table")
    assert {"H1", "H2", "P", "L", "LI", "Lbl", "LBody", "TH", "TD", "Link"} <= set(
        found
    )
    assert "NonStruct" not in found
    words = tagged_text(pdf)
    assert (
        words.index("What to do") < words.index("Questions") < words.index("See also")
    )


def test_running_heads_and_page_numbers_are_no_part_of_the_tagged_text(
    pdf: Path,
) -> None:
    assert all("Skerry Point" in text for text in page_texts(pdf))
    assert "Skerry Point" not in tagged_text(pdf)


def test_everything_on_a_page_is_tagged_or_an_artefact(pdf: Path) -> None:
    assert unmarked_paint(pdf) == []


def test_every_figure_says_in_words_what_it_shows(pdf: Path) -> None:
    assert sorted(figures(pdf)) == ["A line of 100 mm", "n equals c times V"]


def test_table_heads_have_ids_that_begin_with_the_document(pdf: Path) -> None:
    names = header_ids(pdf)
    assert names == sorted(set(names))
    assert all(name.startswith("sheet-001/") for name in names)


def test_the_parent_tree_has_the_keys_that_pages_and_links_hold(pdf: Path) -> None:
    in_tree, held = shared_keys(pdf)
    assert in_tree == held


def test_every_id_has_a_named_place_on_the_page_where_it_stands(pdf: Path) -> None:
    places = destinations(pdf)
    assert {f"sheet-001/step-{n}" for n in range(1, 15)} <= set(places)
    pages = page_texts(pdf)
    assert "For the technician" in pages[places["sheet-001/technical"] - 1]
    assert "Titres" in pages[places["sheet-001/table-1"] - 1]


def test_places_are_read_back_as_poppler_sees_them(pdf: Path) -> None:
    with Pdf.open(pdf) as source:
        places = places_of(source)
    assert places.pages == int(facts(pdf)["Pages"])
    assert {f"sheet-001/{k}": page + 1 for k, page in places.by_id.items()} == (
        destinations(pdf)
    )


def test_links_lead_to_names_to_neighbours_or_to_the_web_and_to_no_file(
    pdf: Path,
) -> None:
    targets = {target for _, target in links(pdf)}
    assert "sheet-001/question-2" in targets
    assert "sheet-002.pdf#nameddest=sheet-002/step-2" in targets
    assert "sheet-002.pdf" in targets
    assert "https://www.example.org/data" in targets
    assert not any("sheet.css" in target for target in targets)
    assert not any(target.startswith("file:") for target in targets)


def test_fonts_travel_in_the_file(pdf: Path) -> None:
    assert fonts_are_embedded(pdf)


def test_the_outline_is_that_of_the_headings(pdf: Path) -> None:
    assert outline(pdf)[:3] == [
        (0, "Practical 1: the acid in vinegar"),
        (1, "Wear eye protection"),
        (1, "What to do"),
    ]


def test_pages_of_another_name_count_by_themselves(pdf: Path) -> None:
    assert [re.findall(r"1-T?\d", text)[-1] for text in page_texts(pdf)] == [
        "1-1",
        "1-2",
        "1-3",
        "1-T1",
    ]


def test_a_tables_head_is_read_once_though_it_is_printed_on_every_page(
    print_html: PrintHtml,
) -> None:
    """Heads that are repeated are no content: ISO 14289-1, 7.1 (from memory)."""
    rows = "".join(f"<tr><td>row {n}</td></tr>" for n in range(90))
    head = '<thead><tr><th scope="col">Volume</th></tr></thead>'
    done = print_html(f"<h1>T</h1><table>{head}<tbody>{rows}</tbody></table>")
    pages = page_texts(done.job.pdf)
    assert len(pages) > 1
    assert all("Volume" in page for page in pages)
    assert tagged_text(done.job.pdf).count("Volume") == 1
    assert unmarked_paint(done.job.pdf) == []
