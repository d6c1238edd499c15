"""Sources that cannot be read, or go while they are read: findings, not tracebacks."""

from __future__ import annotations

import datetime
import threading
from pathlib import Path

import pytest

from manualgen.build.site import build_manual
from manualgen.build.stages import check, read_and_work, work_source
from manualgen.press.errors import PressError
from manualgen.sources import Folder
from tests.faults.building import Works

TODAY = datetime.date(2026, 9, 1)


@pytest.mark.parametrize("file", ["one.md", "chemicals.yaml"])
def test_a_source_that_may_not_be_read_is_a_finding(file: str, works: Works) -> None:
    assert works.build("--no-pdf")[0] == 0
    works.write(1)
    (works.content / file).touch()
    (works.content / file).chmod(0)
    status, said = works.build("--no-pdf")
    assert status == 1, said
    assert f"{file}:1:1: error: this file cannot be read: permission was denied" in said
    assert works.version() == 0
    (works.content / file).chmod(0o644)
    assert works.build("--no-pdf")[0] == 0
    assert works.version() == 1


def test_a_folder_that_may_not_be_read_hides_its_files_and_no_others(
    works: Works,
) -> None:
    closed = works.content / "closed"
    closed.mkdir()
    (works.content / "two.md").rename(closed / "two.md")
    closed.chmod(0)
    status, said = works.build("--no-pdf")
    closed.chmod(0o755)
    assert status == 1, said
    assert "the manual lists 'two', and no file two.md could be read" in said
    assert said.count("error:") == 1


class Vanishing(Folder):
    """A content folder of which a file goes as soon as it has been listed."""

    def __init__(self, path: Path, gone: str) -> None:
        super().__init__(path)
        self._goes = path / gone

    def files(self) -> tuple[str, ...]:
        found = super().files()
        self._goes.unlink(missing_ok=True)
        return found


def test_a_source_that_goes_while_it_is_read_is_a_finding(works: Works) -> None:
    worked = work_source(Vanishing(works.content, "one.md"), None, TODAY)
    assert {f.check for f in check(worked)} == {"source-syntax"}


def test_a_picture_that_goes_before_it_is_copied_ends_the_build(works: Works) -> None:
    picture = works.content / "a.png"
    picture.write_bytes(b"")
    with (works.content / "one.md").open("a") as file:
        file.write("\n## Results\n\n![A dot](a.png)\n")
    worked = read_and_work(works.content, None, TODAY)
    picture.unlink()
    with pytest.raises(PressError, match=r"the picture a\.png is not there"):
        build_manual(works.content, worked, works.site)
    assert not works.site.exists()


def test_sources_that_come_and_go_all_the_time_are_read(works: Works) -> None:
    over = threading.Event()

    def come_and_go() -> None:
        version = 0
        while not over.is_set():
            version += 1
            for path in works.content.glob("*.md"):
                path.unlink()
            works.write(version)

    thread = threading.Thread(target=come_and_go)
    thread.start()
    try:
        for _ in range(30):
            check(read_and_work(works.content, None, TODAY))
    finally:
        over.set()
        thread.join()
