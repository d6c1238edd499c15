"""What the teacher reads in the lines: values in their gaps, points in answers."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from manualgen.build import read_and_work
from manualgen.build.edition import Edition, EditionName, lay_out_edition
from manualgen.editions.line import Gap, GapWidth
from manualgen.editions.within import within
from manualgen.pages.book import BookEntry
from manualgen.pages.experiment import render_experiment

EXPERIMENT = """\
---
title: Example
---

## Method

1. Read the scale.

## Calculation

```calculation
x = {reading}
y = 2 * x -> {unit}
```

## Conclusion

It is `value of y`.

## Questions

1. Name two metals. [2]

   > **Answer:** Iron [1], copper [1], zinc [1]. [max 2]
"""


def teachers(
    folder: Path, reading: str, unit: str, name: EditionName = EditionName.TEACHER
) -> tuple[Edition, BookEntry]:
    (folder / "manual.yaml").write_text(
        "title: M\nparts:\n  - {title: P, experiments: [e]}\n", encoding="utf-8"
    )
    text = EXPERIMENT.replace("{reading}", reading).replace("{unit}", unit)
    (folder / "e.md").write_text(text, encoding="utf-8")
    worked = read_and_work(folder, None, datetime.date(2026, 9, 1))
    edition = lay_out_edition(worked, name, pdf=False)
    (entry,) = edition.entries
    return edition, entry


@pytest.mark.parametrize(
    ("reading", "unit", "width"),
    [
        ("[_5.1 g_]", "g", GapWidth.MEDIUM),
        ("[_0.09599 ± 0.00028 mol/dm3_]", "mol/dm3", GapWidth.LONG),
    ],
)
def test_a_value_with_its_uncertainty_has_a_gap_that_holds_both(
    tmp_path: Path, reading: str, unit: str, width: GapWidth
) -> None:
    _, entry = teachers(tmp_path, reading, unit)
    conclusion = next(s for s in entry.sheet.sections if "Conclusion" in str(s))
    (gap,) = within(conclusion, Gap)
    assert gap.width is width


def test_the_most_that_an_answer_can_earn_is_told_from_a_point(tmp_path: Path) -> None:
    edition, entry = teachers(tmp_path, "[_5.1 g_]", "g")
    page = render_experiment(entry.sheet, entry.key, edition.context())
    assert page.count("[1]") == 3
    assert page.count("[max 2]") == 1


@pytest.mark.parametrize(
    ("edition", "reading", "seen"),
    [
        # The value and its result stand in gaps, so that no ± is on the sheet.
        (EditionName.STUDENT, "[_5.1 ± 0.1 g_]", [False, False]),
        (EditionName.TEACHER, "[_5.1 ± 0.1 g_]", [True, True]),
        (EditionName.STUDENT, "5.1 ± 0.1 g", [True, False]),
        (EditionName.TEACHER, "5.1 ± 0.1 g", [True, True]),
    ],
)
def test_a_sheet_explains_only_the_plus_or_minus_that_it_shows(
    tmp_path: Path, edition: EditionName, reading: str, seen: list[bool]
) -> None:
    made, entry = teachers(tmp_path, reading, "g", edition)
    page = render_experiment(entry.sheet, entry.key, made.context())
    explained = page.partition('<p class="uncertain">')[2].partition("</p>")[0]
    said = [part for part in explained.split("<span") if "±" in part]
    assert ["unseen" not in part for part in said] == seen
