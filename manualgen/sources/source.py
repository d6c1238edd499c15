"""What reading asks of a source, and the rules that hold for every one.

Paths are relative to the content folder and parted by forward slashes, on
every system. No path leads out of the folder, no hidden file is read, and no
file is read past its limit, so that nothing an author writes can reach what is
not part of the manual or fill the memory.
"""

from __future__ import annotations

import posixpath
from typing import Protocol

TEXT_LIMIT = 1_000_000
"""Bytes that a text file may have, unless a smaller limit is named."""


class SourceError(Exception):
    """A file that cannot be had; the message says why, without the path."""

    def __init__(self, message: str, *, missing: bool = False) -> None:
        super().__init__(message)
        self.message = message
        self.missing = missing
        """Whether there simply is no such file."""


class Source(Protocol):
    """A content folder, wherever it lies."""

    @property
    def name(self) -> str:
        """The folder as the author would name it: ``content``."""

    def files(self) -> tuple[str, ...]:
        """Every file that is not hidden, by path, sorted."""

    def read(self, path: str, limit: int = TEXT_LIMIT) -> bytes:
        """The bytes of a file of at most ``limit`` bytes; raises `SourceError`."""

    def exists(self, path: str) -> bool:
        """Whether there is such a file, inside the folder and not hidden."""


def resolved(base: str, path: str) -> str | None:
    """``path`` as seen from the file ``base``, or None where it leads out.

    >>> resolved("acids/vinegar.md", "../images/burette.png")
    'images/burette.png'
    >>> resolved("acids/vinegar.md", "../../secret.png") is None
    True
    """
    if "\\" in path or "\0" in path or path.startswith("/"):
        return None
    joined = posixpath.normpath(posixpath.join(posixpath.dirname(base), path))
    return None if joined == ".." or joined.startswith("../") else joined


def check_path(path: str) -> None:
    """Raise `SourceError` for a path that leads out of the folder or is hidden."""
    if resolved("", path) != path:
        raise SourceError("leads out of the content folder")
    if is_hidden(path):
        raise SourceError("is a hidden file")


def is_hidden(path: str) -> bool:
    """Whether a file or a folder on the way to it begins with a dot."""
    return any(part.startswith(".") for part in path.split("/"))


def too_large(size: int, limit: int) -> SourceError:
    """The complaint about a file that is larger than its limit."""
    return SourceError(f"has {_size(size)}, more than the {_size(limit)} that are read")


def _size(bytes_: int) -> str:
    return f"{bytes_ / 1e6:.1f} MB" if bytes_ >= 1e6 else f"{bytes_ / 1e3:.0f} kB"
