"""What builds keep for the next one, and believe only if they kept it themselves.

Whoever can change the content folder can put files beside it as well, into the
cache too.  So what is kept is sealed with a key of the user's own, which lies
with his other programs' state and travels in no repository.  What is unsealed,
damaged, or sealed elsewhere is as good as lost, and what is lost costs time.
"""

import hmac
import os
import secrets
import tempfile
from functools import cache
from pathlib import Path

LIMIT_BYTES = 512 * 1024 * 1024
KEY_BYTES = 32
SEAL_BYTES = 32


class Store:
    """Contents by name in a folder.  Nothing here raises OSError."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def find(self, name: str) -> bytes | None:
        """What was kept under a name, if it is there and whole."""
        place = self._folder / name
        try:
            kept = place.read_bytes()
            seal, content = kept[:SEAL_BYTES], kept[SEAL_BYTES:]
            if not hmac.compare_digest(seal, _sealed(name, content)):
                return None
            os.utime(place)  # what is used is kept
        except OSError:
            return None
        return content

    def keep(self, name: str, content: bytes) -> None:
        """Keep a content; a full disk is for the build to report, not for this."""
        try:
            self._write(self._folder / name, _sealed(name, content) + content)
        except OSError:
            return

    def prune(self, limit_bytes: int = LIMIT_BYTES) -> None:
        """Drop what was used longest ago, down to the limit."""
        try:
            entries = [(e.stat().st_mtime, e) for e in self._folder.iterdir()]
            kept = 0
            for _, entry in sorted(entries, reverse=True):
                kept += entry.stat().st_size
                if kept > limit_bytes:
                    entry.unlink()
        except OSError:
            return  # another build is at it, or there is no folder

    def _write(self, place: Path, content: bytes) -> None:
        self._folder.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=self._folder)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            Path(name).replace(place)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise


def _sealed(name: str, content: bytes) -> bytes:
    return hmac.digest(_key(), name.encode() + b"\0" + content, "sha256")


@cache
def _key() -> bytes:
    """The user's own key, made when there is none; where none can be, this run's."""
    try:
        place = _state_folder() / "manualgen" / "seal"
        if not place.exists():
            _make_key(place)
        key = place.read_bytes()
    except (OSError, RuntimeError):
        key = b""
    return key if len(key) == KEY_BYTES else secrets.token_bytes(KEY_BYTES)


def _state_folder() -> Path:
    """Where programs keep what is neither settings nor data (XDG base directories)."""
    named = os.environ.get("XDG_STATE_HOME") or os.environ.get("LOCALAPPDATA") or ""
    return Path(named) if Path(named).is_absolute() else Path.home() / ".local/state"


def _make_key(place: Path) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=place.parent)  # which only the user can read
    with os.fdopen(handle, "wb") as file:
        file.write(secrets.token_bytes(KEY_BYTES))
    Path(name).replace(place)
