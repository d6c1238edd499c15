"""Browsers that are killed while they print: once is mended, again is told."""

from __future__ import annotations

import os
import signal
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from tests.faults.building import NAMES, PRINTED, Works

pytestmark = pytest.mark.browser
PATIENCE = 120.0


def browsers_of(build: int) -> list[int]:
    """The browsers that a build has started, without their own processes."""
    return [
        process
        for process in descendants(build)
        if b"--remote-debugging-pipe" in (words := command(process))
        and b"--type=" not in words
    ]


def descendants(process: int) -> Iterator[int]:
    above: dict[int, int] = {}
    for status in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            facts = status.read_text(errors="replace").rpartition(")")[2].split()
            above[int(status.parent.name)] = int(facts[1])
    family = {process}
    while (
        grown := {child for child, parent in above.items() if parent in family} - family
    ):
        family |= grown
        yield from grown


def command(process: int) -> bytes:
    try:
        return Path(f"/proc/{process}/cmdline").read_bytes()
    except OSError:
        return b""


def kill(process: int) -> bool:
    try:
        os.kill(process, signal.SIGKILL)
    except ProcessLookupError:
        return False
    return True


def killing(works: Works, is_time: Callable[[set[int]], bool]) -> tuple[int, str, int]:
    """A build whose browsers are killed when it is time: status, words, how many."""
    building = works.begin(*PRINTED)
    killed, end = set[int](), time.monotonic() + PATIENCE
    while building.poll() is None:
        assert time.monotonic() < end
        for browser in browsers_of(building.pid):
            if browser not in killed and is_time(killed) and kill(browser):
                killed.add(browser)
        time.sleep(0.02)
    said, _ = building.communicate()
    assert "Traceback" not in said, said
    return building.returncode, said, len(killed)


def test_a_browser_that_is_killed_while_it_prints_is_replaced(works: Works) -> None:
    made = works.site.parent / ".site.manualgen" / "new"

    def once(killed: set[int]) -> bool:
        return not killed and any(made.glob("*/pdf/*.pdf"))

    status, said, killed = killing(works, once)
    assert (status, killed) == (0, 1), said
    assert works.version() == 0


def test_browsers_that_are_killed_twice_end_the_build_and_the_last_site_stays(
    works: Works,
) -> None:
    assert works.build(*PRINTED)[0] == 0
    works.write(1)
    status, said, killed = killing(works, lambda _: True)
    assert status == 3, said
    assert killed >= 2
    assert "failed twice" in said
    assert any(f"manualgen: {name} (student edition)" in said for name in NAMES), said
    assert works.version() == 0


def test_no_browser_is_left_when_a_build_is_killed(works: Works) -> None:
    building = works.begin(*PRINTED)
    end = time.monotonic() + PATIENCE
    while not (started := browsers_of(building.pid)):
        assert time.monotonic() < end
        time.sleep(0.01)
    building.send_signal(signal.SIGKILL)
    building.communicate()
    while any(b"--remote-debugging-pipe" in command(process) for process in started):
        assert time.monotonic() < end
        time.sleep(0.05)


def test_two_builds_at_once_take_turns(works: Works) -> None:
    builds: list[subprocess.Popen[str]] = [works.begin("--no-pdf") for _ in range(3)]
    said = [build.communicate()[0] for build in builds]
    assert [build.returncode for build in builds] == [0, 0, 0], said
    assert not [words for words in said if "Traceback" in words]
    assert works.version() == 0
    assert works.litter() == []
