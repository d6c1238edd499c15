"""A new user's first minutes: start a manual, check it, build it."""

from __future__ import annotations

import json
import subprocess
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
import yaml

from manualgen.cli import main


def test_what_start_writes_has_no_finding(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["start", str(tmp_path / "ours")]) == 0
    assert main(["check", str(tmp_path / "ours" / "content"), "--strict"]) == 0
    assert "no errors, no warnings, no notes" in capsys.readouterr().out


@pytest.mark.browser
def test_what_start_writes_builds(tmp_path: Path) -> None:
    main(["start", str(tmp_path / "ours")])
    content, site = tmp_path / "ours" / "content", tmp_path / "site"
    assert main(["build", str(content), "--out", str(site)]) == 0
    assert (site / "student" / "manual.pdf").exists()


def test_a_folder_with_something_in_it_is_left_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    assert main(["start", str(tmp_path)]) == 2
    assert "not empty" in capsys.readouterr().err
    assert [p.name for p in tmp_path.iterdir()] == ["mine.txt"]


def test_a_manual_is_started_in_a_new_repository(tmp_path: Path) -> None:
    subprocess.run(["git", "init", "--quiet", tmp_path], check=True)
    assert main(["start", str(tmp_path)]) == 0
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("made")
    status = ["git", "-C", tmp_path, "status", "--porcelain"]
    told = subprocess.run(status, capture_output=True, text=True, check=True).stdout
    assert [line.split()[1] for line in told.splitlines()] == [
        ".gitignore",
        ".schemas/",
        "content/",
    ]


def test_a_repositorys_own_files_are_left_as_they_are(tmp_path: Path) -> None:
    (tmp_path / ".gitignore").write_text("*.bak\n")
    assert main(["start", str(tmp_path)]) == 0
    assert (tmp_path / ".gitignore").read_text() == "*.bak\n"


@pytest.mark.parametrize(
    ("schema", "file"),
    [
        ("manual", "manual.yaml"),
        ("chemicals", "chemicals.yaml"),
        ("apparatus", "apparatus.yaml"),
        ("labels", "labels.yaml"),
    ],
)
def test_the_files_that_start_writes_keep_to_the_schemas_that_they_name(
    tmp_path: Path, schema: str, file: str
) -> None:
    main(["start", str(tmp_path / "ours")])
    text = (tmp_path / "ours" / "content" / file).read_text()
    named = text.partition("$schema=")[2].split()[0]
    found = (tmp_path / "ours" / "content" / named).resolve()
    assert found.name == f"{schema}.json"
    jsonschema.validate(yaml.safe_load(text), json.loads(found.read_text()))


def test_the_demonstrations_front_matter_keeps_to_the_schema() -> None:
    schema = json.loads(
        files("manualgen.data").joinpath("schemas", "experiment.json").read_text()
    )
    content = Path(__file__).parents[2] / "content"
    for path in sorted(content.rglob("*.md")):
        front_matter = path.read_text(encoding="utf-8").split("---\n")[1]
        # As text throughout, dates and numbers too, as the program reads it.
        read = yaml.load(front_matter, yaml.BaseLoader)
        read.update({k: int(read[k]) for k in ("group",) if k in read})
        jsonschema.validate(read, schema)


def _schema(tmp_path: Path, name: str) -> dict[str, object]:
    main(["start", str(tmp_path / "ours")])
    text = (tmp_path / "ours" / ".schemas" / f"{name}.json").read_text()
    schema: dict[str, object] = json.loads(text)
    jsonschema.Draft202012Validator.check_schema(schema)
    return schema


@pytest.mark.parametrize(
    ("name", "sound", "wrong"),
    [
        ("labels", "en-GB: {what_you_need: You need}", "en: {what_you_nead: You need}"),
        ("labels", "fr: {step: Étape}", "fr: Étape"),
        ("apparatus", "potometer: {capacity: [5 cm3, 10 cm3]}", "potometer: 5 cm3"),
        ("apparatus", "potometer: {also: [x]}", "potometer: {alsoo: [x]}"),
        ("chemicals", "brine: {formula: NaCl}", "brine: NaCl"),
    ],
)
def test_an_editor_underlines_what_the_program_would_refuse(
    tmp_path: Path, name: str, sound: str, wrong: str
) -> None:
    schema = _schema(tmp_path, name)
    jsonschema.validate(yaml.load(sound, yaml.BaseLoader), schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(yaml.load(wrong, yaml.BaseLoader), schema)
    content = tmp_path / "ours" / "content"
    (content / f"{name}.yaml").write_text(wrong)
    assert main(["check", str(content)]) == 1
    (content / f"{name}.yaml").write_text(sound)
    assert main(["check", str(content)]) == 0
