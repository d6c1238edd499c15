"""A content folder as it was in a git revision, read without a working tree.

Everything comes from git's own store of objects, so that nothing is checked
out and a bare clone serves as well.  A link to a file is followed, as it is on
disk, where it leads inside the folder; a submodule is read where it is checked
out, since its objects are in a store of its own.
"""

from __future__ import annotations

import posixpath
import subprocess
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from manualgen.sources.source import (
    TEXT_LIMIT,
    SourceError,
    check_path,
    is_hidden,
    too_large,
)

_ORDINARY = ("100644", "100755")
_LINK = "120000"
_SUBMODULE = "160000"
_MOST_LINKS = 8
"""So many links one after the other are followed."""
_LONGEST_LINK = 4096


class RevisionError(Exception):
    """Git has no such revision, or cannot read it; says which."""


@dataclass(frozen=True, slots=True)
class _Entry:
    """A line of git's listing of a tree."""

    store: Path
    """The repository whose objects it is among."""
    mode: str
    object_name: str
    size: int


class Revision:
    """The content folder ``content`` as it was in ``revision``.

    ``content`` is a path in a git repository; on disk it need not be there.
    Raises `RevisionError` where that is none, or git knows no such revision.
    """

    def __init__(self, content: Path, revision: str, name: str | None = None) -> None:
        self._store, folder = _repository(content)
        self._folder = f"{folder}/" if folder else ""
        self._name = content.as_posix().rstrip("/") if name is None else name
        self.commit = _commit(self._store, revision)
        self._files = self._listed()

    @property
    def name(self) -> str:
        """The folder as it was given."""
        return self._name

    def files(self) -> tuple[str, ...]:
        """Every file that is not hidden, by path, sorted."""
        return tuple(sorted(self._files))

    def read(self, path: str, limit: int = TEXT_LIMIT) -> bytes:
        """The bytes of a file; raises `SourceError` where it cannot be had."""
        check_path(path)
        if path not in self._files:
            raise SourceError("is not there", missing=True)
        entry = self._files[path]
        if entry.size > limit:
            raise too_large(entry.size, limit)
        return _bytes(entry)

    def exists(self, path: str) -> bool:
        """Whether there was such a file."""
        return path in self._files

    def _listed(self) -> Mapping[str, _Entry]:
        """Each file by its path from the folder."""
        entries = {
            path.removeprefix(self._folder): entry
            for path, entry in _tree(self._store, self.commit, self._folder)
        }
        for path, entry in list(entries.items()):
            if entry.mode == _SUBMODULE:
                entries.update(_submodule(self._store, self._folder, path, entry))
        found = {path: _behind(path, entries) for path in entries}
        return {p: e for p, e in found.items() if e is not None and not is_hidden(p)}


def _repository(content: Path) -> tuple[Path, str]:
    """Where git is asked, and the folder's path in the repository's trees."""
    there = content.absolute()
    while not there.is_dir():
        there = there.parent
    rest = content.absolute().relative_to(there)
    there = there.resolve()
    if _said(there, "rev-parse", "--is-inside-work-tree") != "true":
        return there, _joined(rest)
    top = Path(_said(there, "rev-parse", "--show-toplevel")).resolve()
    return top, _joined(there.relative_to(top) / rest)


def _joined(path: Path) -> str:
    text = posixpath.normpath(path.as_posix())
    return "" if text == "." else text


def _commit(store: Path, revision: str) -> str:
    if revision.startswith("-"):
        raise RevisionError(f"{revision!r} is no revision")
    try:
        return _said(
            store, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}"
        )
    except RevisionError:
        is_shallow = _said(store, "rev-parse", "--is-shallow-repository") == "true"
        hint = "; this clone is shallow: git fetch --unshallow" if is_shallow else ""
        message = f"git knows no revision {revision!r}{hint}"
        raise RevisionError(message) from None


def _tree(store: Path, commit: str, folder: str) -> Iterator[tuple[str, _Entry]]:
    """Every file, link and submodule under a folder of a commit."""
    under = ("--", folder) if folder else ()
    listing = _git(
        store, "ls-tree", "-r", "-z", "--long", "--full-tree", commit, *under
    )
    for line in filter(None, listing.split(b"\0")):
        facts, _, path = line.decode("utf-8", "surrogateescape").partition("\t")
        mode, _, object_name, size = facts.split()
        length = int(size) if size.isdecimal() else 0
        yield path, _Entry(store, mode, object_name, length)


def _submodule(
    top: Path, folder: str, path: str, entry: _Entry
) -> Iterator[tuple[str, _Entry]]:
    """The files of a submodule, where its repository is at hand."""
    store = top / folder / path
    if not (store / ".git").exists():
        return
    try:
        files = list(_tree(store, entry.object_name, ""))
    except RevisionError:
        return
    for inner, found in files:
        yield f"{path}/{inner}", found


def _behind(path: str, entries: Mapping[str, _Entry]) -> _Entry | None:
    """The ordinary file at a path or behind its link; None for anything else."""
    for _ in range(_MOST_LINKS):
        entry = entries.get(path)
        if entry is None or entry.mode in _ORDINARY:
            return entry
        if entry.mode != _LINK or entry.size > _LONGEST_LINK:
            return None
        try:
            target = _bytes(entry).decode("utf-8", "surrogateescape")
        except SourceError:
            return None
        path = posixpath.normpath(posixpath.join(posixpath.dirname(path), target))
    return None


def _bytes(entry: _Entry) -> bytes:
    try:
        return _git(entry.store, "cat-file", "blob", entry.object_name)
    except RevisionError as error:
        raise SourceError(f"cannot be read from git: {error}") from error


def _said(where: Path, *words: str) -> str:
    return _git(where, *words).decode("utf-8", "surrogateescape").rstrip("\n")


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
