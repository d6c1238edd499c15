"""Whether any file of a folder has been saved."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import TypeAlias

State: TypeAlias = Mapping[str, tuple[int, int]]
"""Each file's time of change in ns and its size, by path."""


def state_of(folder: Path) -> State:
    """The state of every file that is not hidden; a file that vanishes is left out."""
    found: dict[str, tuple[int, int]] = {}
    for where, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        for name in files:
            if name.startswith("."):
                continue
            path = Path(where) / name
            try:
                status = path.stat()
            except OSError:
                continue
            found[str(path)] = (status.st_mtime_ns, status.st_size)
    return found
