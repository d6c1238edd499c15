"""The bootstrap with stand-ins for the programs that it runs."""

import ast
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from manualgen import bootstrap

ROOT = Path(bootstrap.__file__).parents[1]


@pytest.fixture
def clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with nothing installed, and a PATH with nothing on it."""
    for name in ("constraints.txt", "constraints-test.txt"):
        (tmp_path / ".ci").mkdir(exist_ok=True)
        (tmp_path / ".ci" / name).write_text("# nothing\n", encoding="utf-8")
    (tmp_path / "pyproject.toml").write_text("", encoding="utf-8")
    (tmp_path / "bin").mkdir()
    monkeypatch.setattr(bootstrap, "ROOT", tmp_path)
    monkeypatch.setattr(
        sys, "executable", str(stand_in(tmp_path / "host-python", MAKE))
    )
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.delenv("MANUALGEN_BROWSER", raising=False)
    monkeypatch.delenv("PLAYWRIGHT_BROWSERS_PATH", raising=False)
    return tmp_path


# What a Python that makes environments does: it puts another one there.
MAKE = """
/bin/mkdir -p .venv/bin
/bin/cp environment-python .venv/bin/python
"""


def stand_in(path: Path, script: str = "", status: int = 0) -> Path:
    """A program that notes its words beside itself, runs a script, and ends so."""
    path.write_text(
        f'#!/bin/sh\necho "$*" >> "{path.parent / path.name}.log"\n{script}\nexit {status}\n',
        encoding="utf-8",
    )
    path.chmod(0o755)
    return path


def said_to(program: Path) -> list[str]:
    log = Path(f"{program}.log")
    return log.read_text().splitlines() if log.exists() else []


def environment_python(clone: Path, script: str = "", status: int = 0) -> Path:
    """The Python that the environment will have; its words go to its own log."""
    log = clone / "environment.log"
    source = clone / "environment-python"
    source.write_text(
        f'#!/bin/sh\necho "$*" >> "{log}"\n{script}\nexit {status}\n', encoding="utf-8"
    )
    source.chmod(0o755)
    return clone / "environment"


def test_a_fresh_clone_is_made_ready_and_built(
    clone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    python = environment_python(clone)
    browser = stand_in(clone / "bin" / "chromium")
    assert bootstrap.main(["build", "--no-pdf"]) == 0
    *installed, built = said_to(python)
    assert [words.split()[:3] for words in installed] == [["-m", "pip", "install"]] * 2
    assert built == "-m manualgen build --no-pdf"
    assert capsys.readouterr().out.splitlines() == [
        f"Making .venv with Python {sys.version.split()[0]}",
        "Installing the libraries of .ci/constraints.txt",
        f"Printing with {browser}",
    ]


def test_the_second_run_installs_nothing(clone: Path) -> None:
    python = environment_python(clone)
    stand_in(clone / "bin" / "chromium")
    bootstrap.main(["build"])
    (clone / "environment.log").unlink()
    assert bootstrap.main(["build"]) == 0
    assert said_to(python) == ["-m manualgen build"]


def test_a_changed_list_is_installed_anew(clone: Path) -> None:
    python = environment_python(clone)
    stand_in(clone / "bin" / "chromium")
    bootstrap.main(["build"])
    (clone / ".ci" / "constraints.txt").write_text("# other\n", encoding="utf-8")
    (clone / "environment.log").unlink()
    bootstrap.main(["build"])
    assert len(said_to(python)) == 3


def test_an_installation_that_failed_is_tried_again(
    clone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    python = environment_python(clone, status=1)
    for _ in range(2):
        assert bootstrap.main(["build"]) == 3
        last = capsys.readouterr().out.splitlines()[-1]
        assert last.startswith(
            "error: the libraries of .ci/constraints.txt could not be"
        )
    assert len(said_to(python)) == 2


def test_playwright_downloads_a_browser_where_there_is_none(clone: Path) -> None:
    place = clone / ".cache" / "ms-playwright" / "chromium-1" / "chrome-linux64"
    python = environment_python(
        clone,
        f'case "$*" in *"playwright install"*) /bin/mkdir -p {place}; '
        f"/bin/cp {stand_in(clone / 'downloaded')} {place / 'chrome'};; esac",
    )
    assert bootstrap.main(["build"]) == 0
    assert "-m playwright install --no-shell chromium" in said_to(python)


def test_debians_package_is_installed_where_the_download_fails(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    environment_python(clone)
    chromium = clone / "bin" / "chromium"
    package = stand_in(clone / "package")
    apt = stand_in(
        clone / "bin" / "apt-get",
        f'case "$*" in *install*) /bin/cp {package} {chromium};; esac',
    )
    assert bootstrap.main(["build"]) == 0
    assert said_to(apt) == [
        "update -qq",
        "install -qq --no-install-recommends chromium",
    ]
    assert capsys.readouterr().out.splitlines()[-1] == f"Printing with {chromium}"


def test_without_any_way_to_a_browser_one_sentence_says_what_to_do(
    clone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    environment_python(clone)
    assert bootstrap.main(["build"]) == 3
    assert capsys.readouterr().out.splitlines()[-1] == (
        "error: no Chromium, Chrome or Edge is here and none could be installed; "
        "install one, or name one in MANUALGEN_BROWSER"
    )


def test_a_browser_that_does_not_run_is_not_taken(
    clone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    python = environment_python(clone)
    stand_in(clone / "bin" / "chromium-browser", status=1)
    assert bootstrap.main(["build"]) == 3
    assert "-m playwright install --no-shell chromium" in said_to(python)


@pytest.mark.parametrize("status", [None, 1])
def test_a_named_browser_that_cannot_be_used_is_named_in_the_error(
    clone: Path,
    status: int | None,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    environment_python(clone)
    stand_in(clone / "bin" / "chromium")
    if status is not None:
        stand_in(clone / "mine", status=status)
    monkeypatch.setenv("MANUALGEN_BROWSER", str(clone / "mine"))
    assert bootstrap.main(["build"]) == 3
    error = capsys.readouterr().out.splitlines()[-1]
    assert f"{clone / 'mine'}, which MANUALGEN_BROWSER names" in error


def test_an_old_python_is_told_which_one_it_takes(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    assert bootstrap.main(["build"]) == 3
    assert capsys.readouterr().out == (
        "error: manualgen needs Python 3.11 or newer, and this is 3.9\n"
    )


def test_the_tests_come_last_and_after_a_failed_check_not_at_all(clone: Path) -> None:
    python = environment_python(clone)
    stand_in(clone / "bin" / "chromium")
    for reader in bootstrap.PDF_READERS:
        stand_in(clone / "bin" / reader)
    bootstrap.main(["build"])
    tools = clone / ".venv" / "bin"
    for tool in ("ruff", "lint-imports", "mypy"):
        stand_in(tools / tool)
    assert bootstrap.main(["test"]) == 0
    assert said_to(tools / "ruff") == ["format --check .", "check ."]
    assert said_to(python)[-2:] == [
        "-m coverage run -m pytest",
        "-m coverage report --format=total",
    ]
    stand_in(tools / "mypy", status=7)
    (clone / "environment.log").unlink()
    assert bootstrap.main(["test"]) == 7
    assert said_to(python) == []


def test_missing_programs_to_read_pdfs_are_named(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    environment_python(clone)
    stand_in(clone / "bin" / "chromium")
    stand_in(clone / "bin" / "pdfinfo")
    assert bootstrap.main(["test"]) == 3
    error = capsys.readouterr().out.splitlines()[-1]
    assert "pdftotext, pdffonts, pdftoppm" in error
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    apt = stand_in(clone / "bin" / "apt-get")
    assert bootstrap.main(["test"]) == 3
    assert said_to(apt)[-1] == "install -qq --no-install-recommends poppler-utils"


@pytest.mark.parametrize("words", [[], ["biuld"]])
def test_any_other_word_is_wrong_usage(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert bootstrap.main(words) == 2
    assert "build|test" in capsys.readouterr().out


def test_it_runs_on_the_standard_library_alone() -> None:
    asked = subprocess.run(
        [sys.executable, "-I", "-S", "-c", STANDARD_ONLY, ROOT],
        capture_output=True,
        text=True,
        check=True,
    )
    assert asked.stdout.strip() == "True"


# -I and -S: no site-packages, nothing of the environment's.
STANDARD_ONLY = """
import sys
sys.path.insert(0, sys.argv[1])
import manualgen.bootstrap, manualgen.press.chromium
print(all(name.split(".")[0] in sys.stdlib_module_names | {"manualgen", "__main__"}
          for name in sys.modules))
