"""A wheel installed somewhere else builds a manual, its templates and data inside."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent

EXPERIMENT = """\
---
title: Salt and water
apparatus:
  - beaker, 100 cm3
---

## Method

1. Fill the beaker with water.
"""


def run(*words: str | Path, where: Path) -> None:
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}
    done = subprocess.run(
        words, cwd=where, env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new environment with the wheel in it, and the libraries of this one."""
    folder = tmp_path_factory.mktemp("elsewhere")
    pip = (sys.executable, "-m", "pip", "--disable-pip-version-check", "-q")
    run(
        *pip,
        "wheel",
        "--no-deps",
        "--no-build-isolation",
        "-w",
        folder,
        ROOT,
        where=folder,
    )
    run(sys.executable, "-m", "venv", "--without-pip", folder / "venv", where=folder)
    python = folder / "venv" / "bin" / "python"
    wheel = next(folder.glob("*.whl"))
    run(*pip, "--python", python, "install", "--no-deps", wheel, where=folder)
    site_packages = next((folder / "venv" / "lib").glob("python*/site-packages"))
    ours = sysconfig.get_path("purelib")
    (site_packages / "libraries.pth").write_text(ours + "\n")
    return folder


@pytest.mark.browser
def test_a_manual_is_built_with_the_wheel_alone(installed: Path) -> None:
    content = installed / "practicals"
    content.mkdir()
    (content / "manual.yaml").write_text(
        "title: T\nparts:\n  - title: All\n    experiments: [salt]\n"
    )
    (content / "salt.md").write_text(EXPERIMENT)
    manualgen = installed / "venv" / "bin" / "manualgen"

    run(manualgen, "build", "practicals", "--out", "made", where=installed)

    assert (installed / "made" / "student" / "manual.pdf").read_bytes()[:5] == b"%PDF-"
    assert (installed / "made" / "teacher" / "salt.html").exists()


def test_the_wheel_is_what_runs_there(installed: Path) -> None:
    python = installed / "venv" / "bin" / "python"
    where = installed / "venv"
    code = f"import manualgen; assert {str(where)!r} in manualgen.__file__"
    run(python, "-c", code, where=installed)
