"""The exit status that every command promises."""

from __future__ import annotations

from pathlib import Path

import pytest

from manualgen.cli import main

SOUND = "---\ntitle: Look\n---\n\n## Method\n\n1. Look.\n"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    (folder / "manual.yaml").write_text(
        "title: T\nparts:\n  - title: All\n    experiments: [look]\n"
    )
    (folder / "look.md").write_text(SOUND)
    return folder


def status(*words: str | Path) -> int:
    """The status of one command; a parser that gives up exits with it."""
    try:
        return main([str(word) for word in words])
    except SystemExit as error:
        return int(error.code or 0)


def test_sound_content_is_0(content: Path) -> None:
    assert status("check", content, "--strict") == 0


def test_an_error_is_1_and_a_warning_only_if_strict(content: Path) -> None:
    (content / "look.md").write_text(SOUND + "\n2. Weigh `5 gms` of water.\n")
    assert status("check", content, "--only", "unit-style") == 0
    assert status("check", content, "--only", "unit-style", "--strict") == 1
    (content / "look.md").write_text(SOUND + "\nSee `Xy`.\n")
    assert status("check", content) == 1


@pytest.mark.parametrize(
    "words",
    [
        ("check", "no-such-folder"),
        ("check", "--only", "no-such-check"),
        ("print", "no-such-experiment"),
        ("print", "look", "--stations"),  # which has none
        ("frobnicate",),
        ("build", "--jobs", "0"),
        ("build", "--jobs", "many"),
        ("explain", "no-such-check"),
        (),
    ],
)
def test_wrong_words_are_2(
    content: Path, words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(content.parent)
    assert status(*words) == 2


def test_a_missing_browser_is_3_and_says_what_to_do(
    content: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("MANUALGEN_BROWSER", str(content / "no-browser"))
    assert status("build", content, "--out", content.parent / "site") == 3
    assert "MANUALGEN_BROWSER" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("equation", "Al + O2 -> Al2O3"), 0),
        (("equation", "Al + O2 -> Al2S3"), 1),
        (("equation", "nonsense"), 1),
        (("formula", "MgSO4.7H2O"), 0),
        (("formula", "Xy"), 1),
        (("quantity", "25.0 cm3"), 0),
        (("quantity", "25.0 foo"), 1),
    ],
)
def test_an_answer_that_cannot_be_given_is_1(
    words: tuple[str, ...], expected: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert status(*words) == expected
    assert capsys.readouterr().out.strip()


@pytest.mark.parametrize(
    "command",
    ["check", "build", "print", "prepare", "solution", "compare", "preview"],
)
def test_every_command_has_help_with_an_example(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert status(command, "--help") == 0
    assert f"manualgen {command}" in capsys.readouterr().out.partition("example:")[2]
