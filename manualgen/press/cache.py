"""Keeps finished prints, so that what has not changed is not printed again.

An entry is found by the document's own text and by everything else that shapes
a print, and holds the digests of the files that the browser asked for while it
printed. It counts only while all of them are as they were. The cache is a
convenience: an entry that is lost, damaged or cannot be written costs a print.
"""

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import astuple
from pathlib import Path

from manualgen.press.jobs import Finished, Places
from manualgen.press.store import Store


class PrintCache:
    """Prints in a folder, of documents under `root`.

    `circumstances` is what shapes every print beside its document: versions,
    dates. Different circumstances never share an entry.
    """

    def __init__(self, folder: Path, root: Path, circumstances: Sequence[str]) -> None:
        self._store = Store(folder)
        self._root = root.resolve()
        self._circumstances = list(circumstances)
        self._digests: dict[Path, str] = {}

    def find(self, html: Path) -> Finished | None:
        """The finished print of a document, if it is here and still holds."""
        try:
            head, _, pdf = (self._store.find(self._name(html)) or b"").partition(b"\n")
            files, places = json.loads(head)
            return Finished(pdf, Places(*places)) if self._hold(files) else None
        except (OSError, ValueError):
            return None

    def keep(self, html: Path, loaded: Iterable[Path], finished: Finished) -> None:
        """Keep a print that was made from the files `loaded`."""
        try:
            files = {self._relative(f): self._file_digest(f) for f in sorted(loaded)}
            head = json.dumps([files, astuple(finished.places)]).encode()
            self._store.keep(self._name(html), head + b"\n" + finished.pdf)
        except OSError:
            return  # for the build to report, not for the cache

    def _name(self, html: Path) -> str:
        facts = [*self._circumstances, self._relative(html)]
        digest = hashlib.sha256(json.dumps(facts).encode())
        digest.update(html.read_bytes())
        return digest.hexdigest()

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


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
