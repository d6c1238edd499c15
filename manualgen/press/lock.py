"""A lock that one process holds and that its death releases."""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from time import sleep

if sys.platform == "win32":
    import msvcrt

    def _try_lock(handle: int) -> bool:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _try_lock(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True


_PAUSE_SECONDS = 0.2


@contextmanager
def hold(lock: Path, waiting: Callable[[], None]) -> Iterator[None]:
    """Hold the lock; while another process does, call `waiting` once and wait.

    The file may be removed by whoever holds it. Raises OSError where it cannot
    be made.
    """
    handle = _acquire(lock)
    if handle is None:
        waiting()
    while handle is None:
        sleep(_PAUSE_SECONDS)
        handle = _acquire(lock)
    try:
        yield
    finally:
        os.close(handle)


def _acquire(lock: Path) -> int | None:
    lock.parent.mkdir(parents=True, exist_ok=True)
    try:
        handle = os.open(lock, os.O_RDWR | os.O_CREAT)
    except FileNotFoundError:
        return None  # its folder was removed this moment
    if _try_lock(handle) and _is_still(lock, handle):
        return handle
    os.close(handle)
    return None


def _is_still(lock: Path, handle: int) -> bool:
    """Whether the name still means the file that was opened and locked."""
    try:
        return os.path.samestat(lock.stat(), os.fstat(handle))
    except OSError:
        return False
