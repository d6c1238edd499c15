"""Whatever prints otherwise is told, and what is told for students prints otherwise."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from manualgen.build.rendered import rendered
from manualgen.build.stages import work_source
from manualgen.review.changes import Change, Comparison
from manualgen.review.compare import Version, compare
from manualgen.sources.texts import Texts

COLLEGE = Path(__file__).parent / "college"
TEXTS = {p.name: p.read_text(encoding="utf-8") for p in COLLEGE.iterdir()}
MANUAL = "title: T\nparts:\n  - title: All\n    experiments: [{}]\n"
WORD = re.compile(r"(?<![\w`#])[a-z]{4,}(?![\w`:])")
NOT_PRINTED = ("finding", "accept", "preparation")


@cache
def version(file: str, text: str) -> Version:
    texts = {name: t for name, t in TEXTS.items() if not name.endswith(".md")}
    source = Texts({**texts, file: text, "manual.yaml": MANUAL.format(Path(file).stem)})
    worked = work_source(source, None, datetime.date(2026, 9, 1))
    return Version("it", worked, rendered(worked, source))


def told(comparison: Comparison) -> Iterator[Change]:
    for experiment in comparison.experiments:
        yield from (c for c in experiment.changes if c.kind not in NOT_PRINTED)


def changed_words(file: str) -> Iterator[tuple[int, str]]:
    """The file with one word changed, line by line."""
    lines = TEXTS[file].splitlines(keepends=True)
    for number, line in enumerate(lines):
        found = WORD.search(line)
        if found and not line.startswith(("```", "  - {", "#")):
            other = line[: found.start()] + "otherwise" + line[found.end() :]
            yield number + 1, "".join([*lines[:number], other, *lines[number + 1 :]])


CASES = [
    pytest.param(file, text, id=f"{file}:{number}")
    for file in ("soda.md", "salts.md")
    for number, text in changed_words(file)
]


@pytest.mark.parametrize(("file", "text"), CASES)
def test_a_word_that_prints_otherwise_is_told_for_whom_it_does(
    file: str, text: str
) -> None:
    comparison = compare(version(file, TEXTS[file]), version(file, text))
    again = {r.edition for r in comparison.reprint if r.experiments}
    changes = list(told(comparison))
    assert ("teacher" in again) == bool(changes)
    assert ("student" in again) == any(not change.teachers for change in changes)
    assert "typesetting" not in {change.kind for change in changes}
