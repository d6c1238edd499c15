"""Textbook problems, worked out as an author would write them."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from manualgen.model.fences import Computed
from manualgen.working.worked import Worked

DATA = Path(__file__).with_name("amounts.yaml")


@cache
def problems() -> list[dict[str, Any]]:
    rows = yaml.load(DATA.read_text("utf-8"), yaml.BaseLoader)["problems"]
    return list(rows)


def last_line(problem: dict[str, Any], work_out: Callable[..., Worked]) -> Any:
    lines = "\n".join(problem["lines"])
    text = f"## Method\n\n1. Look.\n\n## Calculation\n\n```calculation\n{lines}\n```\n"
    worked = work_out(f"---\ntitle: Problem\n---\n\n{text}")
    numbers = worked.experiments[0].numbers
    assert numbers.noted == ()
    return numbers.calculations[0].lines[-1]


@pytest.mark.parametrize("problem", problems(), ids=lambda p: p["id"])
def test_a_problem_has_its_published_answer(
    problem: dict[str, Any], work_out: Callable[..., Worked]
) -> None:
    line = last_line(problem, work_out)
    assert isinstance(line.line, Computed)
    number = float(line.value.in_unit(line.unit))
    assert number == pytest.approx(
        float(problem["value"]), abs=float(problem["within"])
    )
    if "text" in problem:
        assert str(line.stated.value) == problem["text"]
