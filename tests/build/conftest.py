"""The demonstration manual, printed once for all the tests that read it back."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest

from manualgen.build import read_and_work
from manualgen.build.site import BuildOptions, build_manual
from tests.build.printed import Demo
from tests.conftest import TODAY

ROOT = Path(__file__).resolve().parents[2]

PAPERS = {
    "A4": "paper: A4\n",
    # Letter is shorter, and is printed on both sides as well.
    "Letter": "paper: Letter\nduplex: true\n",
}


@pytest.fixture(scope="session")
def demos(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Demo]:
    """The manual on each paper, on A4 with its large print."""
    return {name: _built(tmp_path_factory.mktemp("demo"), name) for name in PAPERS}


@pytest.fixture(scope="session")
def demo(demos: Mapping[str, Demo]) -> Demo:
    """The manual as it is committed, on A4."""
    return demos["A4"]


def _built(folder: Path, paper: str) -> Demo:
    content = folder / "content"
    shutil.copytree(ROOT / "content", content)
    manual = content / "manual.yaml"
    settings = manual.read_text(encoding="utf-8")
    assert PAPERS["A4"] in settings
    manual.write_text(settings.replace(PAPERS["A4"], PAPERS[paper]), encoding="utf-8")
    worked = read_and_work(content, None, TODAY)
    built = build_manual(
        content, worked, folder / "site", BuildOptions(large=paper == "A4")
    )
    assert built.findings == ()
    return Demo(folder / "site", worked)
