"""`check --fix` mends what cannot change the meaning, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from manualgen.cli import main

MANUAL = "title: T\nparts:\n  - title: All\n    experiments: [salt]\n"

BEFORE = """\
---
title: Sulphates\r
---

## Theory

The ion `Fe2+` is green, and `SO42-` has no colour; `Xy` is nothing.

## Method

1. Look at `12 gms` of iron sulphate.  \n"""

AFTER = """\
---
title: Sulfates\r
---

## Theory

The ion `Fe^2+` is green, and `SO4^2-` has no colour; `Xy` is nothing.

## Method

1. Look at `12 g` of iron sulfate.  \n"""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    (tmp_path / "manual.yaml").write_text(MANUAL)
    (tmp_path / "salt.md").write_bytes(BEFORE.encode())
    return tmp_path


def test_harmless_mends_are_made_and_every_other_byte_stays(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["check", str(content), "--fix"])
    assert (content / "salt.md").read_bytes().decode() == AFTER
    shown = capsys.readouterr().err
    assert "-1. Look at `12 gms` of iron sulphate." in shown
    assert "+1. Look at `12 g` of iron sulfate." in shown


def test_what_is_left_is_reported(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(content), "--fix"]) == 1
    assert "Xy is no element" in capsys.readouterr().out


def test_without_fix_no_file_is_touched(content: Path) -> None:
    main(["check", str(content)])
    assert (content / "salt.md").read_bytes().decode() == BEFORE
