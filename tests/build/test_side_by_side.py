"""Work on several cores gives what one core gives, whatever befalls a worker."""

from __future__ import annotations

import contextlib
import datetime
import multiprocessing
import os
import signal
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from manualgen.build.side_by_side import side_by_side
from manualgen.build.site import BuildOptions, build_manual
from manualgen.build.stages import Asked, check, read_and_check, read_and_work
from manualgen.model.experiment import Section
from manualgen.working.worked import Worked

TODAY = datetime.date(2026, 9, 1)
CONTENT = Path(__file__).parents[2] / "content"
TASKS = range(40)


def test_results_come_in_the_order_of_the_tasks() -> None:
    def slow_at_first(n: int) -> tuple[int, int]:
        time.sleep(0.02 if n % 3 == 1 else 0)
        return n, n * n

    with side_by_side(slow_at_first, TASKS, jobs=3) as results:
        assert list(results) == [(n, n * n) for n in TASKS]


def test_the_work_is_done_by_several_processes_and_they_end() -> None:
    with side_by_side(lambda _: os.getpid(), TASKS, jobs=2) as results:
        assert len(set(results) - {os.getpid()}) >= 2
    assert not multiprocessing.active_children()


def test_a_handful_of_tasks_is_done_without_workers() -> None:
    with side_by_side(lambda _: os.getpid(), range(5), jobs=2) as results:
        assert set(results) == {os.getpid()}


def test_what_a_dead_worker_has_not_done_is_done_here() -> None:
    me = os.getpid()

    def dies_at_seven(n: int) -> int:
        if n == 7 and os.getpid() != me:
            os.kill(os.getpid(), signal.SIGKILL)
        return n

    with side_by_side(dies_at_seven, TASKS, jobs=2) as results:
        assert list(results) == list(TASKS)


def test_a_fault_in_a_worker_is_raised_here() -> None:
    def fails(n: int) -> int:
        if n == 20:
            raise KeyError(n)
        return n

    with (
        pytest.raises(KeyError, match="20"),
        side_by_side(fails, TASKS, jobs=2) as results,
    ):
        list(results)
    assert not multiprocessing.active_children()


def test_a_caller_who_gives_up_waits_for_nobody() -> None:
    began = time.monotonic()
    with (
        contextlib.suppress(KeyboardInterrupt),
        side_by_side(lambda n: time.sleep(n and 30), TASKS, jobs=2),
    ):
        raise KeyboardInterrupt
    assert time.monotonic() - began < 10
    assert not multiprocessing.active_children()


ENDLESS = """
import os, time
from manualgen.build.side_by_side import side_by_side

def tell(n):
    if n:
        os.write(1, b"%d\\n" % os.getpid())
        time.sleep(0.05)
    return b"x" * 1000

with side_by_side(tell, range(2000), jobs=2) as results:
    for _ in results:
        pass
"""


def test_workers_do_not_outlive_a_parent_that_is_killed() -> None:
    parent = subprocess.Popen(
        [sys.executable, "-c", ENDLESS], stdout=subprocess.PIPE, text=True
    )
    assert parent.stdout is not None
    with parent.stdout as told:
        workers = {int(told.readline()) for _ in range(20)}
        assert len(workers) == 2
        parent.kill()
        parent.wait()
        # The pipe ends when nobody is left who could write to it.
        with ThreadPoolExecutor(1) as reader:
            reader.submit(told.read).result(timeout=10)


def test_findings_are_the_same_on_one_core_and_on_several() -> None:
    worked = read_and_work(CONTENT, None, TODAY)
    alone = check(worked)
    for whole in (True, False):
        together = read_and_check(CONTENT, Asked(None, TODAY, jobs=2, whole=whole))
        assert together.findings == alone
        assert together.worked.lines == worked.lines
        assert _sections(together.worked) == _sections(worked)


def _sections(worked: Worked) -> list[tuple[Section, ...]]:
    return [w.experiment.sections for w in worked.experiments]


def test_pages_are_the_same_from_one_core_and_from_several(tmp_path: Path) -> None:
    worked = read_and_work(CONTENT, None, TODAY)
    for jobs in (1, 2):
        options = BuildOptions(pdf=False, jobs=jobs)
        build_manual(CONTENT, worked, tmp_path / str(jobs), options)
    files = [
        {p.relative_to(site): p.read_bytes() for p in site.rglob("*") if p.is_file()}
        for site in (tmp_path / "1", tmp_path / "2")
    ]
    assert files[0] == files[1]
    assert len(files[0]) > 2 * len(worked.experiments)
