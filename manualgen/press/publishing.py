"""Puts a new site in the place of the old one, whole or not at all.

The new site grows in a folder beside the old one, on the same disk, and the
two change places when it is complete. Whatever happens before leaves the old
site as it was, and whoever builds next clears away what is left over.
"""

import errno
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from manualgen.press.errors import PressError
from manualgen.press.exchange import exchange, recover
from manualgen.press.lock import hold

# What a department commits in the folder of the site, beside what is built.
CARRIED_OVER = ("README.md", ".gitignore")

# Every site that is published holds this file, with this word in it: so a
# folder of other things is known before it is replaced.
MANIFEST = "manifest.json"
MAKER = "manualgen"

_OF_NO_FILE = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO, errno.EROFS)
"""Faults of a disk that are told without naming the file that was written."""


@contextmanager
def publishing(out: Path, waiting: Callable[[], None] = lambda: None) -> Iterator[Path]:
    """A new, empty folder that becomes `out` when the block ends without error.

    While another process publishes there, `waiting` is called once, and this
    one waits. Raises PressError where the place cannot be written or holds
    something that is no site of ours.
    """
    out = out.resolve()
    workplace = out.parent / f".{out.name}.{MAKER}"
    try:
        with hold(workplace / "lock", waiting):
            yield from _publish(out, workplace)
    except OSError as error:
        if not _is_about(error, out, workplace):
            raise
        raise PressError(_sentence(error, out)) from error


def _publish(out: Path, workplace: Path) -> Iterator[Path]:
    new, spare = workplace / "new", workplace / "old"
    recover(out, spare)
    _refuse_foreign(out)
    try:
        _clear(new)
        _clear(spare)
        new.mkdir()
        yield new
        _carry_over(out, new)
        exchange(new, out, spare)
    finally:
        recover(out, spare)
        shutil.rmtree(workplace, ignore_errors=True)


def _refuse_foreign(out: Path) -> None:
    """Replace nothing that a build has not made."""
    if not out.exists():
        return
    if not out.is_dir():
        raise PressError(f"{out} is a file; name a folder for the site")
    strangers = [e.name for e in out.iterdir() if e.name not in CARRIED_OVER]
    if strangers and not _is_site(out):
        raise PressError(
            f"{out} holds other files than a site ({min(strangers)}); "
            "name an empty folder"
        )


def _is_site(folder: Path) -> bool:
    try:
        return MAKER in (folder / MANIFEST).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return False


def _carry_over(out: Path, new: Path) -> None:
    for name in CARRIED_OVER:
        if (out / name).is_file():
            shutil.copy2(out / name, new / name)


def _clear(folder: Path) -> None:
    if folder.exists():
        shutil.rmtree(folder)


def _is_about(error: OSError, out: Path, workplace: Path) -> bool:
    """Whether the fault is of writing here; a full disk names no file."""
    if error.filename is None:
        return error.errno in _OF_NO_FILE
    path = Path(str(error.filename))
    return any(path.is_relative_to(p) for p in (out, workplace)) or path == out.parent


def _sentence(error: OSError, out: Path) -> str:
    reason = error.strerror or str(error)
    return f"cannot write the site {out}: {reason}; the last one is as it was"
