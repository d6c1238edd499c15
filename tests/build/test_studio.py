"""A manual being written is studied again only where a file has changed."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from manualgen.build.edition import Edition, EditionName, lay_out_edition
from manualgen.build.stages import check, read_and_work
from manualgen.build.studio import LaidOut, Studio

TODAY = datetime.date(2026, 9, 1)

SALT = """\
---
title: Salt
chemicals:
  - sodium chloride, 5 g
apparatus:
  - beaker, 100 cm3
---

## Method

1. Put the sodium chloride into the beaker, as [before](water.md#wet).
"""
WATER = """\
---
title: Water
chemicals:
  - water, 50 cm3
apparatus:
  - beaker, 100 cm3
---

## Method

1. Put the water into the beaker. [#wet]
"""

Write = Callable[[Mapping[str, str]], Path]


@pytest.fixture
def folder(content: Write) -> Path:
    return content({"salt.md": SALT, "water.md": WATER})


def save(path: Path, text: str) -> None:
    path.write_text(text + "\n", encoding="utf-8")


def test_what_is_found_is_what_a_check_finds(folder: Path) -> None:
    studio = Studio(folder, None, TODAY)
    studio.checked()
    save(folder / "salt.md", SALT.replace("100 cm3", "100 gms"))
    worked = read_and_work(folder, None, TODAY)
    assert studio.checked().findings == check(worked) != ()


def test_only_the_saved_experiment_is_studied_again(folder: Path) -> None:
    studio = Studio(folder, None, TODAY)
    salt, water = studio.checked().worked.experiments
    save(folder / "salt.md", SALT.replace("5 g", "6 g"))
    new_salt, new_water = studio.checked().worked.experiments
    assert new_water is water
    assert new_salt is not salt
    assert str(new_salt.experiment.chemicals[0].amount) != str(
        salt.experiment.chemicals[0].amount
    )


@pytest.mark.parametrize("file", ["manual.yaml", "chemicals.yaml", "picture.png"])
def test_everything_is_studied_again_when_what_all_share_changes(
    folder: Path, file: str
) -> None:
    studio = Studio(folder, None, TODAY)
    before = studio.checked().worked.experiments
    with (folder / file).open("a", encoding="utf-8") as shared:
        shared.write("\n# a remark\n")
    after = studio.checked().worked.experiments
    assert all(a is not b for a, b in zip(after, before, strict=True))


def test_an_experiment_that_is_taken_away_or_new_is_noticed(folder: Path) -> None:
    studio = Studio(folder, None, TODAY)
    studio.checked()
    (folder / "water.md").rename(folder / "ice.md")
    ids = {w.experiment.id for w in studio.checked().worked.experiments}
    assert ids == {"salt", "ice"}


def edition(studio: Studio, laid_out: LaidOut) -> Edition:
    worked = studio.checked().worked
    return lay_out_edition(worked, EditionName.TEACHER, pdf=False, laid_out=laid_out)


def test_a_sheet_is_laid_out_again_when_what_it_refers_to_is_renumbered(
    folder: Path,
) -> None:
    studio, laid_out = Studio(folder, None, TODAY), LaidOut()
    salt, water = edition(studio, laid_out).entries
    assert edition(studio, laid_out).entries[0].sheet is salt.sheet
    save(folder / "water.md", WATER.replace("1. Put", "1. Wait.\n2. Put"))
    again, changed = edition(studio, laid_out).entries
    assert changed.sheet is not water.sheet
    assert again.sheet is not salt.sheet
    fresh = edition(Studio(folder, None, TODAY), LaidOut())
    assert fresh.entries[0].sheet == again.sheet != salt.sheet
