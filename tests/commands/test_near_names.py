"""A name that nothing has: the commands say which names are near it."""

from __future__ import annotations

from pathlib import Path

import pytest

from manualgen.cli import main

TITLES = {"acids/titration": "Ethanoic acid in vinegar", "alum": "Crystals of alum"}


@pytest.fixture(autouse=True)
def department(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two experiments in the content folder of the working directory."""
    content = tmp_path / "content"
    (content / "acids").mkdir(parents=True)
    (content / "manual.yaml").write_text(
        "title: T\nparts:\n  - title: All\n    experiments: [titration, alum]\n"
    )
    for path, title in TITLES.items():
        (content / f"{path}.md").write_text(
            f"---\ntitle: {title}\n---\n\n## Method\n\n1. Look.\n"
        )
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("check titr", "content has titration in it: name content"),
        ("check titration", "content has titration in it: name content"),
        ("check contnt", "did you mean content?"),
        ("build elsewhere", "there is no folder elsewhere; there is content"),
        ("check content/acids/titration.md", "a whole folder is read: name content\n"),
        ("print titr", "did you mean titration?"),
        ("print Vinegar", "did you mean titration?"),
        ("print content/acids/titration.md", "did you mean titration?"),
        ("prepare titraton:3", "did you mean titration?"),
        ("prepare burning", "the manual has alum, titration\n"),
    ],
)
def test_near_names_are_told(
    words: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        status = main(words.split())
    except SystemExit as error:
        status = int(error.code or 0)
    assert status == 2
    assert told in capsys.readouterr().err


def test_inside_the_content_folder_a_dot_is_what_is_missing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir("content")
    with pytest.raises(SystemExit):
        main(["check"])
    assert "this one holds a manual.yaml: name it with a dot" in capsys.readouterr().err
