"""What the tests of several rooms need: a manual made of a few texts."""

from __future__ import annotations

import datetime
import os
from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from typing import TypeAlias

import pytest
from hypothesis import settings

from manualgen.build import check, read_and_work
from manualgen.model.finding import Finding
from manualgen.working.worked import Worked

# No example fails for a busy machine, and in CI none by luck.
settings.register_profile("ci", deadline=None, derandomize=True)
settings.register_profile("local", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "local")


@pytest.fixture(scope="session", autouse=True)
def _state(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What builds seal their cache with is the test run's own, not the user's."""
    os.environ["XDG_STATE_HOME"] = str(tmp_path_factory.mktemp("state"))


TODAY = datetime.date(2026, 9, 1)

WorkOut: TypeAlias = Callable[..., Worked]
Find: TypeAlias = Callable[..., tuple[Finding, ...]]


@pytest.fixture
def content(tmp_path: Path) -> Callable[[Mapping[str, str]], Path]:
    """Write files into a content folder; a manual.yaml is added if none is given."""

    def write(files: Mapping[str, str]) -> Path:
        folder = tmp_path / "content"
        with_manual = {"manual.yaml": _manual_of(files), **files}
        for name, text in with_manual.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return folder

    return write


def _manual_of(files: Mapping[str, str], settings: str = "") -> str:
    listed = ", ".join(Path(f).stem for f in files if f.endswith(".md"))
    return (
        "title: Test\n" + settings + "parts:\n  - title: All\n"
        f"    experiments: [{listed}]\n"
    )


@pytest.fixture
def work_out(content: Callable[[Mapping[str, str]], Path]) -> WorkOut:
    """Read and work out a manual of one experiment, or of the files given.

    ``settings`` are further lines for manual.yaml.
    """

    def work(
        text: str = "", *, settings: str = "", files: Mapping[str, str] | None = None
    ) -> Worked:
        all_files = {"example.md": text, **(files or {})} if text else files or {}
        if settings:
            all_files = {"manual.yaml": _manual_of(all_files, settings), **all_files}
        return read_and_work(content(all_files), None, TODAY)

    return work


@pytest.fixture
def find(work_out: WorkOut) -> Find:
    """The findings in a manual of one experiment, or of the files given."""

    def findings(
        text: str = "",
        *,
        only: Collection[str] = (),
        settings: str = "",
        files: Mapping[str, str] | None = None,
    ) -> tuple[Finding, ...]:
        return check(work_out(text, settings=settings, files=files), only)

    return findings
