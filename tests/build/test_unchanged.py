"""A build of what has not changed writes nothing, and says again what was found."""

from __future__ import annotations

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


@pytest.mark.parametrize("damage", [b"", b"\xff\xfe", b"[]", b"{" * 100_000])
def test_a_damaged_report_costs_time_only(desk: Desk, damage: bytes) -> None:
    first = desk.build("--no-pdf")
    (report,) = desk.cache.glob("*.report")
    whole = report.read_bytes()
    report.write_bytes(damage)
    assert desk.build("--no-pdf") == first.replace(", built;", ", up to date;")
    assert report.read_bytes() == whole


def test_a_report_that_somebody_has_changed_is_not_believed(desk: Desk) -> None:
    first = desk.build("--no-pdf")
    (report,) = desk.cache.glob("*.report")
    report.write_bytes(report.read_bytes().replace(b"thermometer", b"barometer"))
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


@pytest.mark.browser
def test_one_changed_experiment_is_rendered_and_printed_alone(desk: Desk) -> None:
    water = SALT.replace("Salt", "Water").replace("sodium chloride, 5 g", "water, 5 g")
    water = water.replace("the sodium chloride", "the water")
    (desk.content / "water.md").write_text(water)
    manual = desk.content / "manual.yaml"
    manual.write_text(manual.read_text().replace("[salt]", "[salt, water]"))
    desk.build("--edition", "teacher")
    kept = set(desk.cache.iterdir())
    before = (desk.out / "teacher" / "pdf" / "salt.pdf").read_bytes()
    (desk.content / "water.md").write_text(water.replace("the water", "all the water"))
    assert ", built;" in desk.build("--edition", "teacher")
    new = [entry.suffix for entry in set(desk.cache.iterdir()) - kept]
    assert sorted(new) == ["", ".page", ".report", ".study"]
    assert (desk.out / "teacher" / "pdf" / "salt.pdf").read_bytes() == before


def cut_short(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-9])


@pytest.mark.browser
def test_a_cache_that_is_gone_or_spoilt_changes_nothing_in_the_site(desk: Desk) -> None:
    desk.build()
    first = {p: p.read_bytes() for p in desk.out.rglob("*.*") if p.is_file()}
    for spoil in (Path.unlink, cut_short):
        for entry in desk.cache.iterdir():
            spoil(entry)
        (desk.out / "index.html").unlink()
        assert ", built;" in desk.build()
        again = {p: p.read_bytes() for p in desk.out.rglob("*.*") if p.is_file()}
        assert again == first
