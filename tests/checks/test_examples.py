"""Every check is proven by the example that `manualgen explain` shows."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from manualgen.checks import CHECKS
from manualgen.checks.examples import Example, examples, whole_source
from manualgen.model.finding import Finding


def test_every_check_has_an_example_and_a_rule() -> None:
    assert set(examples()) == set(CHECKS)
    assert [c.name for c in CHECKS.values() if not c.rule.strip()] == []


@pytest.mark.parametrize("name", sorted(CHECKS))
def test_what_falls_short_is_found(
    name: str, find: Callable[..., tuple[Finding, ...]]
) -> None:
    assert _findings(examples()[name], "falls_short", find)


@pytest.mark.parametrize("name", sorted(CHECKS))
def test_what_is_mended_is_silent(
    name: str, find: Callable[..., tuple[Finding, ...]]
) -> None:
    assert _findings(examples()[name], "mended", find) == []


def _findings(
    example: Example, side: str, find: Callable[..., tuple[Finding, ...]]
) -> list[str]:
    files = {"chemicals.yaml": example.chemicals} if example.chemicals else {}
    found = find(
        whole_source(getattr(example, side)), settings=example.manual, files=files
    )
    return [f.fault.message for f in found if f.check == example.check]
