"""A build that is killed at any moment leaves the last whole site, and no litter.

Three moments of each kind are tried here; ``MANUALGEN_KILLS=50`` tries fifty of
each, which takes some minutes, and ``MANUALGEN_KILL_SEED`` tries other ones.
"""

from __future__ import annotations

import os
import random
import signal
import time

import pytest

from tests.faults.building import PRINTED, Works

KILLS = int(os.environ.get("MANUALGEN_KILLS", "3"))
SEED = int(os.environ.get("MANUALGEN_KILL_SEED", "9"))


@pytest.mark.parametrize(
    "words",
    [("--no-pdf",), pytest.param(PRINTED, marks=pytest.mark.browser)],
    ids=["pages", "prints"],
)
def test_a_kill_at_any_moment_leaves_a_whole_site(
    words: tuple[str, ...], works: Works
) -> None:
    chance = random.Random(SEED)
    began = time.monotonic()
    status, said = works.build(*words)
    assert status == 0, said
    took = time.monotonic() - began
    shown = 0
    for version in range(1, KILLS + 1):
        works.write(version)
        moment = chance.uniform(0, 1) * took
        building = works.begin(*words)
        time.sleep(moment)
        building.send_signal(signal.SIGKILL)
        building.communicate()
        found = works.version()
        assert found in (shown, version), f"seed {SEED}, moment {moment:.3f} s"
        shown = found
    status, said = works.build(*words)
    assert (status, works.version()) == (0, KILLS), said
    assert works.litter() == []
