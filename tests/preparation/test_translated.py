"""The rules' sentences in other languages: none left out, none left over."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from manualgen.build import read_and_work
from manualgen.build.technician import technician_context
from manualgen.knowledge.tables import Row, read_table
from manualgen.pages.technician import render_sheet
from manualgen.preparation.sheet import plans_of_year, sheet_of, writer_for
from manualgen.preparation.stock import stock_list
from manualgen.preparation.translated import in_language
from manualgen.reports.preparation import sheet_as_csv, sheet_as_text

DAY = datetime.date(2026, 9, 1)


def sentences() -> Iterator[str]:
    """Every sentence of the rules that can be printed."""
    rules, routes = read_table("preparing"), read_table("disposal").row("routes")
    columns = {
        "stocks": ("called",),
        "no_primary": ("against", "why"),
        "helpers": ("add",),
        "strong": ("cautions",),
        "keeping": ("bottle", "on", "why"),
        "cautions": ("say",),
    }
    for table, keys in columns.items():
        for row in rules.rows(table):
            yield from (text for key in keys for text in row.texts(key))
    yield from values(rules.row("dissolving"))
    for recipe in rules.rows("recipes"):
        yield from recipe.row("liquids").cells
    yield from values(routes)
    for route in routes.cells:
        if route.startswith("collect: "):
            yield route.removeprefix("collect: ").split(",")[0]


def values(row: Row) -> Iterator[str]:
    return (row.text(key) for key in row.cells)


def test_every_sentence_of_the_rules_has_its_french_and_no_other_does() -> None:
    french = [row.text("en") for row in read_table("preparing-fr").rows("sentences")]
    assert len(french) == len(set(french))
    assert set(french) == set(sentences())


def test_a_language_without_a_table_has_the_english() -> None:
    assert in_language("Fume cupboard.", "fr") == "Sous la hotte."
    assert in_language("Fume cupboard.", "cy") == "Fume cupboard."


FRENCH = """\
title: Essai
language: fr
house_style: {decimal: comma}
parts:
  - title: Tout
    experiments: [zzz]
"""

EXPERIMENT = """\
---
title: Zzz
chemicals:
  - sodium hydroxide, 0.100 mol/dm3, 90 cm3
  - sulfuric acid, 0.10 mol/dm3, 5 cm3
  - hydrogen peroxide, 0.20 mol/dm3, 20 cm3
  - silver nitrate, 0.0500 mol/dm3, 4 cm3
  - potassium manganate(VII), 0.000200 mol/dm3, 40 cm3
  - iodine, 0.05 mol/dm3, 10 cm3
  - bromine water, 0.02 mol/dm3, 10 cm3
  - starch solution, 3 drops
  - calcium hydroxide, saturated, 10 cm3
  - phenolphthalein solution, 3 drops
  - propanone, 5 cm3, 1 per class
  - sodium carbonate, 1.20 g, weighed out
  - sodium chloride
  - magnesium ribbon, 3 cm, for disposal
  - {shown: zq, sets: {groups 1-2: sodium chloride, groups 3-4: potassium nitrate}, strength: 0.20 mol/dm3, amount: 10 cm3}
apparatus:
  - 2 zx
  - balance, reading to 0.01 g, 2 per class
---

## Method

1. Zz.

## Disposal

Zd.

## For the preparation room

Zt.
"""


def test_a_french_sheet_has_no_english_of_the_tools_own(
    content: Callable[[Mapping[str, str]], Path],
) -> None:
    folder = content({"manual.yaml": FRENCH, "zzz.md": EXPERIMENT})
    worked = read_and_work(folder, None, DAY)
    writer = writer_for(worked)
    plans = plans_of_year(worked)
    sheet = sheet_of(plans[0], writer)
    context = technician_context(worked)
    told = (
        sheet_as_text(sheet, writer)
        + sheet_as_csv(sheet, writer)
        + stock_list(worked, plans, writer)
        + render_sheet(sheet, context)
    )
    read = " ".join(re.sub(r"<(style)\b.*?</\1>", " ", told, flags=re.DOTALL).split())
    english = {**read_table("technician").row("en").cells}
    french = {**read_table("technician").row("fr").cells}
    own = {str(english[k]) for k in english if english[k] != french[k]}
    own |= {s for s in sentences() if in_language(s, "fr") != s}
    telling = {w.partition("{")[0].strip() for w in own}
    telling = {w for w in telling if w not in EXPERIMENT}  # the author’s own words stay
    left = sorted(w for w in telling if len(w.split()) > 1 and w in read)
    assert left == []
    for expected in ("Peser", "Lunettes étanches ou écran facial", "zq, groupes 1 à 2"):
        assert expected in read


def test_french_is_whole_and_no_word_stands_in_both_tables() -> None:
    technician, labels = read_table("technician"), read_table("labels")
    english = set(technician.row("en").cells)
    assert set(technician.row("fr").cells) == english
    assert english & set(labels.row("en").cells) == set()
