"""A manual in French: nothing of the tool's own is left in English."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from manualgen.build import read_and_work
from manualgen.build.edition import EditionName, files_of, lay_out_edition
from manualgen.cli import main
from manualgen.knowledge.label import hazard_statements
from manualgen.knowledge.labels import labels
from manualgen.knowledge.precautions import precautionary_statements
from manualgen.pages.matter import render_answer_key, render_back, render_front

DAY = datetime.date(2026, 9, 1)

# Of everything something, so that every label has its chance.
EXPERIMENT = """\
---
title: Zzz
time: 20 min
group: 2
chemicals:
  - sodium hydroxide, 2.0 mol/dm3, 20 to 25 cm3
  - sulfuric acid, concentrated, 5 cm3, 1 per class
  - magnesium, 1 g, excess
  - {name: iodine, strength: 0.05 mol/dm3, amount: 5 cm3, in: ethanol}
  - {name: sodium chloride, shown: Zsel, amount: 2 g}
  - calcium carbonate, 2 g, for spills
apparatus:
  - burette, 50 cm3, class B
  - balance, reading to 0.01 g, 2 per class
reviewed: {by: Zmm, date: 2026-06-12, next: 2027-06-12}
---

## Theory

Zz `SO4^2-` zz `2 H2(g) + O2(g) <=> 2 H2O(l)`.

```equation with-ionic
Mg(s) + 2 HCl(aq) -> MgCl2(aq) + H2(g)
```

## Method

### Lesson 1 (20 min)

1. Zz [_zz_].

   > **Safety:** Zz.

   > **Check:** Zz.

### Lesson 2 (20 min, after 1 week)

2. Zz.

```setup
conical flask [5 cm3 magnesium; sulfuric acid], stoppered
joined by delivery tube to gas syringe, 100 cm3
```

## Results

```readings #t
rows: [1, 2]
columns:
  - {symbol: V, heading: Zv, unit: cm3, sample: [1.0, 2.0]}
  - {symbol: W, heading: Zw, unit: cm3, sample: [1.0, 2.0]}
mean: {of: V, rows: [1, 2], concordant: 2 cm3}
```

```graph #g
x: V / cm3, 0 to 4 step 1
y: W / cm3, 0 to 4 step 1
points: t.V, t.W
line: fit
```

```calculation
V_a = 25.00 ± 0.06 cm3
r = t.mean / V_a -> 1
```

## Questions

1. Zz? [2]

   > **Answer (1 line):** Zz zz.

2. Zz? [1]

   > **Answer (open):** Zz.

## For the teacher

Zz.
"""


def pages(folder: Path) -> dict[str, str]:
    """Every page of both editions, and what stands around them in print."""
    worked = read_and_work(folder, None, DAY)
    found: dict[str, str] = {}
    for name in EditionName:
        edition = lay_out_edition(worked, name, pdf=True)
        for path, make in files_of(edition, lambda _: b"").items():
            if path.endswith(".html"):
                found[f"{name}/{path}"] = make().decode()
        around = (render_front, render_back, render_answer_key)
        for render in around if name is EditionName.TEACHER else ():
            html = render(edition.book, edition.context())
            found[f"{name}/{render.__name__}"] = html
    return found


@pytest.fixture
def write(content: Callable[[Mapping[str, str]], Path]) -> Callable[..., Path]:
    def made(language: str, **files: str) -> Path:
        manual = (
            f"title: Zt\nlanguage: {language}\n"
            "parts:\n  - title: Zp\n    experiments: [zzz]\n"
        )
        named = {f"{name}.yaml": text for name, text in files.items()}
        return content({"manual.yaml": manual, "zzz.md": EXPERIMENT, **named})

    return made


def words_of(html: str) -> str:
    """What is read or spoken: text, and the labels of what has none."""
    body = re.sub(r"<(style|script)\b.*?</\1>", " ", html, flags=re.DOTALL)
    spoken = " ".join(re.findall(r'aria-label="([^"]*)"', body))
    # Tags part words, but for those that stand in a line of their own text.
    return " ".join((re.sub(r"<[^>]+>", " ", body) + " " + spoken).split())


def test_a_french_manual_has_no_english_of_the_tools_own(
    write: Callable[..., Path],
) -> None:
    english, french = labels("en"), labels("fr")
    own = {english[k] for k in english if english[k] != french[k]}
    own |= set(hazard_statements().values()) | set(precautionary_statements().values())
    telling = {
        w.partition("{")[0].strip() for w in own if len(w.partition("{")[0].split()) > 1
    }
    # Ions and glassware are named from the tables of chemistry, in English.
    told = {name: words_of(html) for name, html in pages(write("fr-FR")).items()}
    del told["teacher/render_back"]
    left = [(n, w) for n, text in told.items() for w in telling if w in text]
    assert left == []
    assert "Nocif" in told["student/zzz.html"] or "Provoque" in told["student/zzz.html"]
    assert "Mode opératoire" in told["student/zzz.html"]
    assert "20 à 25" in told["student/zzz.html"].replace("\u00a0", " ")


def test_a_departments_own_words_are_printed(write: Callable[..., Path]) -> None:
    folder = write("en-GB", labels="en:\n  heading_method: Procedure\n  Safety: Care\n")
    page = words_of(pages(folder)["student/zzz.html"])
    assert "Procedure" in page
    assert "Care" in page


def test_a_language_can_be_added_without_touching_the_code(
    write: Callable[..., Path],
) -> None:
    folder = write("cy-GB", labels="cy:\n  heading_method: Dull\n")
    page = words_of(pages(folder)["student/zzz.html"])
    assert "Dull" in page
    assert "What you need" in page


def test_a_label_that_is_none_is_found_with_the_nearest(
    write: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write("en-GB", labels="en:\n  experment: Care\n  mean_of: Mean\n")
    assert main(["check", str(folder), "--only", "source-syntax"]) == 1
    told = capsys.readouterr().out
    assert "labels.yaml:2:3: error: 'experment' is no label" in told
    assert "mend: experiment" in told
    assert "labels.yaml:3:3: error: the words have to hold {rows}" in told
    assert pages(folder)
