"""Hostile words in every place where text is taken: what is printed are the words."""

from __future__ import annotations

import datetime
import os
import re
from collections.abc import Mapping

import pytest

from manualgen.build.stages import check, work_source
from manualgen.reports.json_report import findings_as_json
from manualgen.reports.sarif import findings_as_sarif
from manualgen.reports.text import findings_as_text
from tests.closed.hostile import (
    DOT,
    SOUND,
    HostilePlace,
    experiment,
    hostile_words,
    manual,
    places,
)
from tests.closed.pages import open_doors, shown_of
from tests.reading.shelf import Shelf

TODAY = datetime.date(2026, 9, 1)
OBEYED = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]")
"""What a terminal obeys, the ends of our own lines left out."""

WORDS = hostile_words()
BESIDE = """\
### Lesson 2 (40 min, after 1 week)

```readings
rows: [1, 2]
columns: [{symbol: a, heading: A, unit: g, sample: data/points.csv#a}]
mean: {of: a, rows: [1, 2], concordant: 0.10 g}
```
"""
"""Takes up what the department's files say, data and labels too."""

FRONT = 'chemicals: ["vinegar, 5 cm3"]\napparatus: [potometer]\ngroup: 2'


def stays_closed(files: Mapping[str, bytes]) -> None:
    """Nothing that a manual of these files shows or reports does anything."""
    beside = {"images/dot.png": DOT, "sound.md": SOUND.encode()}
    given = {**beside, "manual.yaml": manual((*beside, *files)), **files}
    worked = work_source(Shelf(given), None, TODAY)
    findings = check(worked)
    assert not OBEYED.search(findings_as_text(worked, findings))
    findings_as_json(worked, findings)
    findings_as_sarif(findings)
    assert open_doors(shown_of(worked)) == []


def in_turn(nth: int) -> list[str]:
    """Every third of the hostile words, beginning with another for each place.

    ``MANUALGEN_ALL_WORDS`` in the environment tries them all, in a minute more.
    """
    words = list(WORDS.values())
    return words if os.environ.get("MANUALGEN_ALL_WORDS") else words[nth % 3 :: 3]


def each_place(of: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize(
        ("nth", "place"),
        tuple(enumerate(places(of))),
        ids=lambda part: part.name if isinstance(part, HostilePlace) else "",
    )


@each_place("in an experiment")
def test_hostile_words_in_an_experiment_are_words(
    nth: int, place: HostilePlace
) -> None:
    stays_closed(
        {f"x{n}.md": place.holding(words) for n, words in enumerate(in_turn(nth))}
    )


@each_place("in the department's files")
def test_hostile_words_in_the_departments_files_are_words(
    nth: int, place: HostilePlace
) -> None:
    for words in in_turn(nth):
        files = {"sound.md": experiment(BESIDE, FRONT), "data/points.csv": b"a\n1\n2\n"}
        stays_closed({**files, place.file: place.holding(words)})
