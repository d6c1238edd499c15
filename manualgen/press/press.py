"""Prints documents on several browsers at once.

The work is Chromium's, in Chromium's own processes. Ours is to keep every
browser busy, so one event loop in a thread drives them all and callers hold
ordinary futures: they go on rendering while the browsers print. No browser
starts before there is something to print.
"""

import asyncio
import os
import threading
from concurrent.futures import Future
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Self

from manualgen.press.chromium import find_chromium
from manualgen.press.worker import Worker


@dataclass(frozen=True, slots=True)
class Job:
    """A document to print: what to call it, where it is, where its PDF goes."""

    name: str
    html: Path
    pdf: Path


@dataclass(frozen=True, slots=True)
class Print:
    """A finished job, with the addresses it asked for and was refused."""

    job: Job
    refused: tuple[str, ...]


_Order = tuple[Job, Future[Print]]


class Press:
    """Open presses: `with Press(root) as press: press.submit(job).result()`.

    `root` holds every file that a document may load. `browsers` is how many run
    side by side, the number of cores if left out. Entering raises
    BrowserNotFoundError where there is none.
    """

    def __init__(self, root: Path, *, browsers: int | None = None) -> None:
        self._root = root
        self._limit = browsers or os.cpu_count() or 1
        self._executable = find_chromium()

    def __enter__(self) -> Self:
        self._loop = asyncio.new_event_loop()
        self._orders: asyncio.Queue[_Order | None] = asyncio.Queue()
        self._workers: list[asyncio.Task[None]] = []
        self._idle = 0
        self._thread = threading.Thread(target=self._loop.run_forever, name="press")
        self._thread.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        asyncio.run_coroutine_threadsafe(self._finish(error), self._loop).result()
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()

    def submit(self, job: Job) -> Future[Print]:
        """Queue a job; the future gives its Print, or raises PressError."""
        future: Future[Print] = Future()
        self._loop.call_soon_threadsafe(self._enqueue, (job, future))
        return future

    def _enqueue(self, order: _Order) -> None:
        self._orders.put_nowait(order)
        if self._orders.qsize() > self._idle and len(self._workers) < self._limit:
            self._workers.append(self._loop.create_task(self._work()))

    async def _work(self) -> None:
        worker = Worker(self._executable, self._root)
        while (order := await self._next_order()) is not None:
            job, future = order
            if not future.set_running_or_notify_cancel():
                continue
            try:
                document = await worker.print_html(job.name, job.html)
                job.pdf.write_bytes(document.pdf)
                future.set_result(Print(job, document.refused))
            except Exception as error:  # it is the caller's, through the future
                future.set_exception(error)
        await worker.close()

    async def _next_order(self) -> _Order | None:
        self._idle += 1
        try:
            return await self._orders.get()
        finally:
            self._idle -= 1

    async def _finish(self, error: BaseException | None) -> None:
        """Let the workers finish, or after an error drop what is not begun."""
        while error is not None and not self._orders.empty():
            order = self._orders.get_nowait()
            if order is not None:
                order[1].cancel()
        for _ in self._workers:
            self._orders.put_nowait(None)
        await asyncio.gather(*self._workers)
