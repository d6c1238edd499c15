"""What only the teacher sees is in no byte of the student edition.

A word that stands nowhere else is planted in every teacher-only place that the
format knows.  The site is built whole, PDFs included, and read back.
"""

from __future__ import annotations

import base64
import datetime
import re
import subprocess
from collections.abc import Iterable
from pathlib import Path

import pikepdf
import pytest

from manualgen.build import read_and_work
from manualgen.build.site import build_manual

EXPERIMENT = """\
---
title: Canary
time: 30 min
group: 2
chemicals:
  - {name: sodium hydroxide, shown: liquor P, made: 0.07713 mol/dm3, amount: 50 cm3}
  - {shown: white powder, sets: {groups 1-4: lithium carbonate, groups 5-12: rubidium chloride}, amount: 2 g}
  - hydrochloric acid, 0.100 mol/dm3, 50 cm3
apparatus:
  - beaker, 100 cm3
accept:
  - {check: vague-quantity, why: Canarywhy is a reason.}
reviewed: {by: Canaryreviewer, date: 2026-01-02, next: 2046-01-02}
---

## Theory

It turns [_canaryblank_], as [_canary **canarybold** `K2Cr2O7`_] shows. See [the note](#teachers-own).

```equation answer with-ionic
CsOH(aq) + HClO4(aq) -> CsClO4(aq) + H2O(l)
```

## Method

1. Pour `20 cm3` of hydrochloric acid into the beaker.

   > **Teacher #teachers-own:** Canaryteacher is told here.

   > **Technician:** Canarytechnician is told here.

2. Write the colour: [_canarystep_].

> **Teacher:** Another canarybox with ![canaryalt](images/canary-picture.png).

## Results

```readings #titres
rows: [1, 2]
columns:
  - {symbol: V1, heading: Start, unit: cm3, sample: [3.15, 3.25]}
  - {symbol: V2, heading: End, unit: cm3, sample: [26.75, 26.85]}
  - {symbol: Vt, heading: Titre, unit: cm3, formula: V2 - V1}
  - {symbol: W, heading: File, unit: g, sample: data/weights.csv#w}
mean: {of: Vt, rows: [1, 2], concordant: 0.20 cm3}
```

```graph #line
x: t / s, 0 to 10 step 2
y: V / cm3, 0 to 50 step 10
points: titres.V1, titres.V2
line: fit
```

| Ion | Seen |
| --- | --- |
| `Na^+` | [_canarycell_] |

## Calculation

```calculation
c = 0.100 mol/dm3            # printed for all
V = titres.mean              # printed for all
V_end = [_91.37 cm3_]        # measured
n = c * V -> mol             # computed
n = 0.00236 mol              # the author's own
k = n * 77.177 -> mol        # computed
```

The class finds `value of n`.

## Questions

1. Why? [1]

   > **Answer (2 lines):** Canaryanswer, [canarylink](https://canary.example/answer).

2. Two parts:
   1. Draw it. [1]
      > **Answer (drawing 5 cm):** Canarydrawing.
   2. Balance it.

      ```equation to-balance
      C17H36 + O2 -> CO2 + H2O
      ```
   3. From your own work. [1]
      > **Answer (open):** Canaryopen.

## For the teacher

Canarysection with `0.4242 mol/dm3`.

| Canaryhead | B |
| --- | --- |
| canaryrow | 2 |

## For the preparation room

Canaryprep.
"""

STORE = """\
sodium hydroxide:
  formula: NaOH
  supplied: pellets, purity 98 %, pack 500 g
  shelf: canaryshelf
"""

WORDS = (
    "canaryblank",
    "canarybold",
    "Canaryteacher",
    "Canarytechnician",
    "canarystep",
    "canarybox",
    "canaryalt",
    "canarycell",
    "Canaryanswer",
    "canarylink",
    "canary.example",
    "Canarydrawing",
    "Canaryopen",
    "Canarysection",
    "Canaryhead",
    "canaryrow",
    "Canaryprep",
    "Canaryreviewer",
    "lithium carbonate",
    "rubidium chloride",
    "0.07713",
    "26.75",
    "9.8765",
    "23.60",
    "91.37",
    "0.4242",
)
"""Each is found in the teacher edition and in nothing of the student's."""

NOWHERE = ("Canarywhy", "canaryshelf")
"""What neither edition prints."""

STUDENT_NEVER = (*WORDS, *NOWHERE, "canary-picture", "sodium hydroxide")

PIXEL = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg=="
)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("canary")
    content = folder / "content"
    (content / "images").mkdir(parents=True)
    (content / "data").mkdir()
    (content / "manual.yaml").write_text(
        "title: Test\nparts:\n  - title: All\n    experiments: [canary]\n"
    )
    (content / "chemicals.yaml").write_text(STORE)
    (content / "canary.md").write_text(EXPERIMENT, encoding="utf-8")
    (content / "data" / "weights.csv").write_text("w\n9.8765\n9.8766\n")
    (content / "images" / "canary-picture.png").write_bytes(PIXEL)
    worked = read_and_work(content, None, datetime.date(2026, 9, 1))
    build_manual(content, worked, folder / "site")
    return folder / "site"


def text_of(path: Path) -> str:
    """Everything that a file says, in whatever part of it."""
    raw = path.read_bytes()
    if path.suffix != ".pdf":
        return path.name + raw.decode("utf-8", errors="replace")
    return path.name + pdf_text(path) + pdf_objects(path)


def pdf_text(path: Path) -> str:
    done = subprocess.run(
        ["pdftotext", "-layout", path, "-"], capture_output=True, check=True, text=True
    )
    return done.stdout


def pdf_objects(path: Path) -> str:
    """Every string, name and stream: outline, metadata, tags and links."""
    with pikepdf.open(path) as pdf:
        parts = [
            obj.unparse(resolved=False).decode("latin-1") + strings_in(obj)
            for obj in pdf.objects
        ]
    return "\n".join(parts)


def strings_in(obj: object) -> str:
    """The strings of an object, those of objects it only refers to left out."""
    match obj:
        case pikepdf.Stream():
            return f"{strings_of(v for _, v in obj.stream_dict.items())} {obj.read_bytes()!r}"
        case pikepdf.Dictionary():
            return strings_of(obj.as_dict().values())
        case pikepdf.Array():
            return strings_of(obj.as_list())
        case pikepdf.String():
            return str(obj)
        case _:
            return ""


def strings_of(objects: Iterable[object]) -> str:
    return " ".join(
        strings_in(o)
        for o in objects
        if not (isinstance(o, pikepdf.Object) and o.is_indirect)
    )


def everything(folder: Path) -> str:
    return "\n".join(text_of(p) for p in sorted(folder.rglob("*")) if p.is_file())


@pytest.mark.browser
def test_the_student_edition_holds_no_word_of_the_teachers(site: Path) -> None:
    students = re.sub(r"\s+", " ", everything(site / "student"))
    assert [w for w in STUDENT_NEVER if w.casefold() in students.casefold()] == []


@pytest.mark.browser
def test_the_teacher_edition_holds_every_word(site: Path) -> None:
    for kind in ("canary.html", "pdf/canary.pdf", "manual.pdf"):
        teachers = re.sub(r"\s+", " ", text_of(site / "teacher" / kind))
        missing = [w for w in WORDS if w.casefold() not in teachers.casefold()]
        assert (kind, missing) == (kind, [])
