"""Of two revisions what is the same is made once, and whatever could differ is made anew."""

from __future__ import annotations

import datetime

import pytest

from manualgen.build.rendered import Renderer, rendered
from manualgen.build.reworked import Workshop
from manualgen.build.stages import work_source
from manualgen.reports.comparison import comparison_as_json
from manualgen.review.compare import Version, compare
from manualgen.sources.texts import Texts

DAY = datetime.date(2026, 9, 1)

ONE = """\
---
title: Warm and cold
chemicals:
  - washing soda, 2 g
apparatus:
  - beaker, 100 cm3
---

## Method

1. Put the washing soda into the beaker, as in [the other](two.md).

## Results

![A beaker](beaker.svg)

```readings #runs
data: runs.csv
columns:
  - {symbol: t, heading: Time, unit: min}
```
"""

FILES = {
    "manual.yaml": "title: T\nparts:\n  - {title: All, experiments: [one, two]}\n",
    "chemicals.yaml": "- name: washing soda\n  supplied: crystals\n",
    "one.md": ONE,
    "two.md": "---\ntitle: Two\n---\n\n## Method\n\n1. Wait.\n",
    "three.md": "---\ntitle: Three\n---\n\n## Method\n\n1. Go.\n",
    "runs.csv": "t\n1\n2\n",
}

SEEN = (
    ("one.md", "Warm and cold", "Warm and warmer"),
    ("runs.csv", "2", "3"),
    ("runs.csv", "t\n1\n2\n", None),
    ("beaker.svg", None, "<svg xmlns='http://www.w3.org/2000/svg'/>"),
    ("two.md", "## Method\n\n1. Wait.\n", None),
    ("manual.yaml", "title: T\n", "title: T\nhouse_style: {decimal: comma}\n"),
    ("manual.yaml", "[one, two]", "[two, one]"),
    ("manual.yaml", "[one, two]", "[two]"),
    ("manual.yaml", "[one, two]", "[one, three, two]"),
    ("manual.yaml", "title: All", "title: Some"),
    ("manual.yaml", "title: T\n", "title: T\nclass: {groups: 3}\n"),
    ("manual.yaml", "title: T\n", "title: T\nclass: {spare: 10.0 %}\n"),
    ("manual.yaml", "title: T\n", "title: T\nconditions: {pressure: 101.0 kPa}\n"),
    ("chemicals.yaml", "crystals", "crystals, purity 99 %"),
    ("two.md", "title: Two", "title: The second"),
    ("two.md", "1. Wait.", "1. Wait for it."),
)
"""A file, words of it, and what becomes of them; None for no file."""


def revised(file: str, old: str | None, new: str | None) -> dict[str, str]:
    if new is None:
        return {name: text for name, text in FILES.items() if name != file}
    text = FILES.get(file, "")
    return {**FILES, file: text.replace(old, new) if old else new}


@pytest.mark.parametrize(("file", "old", "new"), SEEN)
def test_a_revision_made_from_the_last_is_told_like_one_made_by_itself(
    file: str, old: str | None, new: str | None
) -> None:
    sources = Texts(FILES), Texts(revised(file, old, new))
    workshop, renderer = Workshop(None, DAY), Renderer()
    told = []
    for again in (False, True):
        versions = []
        for source in sources:
            worked = (
                workshop.work_out(source) if again else work_source(source, None, DAY)
            )
            pages = (renderer.rendered if again else rendered)(worked, source)
            versions.append(Version("it", worked, pages))
        told.append(comparison_as_json(compare(*versions)))
    assert told[0] == told[1]


def test_what_is_the_same_is_worked_out_and_rendered_once() -> None:
    workshop, renderer = Workshop(None, DAY), Renderer()
    sources = Texts(FILES), Texts(revised("two.md", "Wait", "Stir"))
    base, head = map(workshop.work_out, sources)
    assert head.experiments[0] is base.experiments[0]
    assert head.experiments[1] is not base.experiments[1]
    editions = map(renderer.rendered, (base, head), sources)
    for before, after in zip(*editions, strict=True):
        assert after.pages["one"] is before.pages["one"]
        is_same = after.pages["two"] is before.pages["two"]
        # What a step says is nothing to the technician.
        assert is_same is (after.edition == "technician")
