"""A check's cases: experiments, with exactly the findings that they should give.

``cases/CHECK/NAME.md`` is an experiment, and ``NAME.txt`` beside it has a line
for each finding of that check, ``LINE:COLUMN: MESSAGE``, followed by
``=> MEND`` where there is one.  An empty ``NAME.txt`` says that the experiment
is sound.  ``manual.yaml`` lines may stand in ``NAME.settings.yaml``, the store
in ``NAME.chemicals.yaml``.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from manualgen.checks import CHECKS
from manualgen.model.finding import Finding

CASES = Path(__file__).parent / "cases"
SOURCES = sorted(CASES.glob("*/*.md"))


def test_every_folder_of_cases_is_named_for_a_check() -> None:
    assert {path.parent.name for path in SOURCES} <= set(CHECKS)


@pytest.mark.parametrize(
    "source", SOURCES, ids=[f"{p.parent.name}/{p.stem}" for p in SOURCES]
)
def test_a_case_gives_exactly_its_findings(
    source: Path, find: Callable[..., tuple[Finding, ...]]
) -> None:
    settings = source.with_suffix(".settings.yaml")
    store = source.with_suffix(".chemicals.yaml")
    found = find(
        source.read_text("utf-8"),
        only=[source.parent.name],
        settings=settings.read_text("utf-8") if settings.exists() else "",
        files={"chemicals.yaml": store.read_text("utf-8")} if store.exists() else {},
    )
    expected = source.with_suffix(".txt").read_text("utf-8").splitlines()
    assert [_line(f) for f in found] == expected


def _line(finding: Finding) -> str:
    place, fault = finding.place, finding.fault
    mend = f" => {fault.mend}" if fault.mend else ""
    return f"{place.line}:{place.column}: {fault.message}{mend}"
