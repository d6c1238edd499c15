"""Real mistakes, and sound passages that look like them.

Each was written before the checks of materials and safety were tuned. A mistake
must be found at its line by its check; on a sound passage both families are
silent.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from manualgen.checks import CHECKS
from manualgen.model.finding import Finding

HERE = Path(__file__).parent / "passages"
RULES = "standing_controls:\n  - Eye protection is worn by everyone.\n"


def read(name: str) -> list[dict[str, Any]]:
    rows = yaml.load((HERE / name).read_text("utf-8"), yaml.CBaseLoader)
    assert isinstance(rows, list)
    return rows


MISTAKES, SOUND = read("mistakes.yaml"), read("sound.yaml")


def found_in(
    row: dict[str, Any], text: str, find: Callable[..., tuple[Finding, ...]]
) -> list[tuple[str, int, str]]:
    families = ("materials", "safety")
    found = find(
        f"---\ntitle: Passage\n{text}",
        only=[c.name for c in CHECKS.values() if c.family in families],
        settings=row.get("settings", RULES),
        files={"chemicals.yaml": row["store"]} if "store" in row else {},
    )
    return [(f.check, f.place.line, f.fault.message) for f in found]


@pytest.mark.parametrize("row", MISTAKES, ids=lambda r: r["name"])
def test_a_mistake_is_found_at_its_line(
    row: dict[str, Any], find: Callable[..., tuple[Finding, ...]]
) -> None:
    marked = f"---\ntitle: Passage\n{row['text']}".splitlines()
    line = next(n for n, words in enumerate(marked, 1) if "«" in words)
    text = row["text"].replace("«", "").replace("»", "")
    found = found_in(row, text, find)
    assert [(check, at) for check, at, _ in found] == [(row["check"], line)], found


@pytest.mark.parametrize("row", SOUND, ids=lambda r: r["name"])
def test_a_sound_passage_is_left_alone(
    row: dict[str, Any], find: Callable[..., tuple[Finding, ...]]
) -> None:
    assert found_in(row, row["text"], find) == []


def test_there_are_forty_of_each() -> None:
    assert len(MISTAKES) >= 40
    assert len(SOUND) >= 40