"""


def test_it_can_be_read_by_an_old_python_that_it_has_to_turn_away() -> None:
    text = Path(bootstrap.__file__).read_text(encoding="utf-8")
    ast.parse(text, feature_version=(3, 8))


def test_the_lists_pin_every_library_to_one_version() -> None:
    for name in bootstrap.LOCKS["test"]:
        lines = (ROOT / ".ci" / name).read_text(encoding="utf-8").splitlines()
        pins = [line for line in lines if line and not line.startswith("#")]
        assert pins == sorted(pins, key=name_of)
        assert all(pin.count("==") == 1 + pin.count(";") for pin in pins)


def test_the_lists_have_everything_that_the_project_asks_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    asked = project["project"]["dependencies"]
    asked_for_tests = project["project"]["optional-dependencies"]["test"]
    run, test = (pinned(name) for name in bootstrap.LOCKS["test"])
    assert {name_of(line) for line in asked} <= run
    assert {name_of(line) for line in asked_for_tests} <= test


def pinned(lock: str) -> set[str]:
    lines = (ROOT / ".ci" / lock).read_text(encoding="utf-8").splitlines()
    return {name_of(line) for line in lines if line and not line.startswith("#")}


def name_of(requirement: str) -> str:
    """A requirement's name as the packaging standard compares names (PEP 503)."""
    name = re.split(r"[^\w.-]", requirement, maxsplit=1)[0]
    return re.sub(r"[-_.]+", "-", name).lower()
