"""A content folder on disk."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

from manualgen.sources.source import (
    TEXT_LIMIT,
    SourceError,
    check_path,
    is_hidden,
    too_large,
)


class Folder:
    """The content folder at ``path``.

    Links to folders are not followed when files are listed, so that a loop
    ends; a link to a file is read only where it leads inside the folder.
    """

    def __init__(self, path: Path, name: str | None = None) -> None:
        self._path = path
        self._name = name if name is not None else path.as_posix().rstrip("/")

    @property
    def name(self) -> str:
        """The folder as it was given."""
        return self._name

    def files(self) -> tuple[str, ...]:
        """Every file that is not hidden, by path, sorted."""
        return tuple(sorted(self._walk()))

    def read(self, path: str, limit: int = TEXT_LIMIT) -> bytes:
        """The bytes of a file; raises `SourceError` where it cannot be had."""
        try:
            where = self._inside(path)
            with os.fdopen(_open_without_waiting(where), "rb") as file:
                _check_kind(os.fstat(file.fileno()), limit)
                content = file.read(limit + 1)
        except (OSError, ValueError) as error:
            raise _complaint(error) from error
        if len(content) > limit:
            raise too_large(len(content), limit)
        return content

    def exists(self, path: str) -> bool:
        """Whether there is such a file, inside the folder and not hidden."""
        try:
            return self._inside(path).is_file()
        except (SourceError, OSError, ValueError):
            return False

    def _inside(self, path: str) -> Path:
        check_path(path)
        try:
            root = self._path.resolve(strict=True)
            where = (root / path).resolve(strict=True)
        except RuntimeError as error:  # how Python 3.11 says that links go round
            raise SourceError("is a link that leads to itself") from error
        if not where.is_relative_to(root):
            raise SourceError("is a link that leads out of the content folder")
        return where

    def _walk(self) -> Iterator[str]:
        for folder, folders, files in os.walk(self._path):
            folders[:] = [name for name in folders if not is_hidden(name)]
            for name in files:
                if not is_hidden(name):
                    yield (Path(folder) / name).relative_to(self._path).as_posix()


def _open_without_waiting(path: Path) -> int:
    """Open a file so that a pipe without a writer does not hold the build up."""
    waiting = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    return os.open(path, os.O_RDONLY | waiting)


def _check_kind(status: os.stat_result, limit: int) -> None:
    if not stat.S_ISREG(status.st_mode):
        raise SourceError("is no ordinary file")
    if status.st_size > limit:
        raise too_large(status.st_size, limit)


def _complaint(error: OSError | ValueError) -> SourceError:
    match error:
        case FileNotFoundError() | NotADirectoryError():
            return SourceError("is not there", missing=True)
        case PermissionError():
            return SourceError("cannot be read: permission was denied")
        case IsADirectoryError():
            return SourceError("is a folder")
        case OSError(strerror=str(reason)):
            return SourceError(f"cannot be read: {reason.lower()}")
        case _:
            return SourceError("cannot be read under this name")
