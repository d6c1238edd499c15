"""What the README tells to type is what the program takes."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
import yaml

from manualgen.cli import COMMANDS, main

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
_TYPED = re.compile(
    r"^(?:    |\s+- run: )(?:\.venv/bin/)?manualgen ([^#>\n]*)", re.MULTILINE
)
_IN_TABLE = re.compile(r"^\| `manualgen ([^`]*)` \|", re.MULTILINE)


def test_every_command_stands_in_the_table() -> None:
    told = {row.split()[0] for row in _IN_TABLE.findall(README)}
    assert told == set(COMMANDS)


@pytest.mark.parametrize("words", [row.strip() for row in _TYPED.findall(README)])
def test_what_is_to_be_typed_is_understood(
    words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    command, *rest = shlex.split(words)
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    told = capsys.readouterr().out
    assert ended.value.code == 0
    assert [word for word in rest if word[:2] == "--" and word not in told] == []


def test_the_workflow_is_yaml_and_publishes_the_students_edition_alone() -> None:
    block = re.search(r"```yaml\n(name: manual\n.*?)```", README, re.DOTALL)
    assert block
    workflow = yaml.load(block[1], yaml.BaseLoader)
    steps = [s for job in workflow["jobs"].values() for s in job["steps"]]
    published = [s["with"]["path"] for s in steps if "path" in s.get("with", {})]
    assert published == ["site/student"]
    assert {"pull_request", "push"} == set(workflow["on"])
