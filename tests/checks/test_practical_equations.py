"""The equations that practicals are full of: silent when right, one finding when wrong.

The table practical_equations.yaml says of each slip which check finds it and
what is to be written instead.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from manualgen.checks import CHECKS
from manualgen.model.finding import Finding

ROWS = yaml.load(
    Path(__file__).with_name("practical_equations.yaml").read_text(encoding="utf-8"),
    Loader=yaml.CBaseLoader,
)
FAMILIES = ("chemistry", "substances")
WRONG = [(row, slip) for row in ROWS for slip in row["wrong"]]


def _found(
    find: Callable[..., tuple[Finding, ...]], row: dict[str, str], equation: str
) -> list[tuple[str, str]]:
    """The findings about one equation, as check and mend."""
    fence = f"```equation {row.get('fence', '')}\n{equation}\n```\n"
    text = (
        "---\ntitle: Test\n---\n\n## Theory\n\n"
        f"{row.get('before', '')}\n{fence}\n## Method\n\n1. Look.\n"
    )
    names = [name for name, check in CHECKS.items() if check.family in FAMILIES]
    return [(f.check, f.fault.mend or "") for f in find(text, only=names)]


@pytest.mark.parametrize("row", ROWS, ids=[row["kind"] for row in ROWS])
def test_a_right_equation_is_silent(
    row: dict[str, str], find: Callable[..., tuple[Finding, ...]]
) -> None:
    assert _found(find, row, row["right"]) == []


@pytest.mark.parametrize(("row", "slip"), WRONG, ids=[slip["as"] for _, slip in WRONG])
def test_a_wrong_equation_has_the_one_finding_and_its_mend(
    row: dict[str, str],
    slip: dict[str, str],
    find: Callable[..., tuple[Finding, ...]],
) -> None:
    assert _found(find, row, slip["as"]) == [(slip["check"], slip["mend"])]
