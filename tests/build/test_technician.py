"""The technician's edition: made by default, read back, and nothing of it elsewhere."""

from __future__ import annotations

import csv
import io
import json
import re
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeAlias

import pikepdf
import pytest

from manualgen.cli import main

Write: TypeAlias = Callable[[Mapping[str, str]], Path]

MANUAL = """\
title: Small manual
institution: Skerry Point Sixth Form College
class: {groups: 4, spare: 10 %}
standing_controls:
  - Eye protection and gloves are worn by everyone, and the fume cupboard is used.
parts:
  - title: All
    experiments: [salts, acids]
"""

STORE = """\
potassium bromide:
  formula: KBr
  supplied: crystals, purity 99 %, pack 250 g
  shelf: B3
  reorder: 100 g
sulfuric acid:
  formula: H2SO4
  supplied: 98 % w/w, 1.84 g/cm3
  shelf: Acid cabinet
"""

SALTS = """\
---
title: Salts
chemicals:
  - silver nitrate, 0.0500 mol/dm3, 4 cm3
  - {shown: solution Q, sets: {groups 1-2: potassium bromide, groups 3-4: potassium nitrate}, strength: 0.20 mol/dm3, amount: 10 cm3}
apparatus:
  - test tube
---

## Method

1. Add the silver nitrate to the solution Q in the test tube.

## Disposal

The silver goes into the bottle "silver residues".

## For the preparation room

Canary: brown bottles, please.
"""

ACIDS = """\
---
title: Acids
chemicals:
  - sodium hydroxide, 0.100 mol/dm3, 100 cm3
  - sulfuric acid, 1.0 mol/dm3, 100 cm3
  - potassium bromide, 2 g
apparatus:
  - beaker, 250 cm3
---

## Method

1. Pour the sulfuric acid into the beaker, then add the sodium hydroxide and the potassium bromide.

## Disposal

Everything goes down the sink with plenty of water when it is neutral.
"""

FILES = {
    "manual.yaml": MANUAL,
    "chemicals.yaml": STORE,
    "salts.md": SALTS,
    "acids.md": ACIDS,
}


