"""What is studied again at a build, and that what is kept is what a study gives."""

from __future__ import annotations

import datetime
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from manualgen.build.edition import Edition, EditionName, lay_out_edition
from manualgen.build.manifest import Inputs, inputs_of
from manualgen.build.stages import Asked, Checked, read_and_check
from manualgen.build.study import Studies, Study
from manualgen.build.study_cache import StudyCache
from manualgen.press.store import Store
from manualgen.sources import Folder

DEMONSTRATION = Path(__file__).parents[2] / "content"
TODAY = datetime.date(2026, 9, 1)

Studied = list[str]


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """Three experiments of the demonstration, and the files of its department."""
    folder = tmp_path / "content"
    shutil.copytree(DEMONSTRATION, folder)
    for path in sorted(folder.rglob("*.md"))[3:]:
        path.unlink()
    return folder


@pytest.fixture
def studied(monkeypatch: pytest.MonkeyPatch) -> Studied:
    """The names of the files that were studied, as they are."""
    names: Studied = []
    study = Studies.study

    def noted(self: Studies, path: str) -> Study:
        names.append(path)
        return study(self, path)

    monkeypatch.setattr(Studies, "study", noted)
    return names


def read(content: Path, inputs: Inputs | None = None) -> Checked:
    inputs = inputs or inputs_of(Folder(content), TODAY, {})
    cache = StudyCache(Store(content.parent / "cache"), inputs, None)
    return read_and_check(content, Asked(None, TODAY, jobs=1, cache=cache))


def editions(checked: Checked) -> list[Edition]:
    return [lay_out_edition(checked.worked, name, pdf=True) for name in EditionName]


def test_what_is_kept_is_what_a_study_gives(content: Path, studied: Studied) -> None:
    first = read(content)
    assert len(studied) == 3
    again = read(content)
    assert len(studied) == 3
    assert again.findings == first.findings
    assert again.worked.lines == first.worked.lines
    assert editions(again) == editions(first)


def _add_a_line(path: Path) -> None:
    path.write_text(path.read_text(encoding="utf-8") + "\n", encoding="utf-8")


@pytest.mark.parametrize(
    ("change", "again"),
    [
        (lambda folder: _add_a_line(sorted(folder.rglob("*.md"))[1]), 1),
        (lambda folder: _add_a_line(folder / "chemicals.yaml"), 3),
        (lambda folder: _add_a_line(folder / "manual.yaml"), 3),
        (lambda folder: (folder / "picture.png").write_bytes(b"new"), 3),
        (lambda folder: sorted(folder.rglob("*.md"))[2].unlink(), 2),
    ],
    ids=["experiment", "store", "settings", "new file", "experiment gone"],
)
def test_a_change_reaches_whoever_may_know_of_it(
    content: Path, studied: Studied, change: Callable[[Path], object], again: int
) -> None:
    read(content)
    studied.clear()
    change(content)
    read(content)
    assert len(studied) == again


def test_what_was_saved_while_it_was_read_is_not_kept(content: Path) -> None:
    source = sorted(content.rglob("*.md"))[0]
    before, text = inputs_of(Folder(content), TODAY, {}), source.read_text("utf-8")
    source.write_text(text.replace("title: ", "title: New ", 1), encoding="utf-8")
    read(content, before)
    source.write_text(text, encoding="utf-8")
    titles = {e.title for e in read(content, before).worked.manual.experiments}
    assert not any(title.startswith("New ") for title in titles)
