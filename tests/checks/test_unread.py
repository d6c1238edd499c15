"""What cannot be read is told once, without a wall of what follows from it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from manualgen.checks.run import run_checks
from manualgen.working.worked import Worked

LISTED = "chemicals:\n{indent}- cyclohexane, 5 cm3\napparatus:\n  - beaker, 100 cm3\n"
METHOD = "## Method\n\n1. Pour `2 cm3` of the cyclohexane into the beaker.\n\n"
REST = "## Disposal\n\nCollect the cyclohexane in the bottle for solvents.\n"


@pytest.mark.parametrize(
    ("front", "body"),
    [
        pytest.param(LISTED.format(indent="\t"), METHOD + REST, id="a tab in the list"),
        pytest.param(
            LISTED.format(indent="  "),
            METHOD + "```equation\nC6H12 -> C6H12\n\n" + REST,
            id="a fence that is never closed",
        ),
    ],
)
def test_what_is_not_read_is_not_called_missing(
    work_out: Callable[..., Worked], front: str, body: str
) -> None:
    found = run_checks(work_out(f"---\ntitle: T\n{front}---\n\n{body}"))
    told = {finding.check for finding in found}
    assert "source-syntax" in told
    assert not {name for name in told if name.endswith(("-listed", "-used"))}
    assert not told & {"disposal-missing", "control-missing"}
