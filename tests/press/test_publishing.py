"""The site is the old one or the new one, whatever happens."""

import errno
import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from manualgen.press import exchange
from manualgen.press.errors import PressError
from manualgen.press.publishing import publishing


def publish(out: Path, text: str) -> None:
    with publishing(out) as new:
        (new / "manifest.json").write_text('{"manualgen": 1}', encoding="utf-8")
        (new / "index.html").write_text(text, encoding="utf-8")


def everything(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def full_disk(*_: object) -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_a_site_is_published_where_there_was_none(tmp_path: Path) -> None:
    publish(tmp_path / "deep" / "site", "one")
    assert (tmp_path / "deep" / "site" / "index.html").read_text() == "one"
    assert [p.name for p in (tmp_path / "deep").iterdir()] == ["site"]


def test_a_new_site_replaces_the_old_one_whole(tmp_path: Path) -> None:
    out = tmp_path / "site"
    with publishing(out) as new:
        (new / "manifest.json").write_text('{"manualgen": 1}', encoding="utf-8")
        (new / "gone.html").write_text("old", encoding="utf-8")
    publish(out, "two")
    assert set(everything(out)) == {"manifest.json", "index.html"}


def test_what_a_department_commits_there_is_carried_over(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.mkdir()
    (out / "README.md").write_text("ours", encoding="utf-8")
    (out / ".gitignore").write_text("*\n", encoding="utf-8")
    publish(out, "one")
    publish(out, "two")
    assert (out / "README.md").read_text() == "ours"
    assert (out / ".gitignore").read_text() == "*\n"
    assert (out / "index.html").read_text() == "two"


def test_an_error_while_building_leaves_the_old_site_as_it_was(tmp_path: Path) -> None:
    out = tmp_path / "site"
    publish(out, "one")
    before = everything(out)

    def build() -> None:
        with publishing(out) as new:
            (new / "index.html").write_text("two", encoding="utf-8")
            raise KeyError

    with pytest.raises(KeyError):
        build()
    assert everything(out) == before
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_full_disk_is_one_sentence_and_the_old_site_stays(tmp_path: Path) -> None:
    out = tmp_path / "site"
    publish(out, "one")
    with pytest.raises(PressError) as told, publishing(out):
        full_disk()
    assert str(told.value) == (
        f"cannot write the site {out}: No space left on device; the last one is as it was"
    )
    assert (out / "index.html").read_text() == "one"


def test_a_place_that_cannot_be_written_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with (
        pytest.raises(PressError, match=r"cannot write the site .*Not a directory"),
        publishing(tmp_path / "file" / "site"),
    ):
        pass


def test_an_error_about_another_place_is_not_taken_for_the_sites(
    tmp_path: Path,
) -> None:
    with pytest.raises(FileNotFoundError), publishing(tmp_path / "site"):
        (tmp_path / "absent" / "source.md").read_text()


@pytest.mark.parametrize("stranger", ["thesis.docx", "index.html"])
def test_a_folder_of_other_things_is_not_replaced(
    tmp_path: Path, stranger: str
) -> None:
    (tmp_path / stranger).write_text("mine", encoding="utf-8")
    with pytest.raises(PressError, match=stranger), publishing(tmp_path):
        pass
    assert (tmp_path / stranger).read_text() == "mine"


def test_a_file_is_not_replaced(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.write_text("mine", encoding="utf-8")
    with pytest.raises(PressError, match="is a file"), publishing(out):
        pass
    assert out.read_text() == "mine"


def test_a_link_to_the_site_stays_a_link(tmp_path: Path) -> None:
    publish(tmp_path / "real", "one")
    (tmp_path / "site").symlink_to(tmp_path / "real")
    publish(tmp_path / "site", "two")
    assert (tmp_path / "site").is_symlink()
    assert (tmp_path / "real" / "index.html").read_text() == "two"


@pytest.mark.parametrize("can_swap", [True, False])
def test_left_overs_of_a_killed_build_are_cleared_away(
    tmp_path: Path, can_swap: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not can_swap:
        monkeypatch.setattr(exchange, "_swap", lambda *_: False)
    out = tmp_path / "site"
    publish(out, "one")
    workplace = tmp_path / ".site.manualgen"
    for name in ("new", "old"):
        (workplace / name).mkdir(parents=True)
        (workplace / name / "junk.html").write_text("half", encoding="utf-8")
    publish(out, "two")
    assert set(everything(out)) == {"manifest.json", "index.html"}
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_site_lost_between_two_renames_is_put_back(tmp_path: Path) -> None:
    out = tmp_path / "site"
    publish(out, "one")
    (tmp_path / ".site.manualgen").mkdir()
    out.rename(tmp_path / ".site.manualgen" / "old")
    with pytest.raises(KeyError), publishing(out):
        raise KeyError
    assert (out / "index.html").read_text() == "one"


def test_a_second_build_waits_and_says_so(tmp_path: Path) -> None:
    out = tmp_path / "site"
    said: list[str] = []
    order: list[str] = []

    def second() -> None:
        with publishing(out, lambda: said.append("waiting")) as new:
            order.append("second")
            (new / "index.html").write_text("second", encoding="utf-8")

    with publishing(out) as new:
        (new / "manifest.json").write_text("manualgen", encoding="utf-8")
        thread = threading.Thread(target=second)
        thread.start()
        while not said:
            time.sleep(0.01)
        order.append("first")
    thread.join()
    assert (said, order) == (["waiting"], ["first", "second"])
    assert (out / "index.html").read_text() == "second"


COUNT = """
import sys
from pathlib import Path
from manualgen.press.publishing import publishing

out = Path(sys.argv[1])
for _ in range(10):
    with publishing(out) as new:
        page = out / "index.html"
        count = int(page.read_text()) if page.exists() else 0
        (new / "manifest.json").write_text("manualgen")
        (new / "index.html").write_text(str(count + 1))
"""


def test_builds_at_once_take_turns(tmp_path: Path) -> None:
    out = tmp_path / "site"
    builds = [subprocess.Popen([sys.executable, "-c", COUNT, out]) for _ in range(3)]
    assert [build.wait() for build in builds] == [0, 0, 0]
    assert (out / "index.html").read_text() == "30"


BUILD_FOR_EVER = """
import sys
from pathlib import Path
from manualgen.press.publishing import publishing

out, n = Path(sys.argv[1]), 0
print("ready", flush=True)
while True:
    n += 1
    with publishing(out) as new:
        (new / "manifest.json").write_text("manualgen")
        for part in range(20):
            (new / f"{part}.html").write_text(str(n) * 1000)
"""


def test_a_kill_at_any_moment_leaves_a_whole_site(tmp_path: Path) -> None:
    out = tmp_path / "site"
    chance = random.Random(9)
    for _ in range(50):
        build = subprocess.Popen(
            [sys.executable, "-c", BUILD_FOR_EVER, out], stdout=subprocess.PIPE
        )
        assert build.stdout is not None
        with build.stdout as output:
            output.readline()
            time.sleep(chance.uniform(0, 0.02))
            build.send_signal(signal.SIGKILL)
            build.wait()
        if out.exists():
            parts = everything(out)
            assert len(parts) == 21
            assert len(set(parts.values())) == 2
    publish(out, "the next build succeeds")
    assert set(everything(out)) == {"manifest.json", "index.html"}
