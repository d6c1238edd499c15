"""A build of what has not changed writes nothing, and says again what was found."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from manualgen.cli import main
from manualgen.commands.build import CACHE

SALT = """\
---
title: Salt
chemicals:
  - sodium chloride, 5 g
apparatus:
  - beaker, 100 cm3
  - thermometer
---

## Method

1. Put the sodium chloride into the beaker.
"""
"""The thermometer is listed and not used: a warning, which stops no build."""


@pytest.fixture(autouse=True)
def day(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1788220800")


class Desk:
    """A content folder, its site, and what a build of it says."""

    def __init__(self, content: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.content, self.out = content, content.parent / "site"
        self.cache = content.parent / CACHE
        self._capsys = capsys

    def build(self, *words: str) -> str:
        """Build; gives all that was said, on either stream."""
        self._capsys.readouterr()
        assert main(["build", str(self.content), "--out", str(self.out), *words]) == 0
        said = self._capsys.readouterr()
        return said.err + said.out

    def times(self) -> dict[str, int]:
        """When each file of the site was written."""
        return {str(p): p.stat().st_mtime_ns for p in sorted(self.out.rglob("*"))}


@pytest.fixture
def desk(
    content: Callable[[Mapping[str, str]], Path], capsys: pytest.CaptureFixture[str]
) -> Desk:
    return Desk(content({"salt.md": SALT}), capsys)


def test_nothing_is_written_and_the_warning_is_told_again(desk: Desk) -> None:
    first = desk.build("--no-pdf")
    assert "warning: thermometer is listed" in first
    assert ": 1 experiments, built;" in first
    before = desk.times()
    assert desk.build("--no-pdf") == first.replace(", built;", ", up to date;")
    assert desk.times() == before


@pytest.mark.browser
def test_no_browser_is_asked_for(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.build()
    monkeypatch.setenv("MANUALGEN_BROWSER", "/nowhere/chromium")
    assert "up to date" in desk.build()


@pytest.mark.parametrize(
    "damage",
    [
        b"",
        b"\xff\xfe",
        b"[]",
        b"[" * 100_000,
        b'{"findings": 3}',
        b'{"findings": [{}], "lines": {}, "experiments": 1}',
        b'{"findings": [], "lines": [], "experiments": null}',
    ],
)
def test_a_damaged_report_costs_time_only(desk: Desk, damage: bytes) -> None:
    first = desk.build("--no-pdf")
    (report,) = desk.cache.glob("*.report")
    whole = report.read_bytes()
    report.write_bytes(damage)
    assert desk.build("--no-pdf") == first.replace(", built;", ", up to date;")
    assert report.read_bytes() == whole


@pytest.mark.parametrize(
    ("key", "forged"),
    [
        ("message", "\x1b[2Jnothing to see"),
        ("severity", "error"),
        ("severity", "grave"),
        ("place", "content/salt.md"),
        ("check", 7),
    ],
)
def test_a_report_that_no_build_can_have_kept_is_not_believed(
    desk: Desk, key: str, forged: object
) -> None:
    first = desk.build("--no-pdf")
    (report,) = desk.cache.glob("*.report")
    told = json.loads(report.read_text(encoding="utf-8"))
    told["findings"][0][key] = forged
    report.write_text(json.dumps(told), encoding="utf-8")
    assert desk.build("--no-pdf") == first.replace(", built;", ", up to date;")


def test_without_its_cache_a_build_says_the_same(desk: Desk) -> None:
    first = desk.build("--no-pdf")
    for kept in desk.cache.iterdir():
        kept.unlink()
    desk.cache.rmdir()
    assert desk.build("--no-pdf") == first.replace(", built;", ", up to date;")


def spoil_a_page(desk: Desk) -> None:
    (desk.out / "student" / "salt.html").write_text("something else")


def lose_a_page(desk: Desk) -> None:
    (desk.out / "teacher" / "index.html").unlink()


def change_the_title(desk: Desk) -> None:
    source = desk.content / "salt.md"
    source.write_text(source.read_text().replace("title: Salt", "title: Rock salt"))


@pytest.mark.parametrize("change", [spoil_a_page, lose_a_page, change_the_title])
def test_what_has_changed_is_built_again(
    desk: Desk, change: Callable[[Desk], None]
) -> None:
    desk.build("--no-pdf")
    change(desk)
    assert ", built;" in desk.build("--no-pdf")
    assert "<h1" in (desk.out / "student" / "salt.html").read_text()
    assert (desk.out / "teacher" / "index.html").exists()


def test_another_manual_of_the_folder_is_built_again(desk: Desk) -> None:
    main_manual = (desk.content / "manual.yaml").read_text()
    smaller = main_manual.replace("title: Test", "title: Summer school", 1)
    (desk.content / "manual-summer.yaml").write_text(smaller)
    desk.build("--no-pdf")
    assert ", built;" in desk.build("--no-pdf", "--manual", "summer")
    assert "Summer school" in (desk.out / "student" / "index.html").read_text()
