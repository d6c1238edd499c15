"""Lets two folders change places in one step.

Linux and macOS can exchange two names at once, so that whoever looks sees the
one or the other. Elsewhere it takes two renames, and a process that dies
between them leaves the old folder under its other name: `recover` puts it back.
"""

import ctypes
import errno
import os
import sys
from pathlib import Path

_AT_FDCWD = -100  # relative to the working directory, linux/fcntl.h
_RENAME_EXCHANGE = 2  # linux/fs.h
_RENAME_SWAP = 2  # sys/stdio.h of macOS

# The file system, or the kernel, knows no exchange.
_UNKNOWN = (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP)


def exchange(new: Path, old: Path, spare: Path) -> None:
    """Put `new` in the place of `old`, which ends up as `spare`.

    `old` need not exist, `spare` must not. Raises OSError.
    """
    if not old.exists():
        new.rename(old)
    elif _swap(new, old):
        new.rename(spare)
    else:
        old.rename(spare)
        new.rename(old)


def recover(old: Path, spare: Path) -> None:
    """Put a folder back that an interrupted exchange left under its other name."""
    if spare.exists() and not old.exists():
        spare.rename(old)


def _swap(one: Path, other: Path) -> bool:
    """Exchange two names at once; False where that is not possible."""
    if sys.platform not in ("linux", "darwin"):
        return False
    library = ctypes.CDLL(None, use_errno=True)
    names = os.fsencode(one), os.fsencode(other)
    if hasattr(library, "renameat2"):
        failed = library.renameat2(
            _AT_FDCWD, names[0], _AT_FDCWD, names[1], _RENAME_EXCHANGE
        )
    elif hasattr(library, "renamex_np"):
        failed = library.renamex_np(*names, _RENAME_SWAP)
    else:
        return False
    if failed and ctypes.get_errno() not in _UNKNOWN:
        number = ctypes.get_errno()
        raise OSError(number, os.strerror(number), str(other))
    return not failed
