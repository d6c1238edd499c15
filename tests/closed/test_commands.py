"""Hostile words and files given to the commands themselves."""

from __future__ import annotations

import subprocess
import time
from pathlib import Path

import pytest

from manualgen.cli import main
from tests.closed.hostile import SECRET, SOUND, files_in, manual

LONGEST = 3.0
"""Seconds of processor time, which leaves room for measuring coverage."""
ESCAPE = "\x1b"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    (folder / "sound.md").write_text(SOUND)
    (folder / "manual.yaml").write_bytes(manual(("sound.md",)))
    return folder


# --- where the answer goes -----------------------------------------------------------


@pytest.mark.parametrize("file", ["sound.md", "manual.yaml"])
def test_no_answer_is_written_over_a_source(content: Path, file: str) -> None:
    before, target = files_in(content), str(content / file)
    words = ["print", "sound", str(content), "--output", target]
    assert main(words) == 2
    assert files_in(content) == before


def test_no_site_takes_the_place_of_its_own_sources(content: Path) -> None:
    (content / "manifest.json").write_text('{"maker": "manualgen"}')
    before = files_in(content)
    for out in (content, content.parent):
        assert main(["build", str(content), "--out", str(out), "--no-pdf"]) in (2, 3)
        assert files_in(content) == before


# --- revisions of git ----------------------------------------------------------------


def git(folder: Path, *words: str) -> None:
    named = ["-c", "user.name=A", "-c", "user.email=a@example.org"]
    subprocess.run(["git", "-C", folder, *named, *words], check=True)


@pytest.mark.parametrize(
    "revision",
    [
        "--output=owned",
        "--help",
        "-",
        "--",
        "HEAD --output=owned",
        "HEAD:content/sound.md",
        "HEAD..HEAD",
        "HEAD\n--output=owned",
        "$(touch owned)",
        "HEAD^{tree}",
        "a" * 100_000,
        "\udcff",
    ],
    ids=range(12),
)
def test_a_revision_is_only_ever_a_revision(
    content: Path, revision: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    git(content, "init", "--quiet")
    git(content, "add", ".")
    git(content, "commit", "--quiet", "--message", "One")
    before = files_in(content.parent)
    monkeypatch.chdir(content.parent)
    assert main(["compare", "--content", "content", "--", revision]) == 2
    assert files_in(content.parent) == before


def test_a_repository_of_somebodys_runs_nothing(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Git's own settings can name programs; none of them is needed or run."""
    git(content, "init", "--quiet")
    git(content, "add", ".")
    git(content, "commit", "--quiet", "--message", "One")
    owned = content.parent / "owned"
    hook = content.parent / "hook"
    hook.write_text(f"#!/bin/sh\ntouch {owned}\n")
    hook.chmod(0o755)
    for key in ("core.fsmonitor", "core.pager", "diff.external", "core.sshCommand"):
        git(content, "config", key, str(hook))
    (content / "sound.md").write_text(SOUND.replace("water", "lake"))
    assert main(["compare", "HEAD", "--content", str(content)]) == 0
    assert "lake" in capsys.readouterr().out
    assert not owned.exists()


# --- words on the command line -------------------------------------------------------


@pytest.mark.parametrize("command", ["equation", "formula", "quantity"])
@pytest.mark.parametrize(
    "text",
    [
        "(" * 50_000,
        "H" * 50_000,
        "9" * 50_000,
        "1e" + "9" * 50_000,
        "2" + "0" * 30_000 + " H2 -> H2",
        "H2 + " * 10_000 + "-> H2O",
        "di" * 20_000 + "hydrogen",
        "1,2-" * 10_000 + "ethane",
        "[" * 5000 + "Cu" + "]" * 5000,
        "m" * 20_000,
        "5 " + "k" * 20_000 + "g",
        "5 " + "g/" * 20_000 + "g",
        "5 g" + "9" * 20_000,
        "\x1b[2J\x1b]0;owned\x07",
        "\u202eOaN",
        "NaCl\nNaOH",
        "__import__('os').system('touch owned')",
        "\udcff",
    ],
    ids=range(18),
)
def test_no_text_holds_an_answer_up_or_gives_orders(
    command: str, text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    for more in ([], ["--format", "json"]):
        began = time.process_time()
        assert main([command, *more, "--", text]) == 1
        assert time.process_time() - began < LONGEST
    said = capsys.readouterr()
    assert ESCAPE not in said.out + said.err


def test_a_file_that_is_called_like_an_order_is_shown_not_obeyed(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (content / "a\x1b[2J\nb: error: all is well.md").write_text(SOUND)
    for words in ("check", "build"):
        assert main([words, str(content)]) == 1
        said = capsys.readouterr()
        assert ESCAPE not in said.out + said.err
        assert "\nb: error" not in said.out + said.err


@pytest.mark.parametrize("name", ["../../secret", "/etc/passwd", "a\0b", "x/../y"])
def test_no_other_manual_leads_outside(
    content: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (content.parent / "secret.yaml").write_text(f"title: {SECRET}\n")
    assert main(["check", str(content), "--manual", name]) == 1
    assert SECRET not in capsys.readouterr().out
