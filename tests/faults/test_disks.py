"""Disks that are full or may not be written: a sentence, and the last site stays.

A disk is made full by a limit on the size of a file, which any user can set on
a process, and, where this one may mount, by a small disk of its own.
"""

from __future__ import annotations

import os
import resource
import signal
import subprocess
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest

from tests.faults.building import PRINTED, Works

LARGEST_FILE = 60_000
"""Bytes: pages are smaller, the faces that are copied beside them are larger."""
SPARE = 300_000
"""Bytes of a small disk beside what is on it: less than the faces take."""


def run(*words: object) -> bool:
    command = [str(word) for word in words]
    return subprocess.run(command, check=False, capture_output=True).returncode == 0


def may_mount() -> bool:
    trial = ("unshare", "-m", "mount", "-t", "tmpfs", "trial", "/mnt")
    return os.geteuid() == 0 and run(*trial)


@contextmanager
def short_files(folder: Path) -> Iterator[None]:
    """Let this process and those it starts write no file past a limit."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (LARGEST_FILE, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
        signal.signal(signal.SIGXFSZ, handler)


@contextmanager
def filled(folder: Path) -> Iterator[None]:
    """Put a disk that is full but for a little in the folder's place."""
    with small_disk(folder, SPARE):
        yield


@contextmanager
def filled_by_pages(folder: Path) -> Iterator[None]:
    """Put a disk in the folder's place that holds the new pages and not their PDFs."""
    pages = [p for p in folder.glob("site/**/*") if p.is_file() and p.suffix != ".pdf"]
    with small_disk(folder, sum(map(blocks, pages)) + SPARE // 10):
        yield


def blocks(file: Path) -> int:
    """The bytes that a file takes up on a disk of blocks of 4096."""
    return -(-file.stat().st_size // 4096) * 4096


@contextmanager
def small_disk(folder: Path, spare: int) -> Iterator[None]:
    kept = folder.with_name("kept")
    folder.rename(kept)
    folder.mkdir()
    size = spare + sum(blocks(p) for p in kept.rglob("*") if p.is_file())
    assert run("mount", "-t", "tmpfs", "-o", f"size={size}", "small", folder)
    assert run("cp", "-a", f"{kept}/.", folder)
    try:
        yield
    finally:
        assert run("cp", "-aT", folder, kept)
        assert run("umount", folder)
        folder.rmdir()
        kept.rename(folder)


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Take the right to write in the folder away."""
    mode = folder.stat().st_mode
    folder.chmod(0o555)
    try:
        yield
    finally:
        folder.chmod(mode)


Means = Callable[[Path], AbstractContextManager[None]]
FULL: tuple[Means, ...] = (short_files, filled) if may_mount() else (short_files,)
FULL_WHILE_PRINTING: tuple[Means, ...] = (
    (filled_by_pages,) if may_mount() else (short_files,)
)


def fails(works: Works, *words: str) -> None:
    """A build ends with one sentence about the site, and the last one is whole."""
    works.write(1)
    status, said = works.build(*words)
    assert status == 3, said
    assert "cannot write" in said
    assert works.version() == 0


def succeeds(works: Works, *words: str) -> None:
    """The next build is as if nothing had been, and nothing is left over."""
    status, said = works.build(*words)
    assert (status, works.version()) == (0, 1), said
    assert works.litter() == []


@pytest.mark.parametrize("means", FULL)
def test_a_full_disk_leaves_the_last_site(means: Means, works: Works) -> None:
    assert works.build("--no-pdf")[0] == 0
    with means(works.site.parent):
        fails(works, "--no-pdf")
    succeeds(works, "--no-pdf")


@pytest.mark.browser
@pytest.mark.parametrize("means", FULL_WHILE_PRINTING)
def test_a_disk_that_is_full_while_printing_leaves_the_last_site(
    means: Means, works: Works
) -> None:
    assert works.build(*PRINTED)[0] == 0
    with means(works.site.parent):
        fails(works, *PRINTED)
    succeeds(works, *PRINTED)


def test_a_folder_that_may_not_be_written_leaves_the_last_site(works: Works) -> None:
    assert works.build("--no-pdf")[0] == 0
    with locked(works.site.parent):
        fails(works, "--no-pdf")
    succeeds(works, "--no-pdf")


def test_a_file_in_the_place_of_a_folder_is_told(works: Works) -> None:
    works.site.parent.write_text("mine")
    status, said = works.build("--no-pdf")
    assert status == 3
    assert "Not a directory" in said or "File exists" in said
    assert works.site.parent.read_text() == "mine"


def test_a_cache_that_cannot_be_kept_costs_nothing(works: Works) -> None:
    works.site.parent.mkdir()
    (works.site.parent / ".manualgen-cache").write_text("mine")
    status, said = works.build("--no-pdf")
    assert (status, works.version()) == (0, 0), said
