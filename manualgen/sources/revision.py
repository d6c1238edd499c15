"""A content folder as it was in a git revision, read without a working tree."""

from __future__ import annotations

import subprocess
from collections.abc import Mapping
from pathlib import Path

from manualgen.sources.source import (
    TEXT_LIMIT,
    SourceError,
    check_path,
    is_hidden,
    too_large,
)

_ORDINARY = ("100644", "100755")
"""The modes of git's ordinary files; links and submodules are never read."""


class RevisionError(Exception):
    """Git has no such revision, or no such folder in it; says which."""


class Revision:
    """The content folder ``content`` as it was in ``revision``.

    ``content`` is a path in a git working tree.  Raises `RevisionError` where
    that is none, or git knows no such revision.
    """

    def __init__(self, content: Path, revision: str) -> None:
        self._top = Path(_git(content, "rev-parse", "--show-toplevel").decode().strip())
        folder = content.resolve().relative_to(self._top.resolve()).as_posix()
        self._folder = "" if folder == "." else f"{folder}/"
        self._name = content.as_posix().rstrip("/")
        self.commit = _commit(self._top, revision)
        self._blobs = self._listed()

    @property
    def name(self) -> str:
        """The folder as it was given."""
        return self._name

    def files(self) -> tuple[str, ...]:
        """Every file that is not hidden, by path, sorted."""
        return tuple(sorted(self._blobs))

    def read(self, path: str, limit: int = TEXT_LIMIT) -> bytes:
        """The bytes of a file; raises `SourceError` where it cannot be had."""
        check_path(path)
        if path not in self._blobs:
            raise SourceError("is not there", missing=True)
        blob, size = self._blobs[path]
        if size > limit:
            raise too_large(size, limit)
        return _git(self._top, "cat-file", "blob", blob)

    def exists(self, path: str) -> bool:
        """Whether there was such a file."""
        return path in self._blobs

    def _listed(self) -> Mapping[str, tuple[str, int]]:
        """Each file's blob and size by its path from the folder."""
        listing = _git(
            self._top,
            "ls-tree",
            "-r",
            "-z",
            "--long",
            self.commit,
            "--",
            self._folder or ".",
        )
        found: dict[str, tuple[str, int]] = {}
        for entry in filter(None, listing.split(b"\0")):
            facts, _, name = entry.decode("utf-8", "surrogateescape").partition("\t")
            mode, _, blob, size = facts.split()
            path = name.removeprefix(self._folder)
            if mode in _ORDINARY and not is_hidden(path):
                found[path] = (blob, int(size))
        return found


def _commit(top: Path, revision: str) -> str:
    if revision.startswith("-"):
        raise RevisionError(f"{revision!r} is no revision")
    try:
        found = _git(top, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
    except RevisionError:
        raise RevisionError(f"git knows no revision {revision!r}") from None
    return found.decode().strip()


def _git(where: Path, *words: str) -> bytes:
    command = ["git", "-C", str(where), *words]
    try:
        done = subprocess.run(command, capture_output=True, check=False)
    except FileNotFoundError:
        raise RevisionError("git is not installed here") from None
    if done.returncode:
        reason = done.stderr.decode("utf-8", "replace").strip().removeprefix("fatal: ")
        raise RevisionError(reason or f"git {words[0]} failed")
    return done.stdout
