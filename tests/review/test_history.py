"""Each line of `compare` against what was done, through a year of revisions."""

from __future__ import annotations

import datetime
import json
import re
import shutil
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
import yaml

from manualgen.build.rendered import Renderer
from manualgen.build.reworked import Workshop
from manualgen.reports.comparison import comparison_as_json, comparison_as_text
from manualgen.review.compare import Version, compare
from manualgen.sources.revision import Revision
from tests.review.repository import Repository

HERE = Path(__file__).parent
HISTORY = yaml.load(
    (HERE / "history.yaml").read_text(encoding="utf-8"), Loader=yaml.CBaseLoader
)
NUMBERED = [pytest.param(n, id=r["subject"]) for n, r in enumerate(HISTORY)]


@pytest.fixture(scope="module")
def year(tmp_path_factory: pytest.TempPathFactory) -> tuple[Version, ...]:
    """The manual before the first revision and after each, read from git."""
    repository = Repository(tmp_path_factory.mktemp("year"))
    shutil.copytree(HERE / "college", repository.folder / "content")
    repository.git("init", "-q", "-b", "main")
    repository.commit()
    for revision in HISTORY:
        _revise(repository, revision)
        repository.commit()
    names = [f"HEAD~{back}" for back in range(len(HISTORY), -1, -1)]
    return tuple(_versions(repository, names))


def _versions(repository: Repository, names: list[str]) -> Iterator[Version]:
    workshop, renderer = Workshop(None, datetime.date(2026, 9, 1)), Renderer()
    for name in names:
        source = Revision(repository.folder / "content", name, "content")
        worked = workshop.work_out(source)
        yield Version(name, worked, renderer.rendered(worked, source))


def _revise(repository: Repository, revision: dict[str, list[dict[str, str]]]) -> None:
    content = repository.folder / "content"
    for names in revision.get("renamed", ()):
        (content / names["to"]).parent.mkdir(exist_ok=True)
        (content / names["from"]).rename(content / names["to"])
    for edit in revision["edits"]:
        if "new" not in edit:
            (content / edit["file"]).unlink()
        elif "old" not in edit:
            repository.write(edit["file"], edit["new"])
        else:
            repository.edit(edit["file"], edit["old"], edit["new"])


@pytest.mark.parametrize("number", NUMBERED)
def test_the_text_tells_all_that_was_done_and_nothing_else(
    year: tuple[Version, ...], number: int
) -> None:
    text = comparison_as_text(compare(*year[number : number + 2]))
    first, _, rest = text.partition("\n")
    assert first == f"from {year[number].name} to {year[number + 1].name}"
    assert rest == HISTORY[number]["told"]


TOLD = re.compile(r"^[ !] (?P<words>\S.*?)(?: \((?:line |\S+:)(?P<line>\d+)\))?$")
FOLLOWS = re.compile(r"^ {6}(?P<words>\S.*)$")


def told(number: int) -> Iterator[tuple[str, str | None, bool, str | None]]:
    """The changes of a revision's text: words, line, whether a leak, what follows."""
    lines = HISTORY[number]["told"].splitlines()
    for line, next_line in zip(lines, [*lines[1:], ""], strict=True):
        found, follows = TOLD.match(line), FOLLOWS.match(next_line)
        if found:
            yield (
                found["words"],
                found["line"],
                line.startswith("!"),
                follows["words"] if follows else None,
            )


@pytest.mark.parametrize("number", NUMBERED)
def test_the_json_tells_the_same_and_keeps_to_its_schema(
    year: tuple[Version, ...], number: int
) -> None:
    report = json.loads(comparison_as_json(compare(*year[number : number + 2])))
    schema = files("manualgen.data").joinpath("schemas", "compare.json")
    jsonschema.validate(report, json.loads(schema.read_text(encoding="utf-8")))
    listed = [
        *report["manual"],
        *(c for e in report["experiments"] for c in e["changes"]),
    ]
    expected = list(told(number))
    assert len(listed) == len(expected)
    for change, (words, line, leak, follows) in zip(listed, expected, strict=True):
        assert change["what"] in words
        assert words.startswith((change["kind"], change["what"]))
        assert str(change["line"] or "") == (line or "")
        assert (change["leak"], change["consequence"]) == (leak, follows)
        for side, marks in (("before", "+"), ("after", "-")):
            assert _one_side(words, marks) == _words(change, side), words


def _one_side(words: str, other: str) -> str:
    """What a line says of one version: the marked words of the other left out."""
    _, _, said = words.partition(": ")
    if re.search(r", (new|gone): ", words):
        return words.partition(", new: " if other == "-" else ", gone: ")[2]
    if " → " in said:
        return said.split(" → ")[other == "-"]
    keep = "-" if other == "+" else "+"
    said = re.sub(rf"[\[{{]\{other}.*?\{other}[\]}}] ?", "", said)
    return re.sub(rf"[\[{{]\{keep}(.*?)\{keep}[\]}}]", r"\1", said).strip()


def _words(change: dict[str, str | None], side: str) -> str:
    return change[side] or ""
