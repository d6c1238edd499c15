"""Keeps finished prints, so that what has not changed is not printed again.

An entry is found by the document's own text and by everything else that shapes
a print, and holds the digests of the files that the browser asked for while it
printed. It counts only while all of them are as they were. The cache is a
convenience: an entry that is lost, damaged or cannot be written costs a print.
"""

import hashlib
import json
import os
import tempfile
from collections.abc import Iterable, Sequence
from pathlib import Path

LIMIT_BYTES = 512 * 1024 * 1024


class PrintCache:
    """Prints in a folder, of documents under `root`.

    `circumstances` is what shapes every print beside its document: versions,
    dates. Different circumstances never share an entry.
    """

    def __init__(self, folder: Path, root: Path, circumstances: Sequence[str]) -> None:
        self._folder = folder
        self._root = root.resolve()
        self._circumstances = list(circumstances)
        self._digests: dict[Path, str] = {}

    def find(self, html: Path) -> bytes | None:
        """The finished print of a document, if it is here and still holds."""
        try:
            entry = self._entry(html)
            head, _, pdf = entry.read_bytes().partition(b"\n")
            stated = json.loads(head)
            if stated["print"] != _digest(pdf) or not self._hold(stated["files"]):
                return None
            os.utime(entry)  # what is used is kept
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            return None
        return pdf

    def keep(self, html: Path, loaded: Iterable[Path], pdf: bytes) -> None:
        """Keep a print that was made from the files `loaded`."""
        try:
            files = {self._relative(f): self._file_digest(f) for f in sorted(loaded)}
            head = json.dumps({"print": _digest(pdf), "files": files}).encode()
            self._write(self._entry(html), head + b"\n" + pdf)
        except OSError:
            return  # a full disk is for the build to report, not for the cache

    def prune(self, limit_bytes: int = LIMIT_BYTES) -> None:
        """Drop the entries that were used longest ago, down to the limit."""
        try:
            entries = [(e.stat().st_mtime, e) for e in self._folder.iterdir()]
            kept = 0
            for _, entry in sorted(entries, reverse=True):
                kept += entry.stat().st_size
                if kept > limit_bytes:
                    entry.unlink()
        except OSError:
            return  # another build is at it, or there is no folder

    def _entry(self, html: Path) -> Path:
        facts = [*self._circumstances, self._relative(html)]
        digest = hashlib.sha256(json.dumps(facts).encode())
        digest.update(html.read_bytes())
        return self._folder / digest.hexdigest()

    def _hold(self, files: dict[str, str]) -> bool:
        return all(
            self._file_digest(self._root / path) == digest
            for path, digest in files.items()
        )

    def _file_digest(self, path: Path) -> str:
        """The file's digest, taken once: a build does not change what it prints."""
        if path not in self._digests:
            self._digests[path] = _digest(path.read_bytes())
        return self._digests[path]

    def _relative(self, path: Path) -> str:
        return path.resolve().relative_to(self._root).as_posix()

    def _write(self, entry: Path, content: bytes) -> None:
        self._folder.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=self._folder)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            Path(name).replace(entry)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
