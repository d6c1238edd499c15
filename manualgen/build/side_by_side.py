"""Work on several cores at once, its results in the order of the tasks.

Each worker is forked with everything that was read so far in its memory, so
nothing is sent to it; it does every n-th task and sends each result down a pipe
of its own.  A pipe holds little, so a worker that is ahead waits, and results
never pile up.  A worker that dies, for whatever reason, costs time only: what
it has not sent is done here, where a fault is met in the ordinary way.  Where
there is no fork that can be trusted, everything is done here.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from itertools import chain
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Generic, NoReturn, TypeVar

T = TypeVar("T")
R = TypeVar("R")

WORTH_WHILE = 12
"""Tasks below which a worker would hardly have begun before all is done."""

AT_A_TIME = 10
"""Tasks that one child of a worker does."""


def cores() -> int:
    """How many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@contextmanager
def side_by_side(
    do: Callable[[T], R],
    tasks: Sequence[T],
    jobs: int | None = None,
    *,
    long: bool = False,
) -> Iterator[Iterator[R]]:
    """Begin to do the tasks, on all cores unless ``jobs`` says how many.

    Gives the results in order.  The workers are started at once, so a caller
    may start threads afterwards; they are gone when the block ends.  Tasks that
    are ``long`` are worth a worker each, few as they may be.
    """
    jobs = min(jobs or cores(), len(tasks))
    if jobs < 2 or sys.platform != "linux" or not (long or len(tasks) >= WORTH_WHILE):
        yield map(do, tasks)
        return
    # Unless it would take long, so that the workers find every table in memory.
    done_here = [] if long else [do(tasks[0])]
    crew = _Crew(do, tasks[len(done_here) :], jobs)
    try:
        yield chain(done_here, crew.results())
    finally:
        crew.dismiss()


class _Crew(Generic[T, R]):
    """The workers; worker ``n`` of ``k`` has the tasks ``n``, ``n + k`` and so on."""

    def __init__(self, do: Callable[[T], R], tasks: Sequence[T], jobs: int) -> None:
        self._do = do
        self._tasks = tasks
        self._pipes: list[Connection] = []
        self._workers: list[BaseProcess] = []
        # A collector, here or there, would else touch, and so copy, all there is.
        gc.freeze()
        for n in range(jobs):
            self._start(tasks[n::jobs])

    def _start(self, share: Sequence[T]) -> None:
        context = multiprocessing.get_context("fork")
        mine, theirs = context.Pipe(duplex=False)
        others = (*self._pipes, mine)
        worker = context.Process(
            target=_work, args=(self._do, share, theirs, others), daemon=True
        )
        worker.start()
        theirs.close()
        self._pipes.append(mine)
        self._workers.append(worker)

    def results(self) -> Iterator[R]:
        """Every result, in the order of the tasks."""
        for n, task in enumerate(self._tasks):
            try:
                result: R = self._pipes[n % len(self._pipes)].recv()
            except (EOFError, OSError):
                result = self._do(task)
            yield result

    def dismiss(self) -> None:
        """End the workers, whatever they are at."""
        gc.unfreeze()
        for pipe in self._pipes:
            pipe.close()
        for worker in self._workers:
            worker.terminate()
        for worker in self._workers:
            worker.join()
            worker.close()


def _work(
    do: Callable[[T], R],
    share: Sequence[T],
    results: Connection,
    others: Sequence[Connection],
) -> None:
    """Have a share done, some tasks at a time, each time by a fresh child.

    Whatever a process looks at, it copies, down to the count of who holds it;
    so one that did its whole share would end up with a manual of its own.
    Ctrl-C is for the parent, which dismisses its workers.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for pipe in others:
        pipe.close()  # so that each worker notices when the parent is gone
    for first in range(0, len(share), AT_A_TIME):
        child = os.fork()
        if not child:
            _do_some(do, share[first : first + AT_A_TIME], results)
        _end_with(child)
        _, status = os.waitpid(child, 0)
        if status:
            os._exit(1)


def _do_some(do: Callable[[T], R], tasks: Sequence[T], results: Connection) -> NoReturn:
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    try:
        for task in tasks:
            results.send(do(task))
    except BaseException:
        os._exit(1)  # the parent does the task again, and meets the fault itself
    os._exit(0)


def _end_with(child: int) -> None:
    """Let whoever ends this worker end its child as well."""

    def end(_signal: int, _frame: object) -> None:
        with suppress(ProcessLookupError):
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
        os._exit(1)

    signal.signal(signal.SIGTERM, end)