@pytest.fixture
def folder(content: Write) -> Path:
    return content(FILES)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The whole site of the small manual, built once."""
    base = tmp_path_factory.mktemp("technician")
    made = base / "content"
    made.mkdir()
    for name, text in FILES.items():
        (made / name).write_text(text, encoding="utf-8")
    assert main(["build", str(made), "--out", str(base / "site")]) == 0
    return base / "site"


def text_of(pdf: Path) -> str:
    read = subprocess.run(
        ["pdftotext", "-layout", str(pdf), "-"], capture_output=True, check=True
    )
    return " ".join(read.stdout.decode().split())


def tree(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


@pytest.mark.browser
def test_a_build_makes_the_technicians_documents_and_leads_to_them(site: Path) -> None:
    made = {p.name for p in (site / "technician").iterdir()}
    assert made == {
        "assets",
        "preparation.html",
        "preparation.pdf",
        "labels.pdf",
        "stocklist.csv",
    }
    start = (site / "index.html").read_text(encoding="utf-8")
    for name in made - {"assets"}:
        assert f'href="technician/{name}"' in start
    outputs = json.loads((site / "manifest.json").read_text())["outputs"]
    assert "technician/stocklist.csv" in outputs


@pytest.mark.browser
def test_the_year_goes_by_experiment_with_pages_of_its_own_numbers(site: Path) -> None:
    with pikepdf.open(site / "technician" / "preparation.pdf") as pdf:
        labels = [page.label for page in pdf.pages]
        assert str(pdf.Root.Lang) == "en-GB"
    assert labels[0] == "P-1"
    assert "1-P1" in labels
    assert "2-P1" in labels
    told = text_of(site / "technician" / "preparation.pdf")
    assert "1-P1" in told
    assert told.index("Canary: brown bottles") < told.index("2-P1")


@pytest.mark.browser
def test_the_printed_sheet_says_what_to_weigh_and_pour(site: Path) -> None:
    # By hand: 4 groups of 100 cm³ and a tenth, 440 cm³, so a 500 cm³ flask; 0.0500 mol of
    # NaOH at 40.00 g/mol is 2.00 g; 0.500 mol of 98 % w/w, 1.84 g/cm³ acid is 27.2 cm³,
    # which a 50 cm³ cylinder shows as 27 cm³.
    told = text_of(site / "technician" / "preparation.pdf")
    assert "2.00 g" in told
    assert "Measure 27 cm3 of concentrated sulfuric acid" in told.replace("³", "3")
    assert told.index("cold water") < told.index("Only then")


@pytest.mark.browser
def test_an_unknown_has_labels_by_group_and_not_its_name(site: Path) -> None:
    told = text_of(site / "technician" / "labels.pdf")
    assert told.count("solution Q, groups 1 to 2") == 2
    assert told.count("solution Q, groups 3 to 4") == 2


@pytest.mark.browser
def test_a_label_has_room_for_the_found_value_and_at_most_six_precautions(
    site: Path,
) -> None:
    told = text_of(site / "technician" / "labels.pdf")
    assert "about 0.1 mol" in told
    assert "Found:" in told
    assert "Made:" in told
    assert "Use by: (6 months)" in told


@pytest.mark.browser
def test_a_sheet_of_labels_has_the_papers_size_and_nothing_shrinks(site: Path) -> None:
    # ISO 216: A4 is 210 mm × 297 mm; a point is 25.4/72 mm.
    with pikepdf.open(site / "technician" / "labels.pdf") as pdf:
        boxes = {tuple(round(float(n)) for n in page.mediabox) for page in pdf.pages}
    assert boxes == {(0, 0, 595, 842)}


@pytest.mark.browser
def test_the_stock_list_adds_up_the_year_and_keeps_the_stores_own_columns(
    site: Path,
) -> None:
    text = (site / "technician" / "stocklist.csv").read_text(encoding="utf-8")
    head, *rows = csv.reader(io.StringIO(text))
    assert head[:3] == ["Chemical", "Formula", "CAS number"]
    assert head[-2:] == ["shelf", "reorder"]
    bromide = next(r for r in rows if r[0] == "potassium bromide")
    # By hand: solid, 4 × 2 g × 1.1 = 8.8 g; solution Q, 2 × 10 cm³ × 1.1 = 22 cm³, so 50 cm³
    # of 0.20 mol/dm³, 0.0100 mol at 119.00 g/mol and 99 %, 1.20 g: 10 g in all.
    assert bromide[head.index("Needed this year")] == "10 g"
    assert bromide[head.index("Pack")] == "250 g"
    assert bromide[2] == "7758-02-3"
    assert bromide[-2:] == ["B3", "100 g"]
    assert bromide[head.index("Used in")] == "1, 2"
    assert "H319" in bromide[head.index("Hazard statements")]


@pytest.mark.browser
def test_nothing_is_called_safe_and_everything_defers(site: Path) -> None:
    folder = site / "technician"
    texts = {
        "preparation": text_of(folder / "preparation.pdf"),
        "page": (folder / "preparation.html").read_text(encoding="utf-8"),
        "labels": text_of(folder / "labels.pdf"),
        "stock": (folder / "stocklist.csv").read_text(encoding="utf-8"),
    }
    for name, text in texts.items():
        told = " ".join(text.split()).casefold().replace("’", "'")
        assert not re.search(r"\b(?:un)?safe(?:ly)?\b|\bharmless\b", told), name
        assert "employer's risk assessment" in told, name
        assert "local rules" in told, name
        assert "current safety data sheet" in told, name


@pytest.mark.browser
def test_an_unchanged_build_writes_nothing(site: Path) -> None:
    before = {p: p.stat().st_mtime_ns for p in site.rglob("*")}
    content = site.parent / "content"
    assert main(["build", str(content), "--out", str(site)]) == 0
    assert {p: p.stat().st_mtime_ns for p in site.rglob("*")} == before


@pytest.mark.browser
def test_the_same_input_gives_the_same_bytes_and_leaves_the_students_folder_alone(
    site: Path, folder: Path, tmp_path: Path
) -> None:
    alone, without = tmp_path / "alone", tmp_path / "without"
    words = ["build", str(folder), "--out"]
    assert main([*words, str(alone), "--edition", "technician"]) == 0
    assert tree(alone / "technician") == tree(site / "technician")
    assert not (alone / "student").exists()
    assert 'href="technician/preparation.html"' in (alone / "index.html").read_text()
    assert main([*words, str(without), "--edition", "student"]) == 0
    assert tree(without / "student") == tree(site / "student")
    assert not (without / "technician").exists()


def test_without_pdfs_the_page_and_the_stock_list_are_made(
    folder: Path, tmp_path: Path
) -> None:
    out = tmp_path / "site"
    words = ["build", str(folder), "--out", str(out), "--edition", "technician"]
    assert main([*words, "--no-pdf"]) == 0
    made = {p.name for p in (out / "technician").iterdir()}
    assert made == {"assets", "preparation.html", "stocklist.csv"}
    assert ".pdf" not in (out / "index.html").read_text(encoding="utf-8")


@pytest.mark.browser
def test_print_gives_one_experiments_sheet(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "salts.pdf"
    words = ["print", "salts", str(folder), "--edition", "technician"]
    assert main([*words, "--output", str(out)]) == 0
    told = text_of(out)
    assert "Canary: brown bottles" in told
    assert "Acids" not in told


@pytest.mark.browser
def test_prepare_prints_a_day(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "day.pdf"
    words = ["prepare", "salts:4", "acids:6", "--content", str(folder)]
    assert main([*words, "--format", "pdf", "--output", str(out)]) == 0
    told = text_of(out)
    assert "One day, 2 classes" in told
    assert "employer’s risk assessment" in told
    with pikepdf.open(out) as pdf:
        assert str(pdf.Root.Lang) == "en-GB"


@pytest.mark.browser
def test_a_change_to_one_experiment_prints_its_own_pages_alone(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from manualgen.press.worker import Worker

    printed: list[str] = []
    print_html = Worker.print_html

    async def counted(self: Worker, name: str, html: Path) -> object:
        printed.append(html.name)
        return await print_html(self, name, html)

    monkeypatch.setattr(Worker, "print_html", counted)
    words = ["build", str(folder), "--out", str(tmp_path / "site")]
    assert main([*words, "--edition", "technician"]) == 0
    assert ".preparation-acids.html" in printed
    printed.clear()
    (folder / "salts.md").write_text(SALTS.replace("please", "as always"))
    assert main([*words, "--edition", "technician"]) == 0
    assert printed == [".preparation-salts.html"]
    told = text_of(tmp_path / "site" / "technician" / "preparation.pdf")
    assert "brown bottles, as always" in told


@pytest.mark.browser
def test_a_manual_without_experiments_has_an_empty_edition(
    content: Write, tmp_path: Path
) -> None:
    empty = content({"manual.yaml": "title: Empty\nparts: []\n"})
    out = tmp_path / "site"
    assert main(["build", str(empty), "--out", str(out)]) == 0
    page = (out / "technician" / "preparation.html").read_text(encoding="utf-8")
    assert "<h1>Preparation</h1>" in page
    assert "Preparation" in text_of(out / "technician" / "preparation.pdf")
