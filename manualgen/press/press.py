"""Prints documents on several browsers at once.

The work is Chromium's, in Chromium's own processes. Ours is to keep every
browser busy, so one event loop in a thread drives them all and callers hold
ordinary futures: they go on rendering while the browsers print. No browser
starts, and neither Playwright nor pikepdf is imported, before there is something
to print that the cache does not have.
"""

import asyncio
import os
import threading
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import replace
from datetime import datetime
from functools import partial
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

from manualgen.press.cache import PrintCache
from manualgen.press.chromium import find_chromium
from manualgen.press.circumstances import circumstances
from manualgen.press.errors import PressError
from manualgen.press.jobs import Finished, Job, Print

if TYPE_CHECKING:
    from manualgen.press.worker import Proof


WORTH_A_BROWSER = 8
"""Documents that are printed while a further browser starts."""

_Order = tuple[Job, Future[Print]]


class Press:
    """Open presses: `with Press(root, when) as press: press.submit(job).result()`.

    `root` holds every file that a document may load, `when` is the date that
    the PDFs bear. `browsers` is how many run side by side, the number of cores
    if left out; `cache` a folder that keeps prints. Raises BrowserNotFoundError.
    """

    def __init__(
        self,
        root: Path,
        when: datetime,
        *,
        browsers: int | None = None,
        cache: Path | None = None,
    ) -> None:
        self._root = root
        self._when = when
        self._limit = browsers or os.cpu_count() or 1
        self._executable = find_chromium()
        facts = circumstances(self._executable, when)
        self._cache = PrintCache(cache, root, facts) if cache else None

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
        asyncio.run_coroutine_threadsafe(self._close(error), self._loop).result()
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()

    def submit(self, job: Job) -> Future[Print]:
        """Queue a job; the future gives its Print, or raises PressError."""
        future: Future[Print] = Future()
        kept = self._cache.find(job.html) if self._cache else None
        if kept is None:
            self._loop.call_soon_threadsafe(self._enqueue, (job, future))
        else:
            _settle(future, lambda: _written(job, kept))
        return future

    def _enqueue(self, order: _Order) -> None:
        self._orders.put_nowait(order)
        waiting, workers = self._orders.qsize() - self._idle, len(self._workers)
        if waiting > WORTH_A_BROWSER * workers and workers < self._limit:
            self._workers.append(self._loop.create_task(self._work()))

    async def _work(self) -> None:
        """Print what is ordered; each print is finished while the next one runs."""
        from manualgen.press.worker import Worker

        worker = Worker(self._executable, self._root)
        finishing: asyncio.Future[None] = self._loop.create_future()
        finishing.set_result(None)
        while (order := await self._next_order()) is not None:
            job, future = order
            if not future.set_running_or_notify_cancel():
                continue
            try:
                proof = await worker.print_html(job.name, job.html)
            except Exception as error:  # the caller's, through the future
                future.set_exception(error)
                continue
            await finishing
            finishing = self._loop.run_in_executor(
                None, _settle, future, partial(self._finish, job, proof)
            )
        await finishing
        await worker.close()

    def _finish(self, job: Job, proof: "Proof") -> Print:
        from manualgen.press.normalise import normalise

        document = proof.document
        finished = normalise(document.pdf, job.html.stem, self._root, self._when)
        if self._cache and proof.scale == 1 and not document.refused:
            self._cache.keep(job.html, document.loaded, finished)
        return replace(
            _written(job, finished),
            scale=proof.scale,
            wide=proof.wide,
            refused=document.refused,
        )

    async def _next_order(self) -> _Order | None:
        self._idle += 1
        try:
            return await self._orders.get()
        finally:
            self._idle -= 1

    async def _close(self, error: BaseException | None) -> None:
        """Let the workers finish, or after an error drop what is not begun."""
        while error is not None and not self._orders.empty():
            order = self._orders.get_nowait()
            if order is not None:
                order[1].cancel()
        for _ in self._workers:
            self._orders.put_nowait(None)
        await asyncio.gather(*self._workers)


def _written(job: Job, finished: Finished) -> Print:
    try:
        job.pdf.write_bytes(finished.pdf)
    except OSError as error:
        raise PressError(
            f"cannot write {job.pdf}: {error.strerror}", job.name
        ) from error
    return Print(job, finished.places)


def _settle(future: Future[Print], finish: Callable[[], Print]) -> None:
    """Finish a print; what goes wrong is the caller's, through the future."""
    try:
        future.set_result(finish())
    except Exception as error:
        future.set_exception(error)
