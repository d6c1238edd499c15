"""The equations that practicals are full of, right and once wrong.

Common practice, no source. A right one is silent in every check of chemistry; a
wrong one gives just the finding named, with what should stand there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from manualgen.checks import CHECKS
from manualgen.model.finding import Finding

HERE = Path(__file__).parent
FAMILIES = ("chemistry", "substances")


def rows(name: str) -> list[str]:
    text = (HERE / name).read_text("utf-8")
    return [r for r in text.splitlines() if r and not r.startswith("#")]


def slips() -> Iterator[tuple[str, str, str]]:
    for row in rows("equations-once-wrong.txt"):
        equation, check, mend = row.split(" | ")
        yield equation, check, mend


def findings(
    equations: list[str], find: Callable[..., tuple[Finding, ...]]
) -> tuple[Finding, ...]:
    blocks = "".join(f"```equation{_words(e)}\n{e}\n```\n\n" for e in equations)
    text = f"---\ntitle: Example\n---\n\n## Theory\n\n{blocks}## Method\n\n1. Look.\n"
    only = [c.name for c in CHECKS.values() if c.family in FAMILIES]
    return find(text, only=only)


def _words(equation: str) -> str:
    return " half" if "e^-" in equation else ""


def test_right_equations_give_no_finding(
    find: Callable[..., tuple[Finding, ...]],
) -> None:
    found = findings(rows("equations-right.txt"), find)
    assert [(f.check, f.fault.message) for f in found] == []


@pytest.mark.parametrize(("equation", "check", "mend"), list(slips()))
def test_a_slip_gives_its_finding_and_mend(
    equation: str, check: str, mend: str, find: Callable[..., tuple[Finding, ...]]
) -> None:
    found = findings([equation], find)
    assert [(f.check, f.fault.mend) for f in found] == [(check, mend)]
