"""Real mistakes, and sound passages that look like them.

Each was written before the checks were tuned. A mistake must be found at its
line by its check and by no other; a sound passage gives no finding. On short
passages the families of materials and safety run, on whole practicals all.
``false-alarms.yaml`` is the list of what a department would not forgive.
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
PRACTICALS_MISTAKEN = read("practicals-mistaken.yaml")
PRACTICALS_SOUND = read("practicals-sound.yaml")
FALSE_ALARMS = read("false-alarms.yaml")
ROWS = {
    "marks-sum": "any two of three points",
    "equation-ambiguous": "balanced as written",
    "equation-coefficients": "half-equations and enthalpies per mole",
    "state-missing": "electrons, oxidising and reducing agents",
    "state-solubility": "crystallising, salting out, sparingly soluble salts, a hydrate formed",
    "incompatible-chemicals": "a catalyst with its peroxide, a halogen made on purpose",
    "amount-exceeds-issue": "only fully quantified steps",
    "not-in-excess": "then in excess",
    "capacity-exceeded": "an open tube, a beaker emptied between fillings",
    "vague-quantity": "to rinse, to dissolve, until, just enough",
    "apparatus-not-used": "implied by the operation",
    "chemical-not-listed": "negation, and the possible identities of an unknown",
    "unit-mixed": "values quoted from a label",
    "precision-apparatus": "what the technician weighs out",
    "reading-resolution": "given columns, dilutions, times",
    "formula-name": "a salt's name beside its ion's formula",
    "answer-missing": "plans and own readings",
    "control-missing": "what the laboratory's standing rules cover",
}
"""What must not be found fault with, by the check that is tempted."""


def found_in(
    row: dict[str, Any],
    text: str,
    find: Callable[..., tuple[Finding, ...]],
    families: tuple[str, ...] = ("materials", "safety"),
) -> list[tuple[str, int, str]]:
    found = find(
        f"---\ntitle: Passage\n{text}",
        only=[c.name for c in CHECKS.values() if not families or c.family in families],
        settings=row.get("settings", RULES),
        files={"chemicals.yaml": row["store"]} if "store" in row else {},
    )
    return [(f.check, f.place.line, f.fault.message) for f in found]


def without_marks(row: dict[str, Any]) -> tuple[str, int]:
    """The text without its « and », and the line that they are on."""
    marked = f"---\ntitle: Passage\n{row['text']}".splitlines()
    line = next(n for n, words in enumerate(marked, 1) if "«" in words)
    return row["text"].replace("«", "").replace("»", ""), line


@pytest.mark.parametrize("row", MISTAKES, ids=lambda r: r["name"])
def test_a_mistake_is_found_at_its_line(
    row: dict[str, Any], find: Callable[..., tuple[Finding, ...]]
) -> None:
    text, line = without_marks(row)
    found = found_in(row, text, find)
    assert [(check, at) for check, at, _ in found] == [(row["check"], line)], found


@pytest.mark.parametrize("row", PRACTICALS_MISTAKEN, ids=lambda r: r["name"])
def test_a_mistake_in_a_practical_is_found_at_its_line(
    row: dict[str, Any], find: Callable[..., tuple[Finding, ...]]
) -> None:
    text, line = without_marks(row)
    found = found_in(row, text, find, families=())
    assert [(check, at) for check, at, _ in found] == [(row["check"], line)], found


@pytest.mark.parametrize("row", SOUND, ids=lambda r: r["name"])
def test_a_sound_passage_is_left_alone(
    row: dict[str, Any], find: Callable[..., tuple[Finding, ...]]
) -> None:
    assert found_in(row, row["text"], find) == []


@pytest.mark.parametrize("row", PRACTICALS_SOUND, ids=lambda r: r["name"])
def test_a_sound_practical_is_left_alone(
    row: dict[str, Any], find: Callable[..., tuple[Finding, ...]]
) -> None:
    assert found_in(row, row["text"], find, families=()) == []


@pytest.mark.parametrize(
    "row", FALSE_ALARMS, ids=lambda r: f"{r['check']}: {r['name']}"
)
def test_what_a_department_would_not_forgive_is_not_found_fault_with(
    row: dict[str, Any], find: Callable[..., tuple[Finding, ...]]
) -> None:
    assert found_in(row, row["text"], find, families=()) == []


def test_every_row_of_the_list_of_false_alarms_has_two_passages() -> None:
    for check, row in ROWS.items():
        passages = [p for p in FALSE_ALARMS if (p["check"], p["row"]) == (check, row)]
        assert len(passages) >= 2, check
    assert {p["check"] for p in FALSE_ALARMS} == set(ROWS)


def test_there_are_forty_of_each() -> None:
    assert len(MISTAKES) >= 40
    assert len(SOUND) >= 40
    assert len(PRACTICALS_MISTAKEN) >= 30
    assert len(PRACTICALS_SOUND) >= 40
