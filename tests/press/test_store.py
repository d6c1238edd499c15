"""What is kept between builds: found whole, or not at all, and only by who kept it."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from manualgen.press import store
from manualgen.press.store import Store

CONTENT = b"a page\n with lines\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A store's folder that holds one content."""
    Store(tmp_path / "cache").keep("page", CONTENT)
    return tmp_path / "cache"


@pytest.fixture
def another_user(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[pytest.MonkeyPatch]:
    """What runs from here on has another home, and no key yet."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    store._key.cache_clear()
    yield monkeypatch
    store._key.cache_clear()


def test_what_was_kept_is_found(folder: Path) -> None:
    assert Store(folder).find("page") == CONTENT
    assert Store(folder).find("other") is None


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(cut=st.integers(0, 80), junk=st.binary(max_size=40))
def test_what_is_damaged_is_as_good_as_lost(
    folder: Path, cut: int, junk: bytes
) -> None:
    whole = (folder / "page").read_bytes()
    damaged = whole[:cut] + junk
    (folder / "page").write_bytes(damaged)
    try:
        expected = CONTENT if damaged == whole else None
        assert Store(folder).find("page") == expected
    finally:
        (folder / "page").write_bytes(whole)


def test_what_comes_with_somebody_elses_folder_is_not_believed(
    folder: Path, another_user: pytest.MonkeyPatch
) -> None:
    assert Store(folder).find("page") is None
    Store(folder).keep("page", b"mine")
    assert Store(folder).find("page") == b"mine"


def test_what_is_put_under_another_name_is_not_believed(folder: Path) -> None:
    (folder / "page").rename(folder / "other")
    assert Store(folder).find("other") is None


def test_only_the_user_can_read_the_key(
    tmp_path: Path, another_user: pytest.MonkeyPatch
) -> None:
    Store(tmp_path / "cache").keep("page", CONTENT)
    (key,) = (tmp_path / "state").rglob("seal")
    assert key.stat().st_mode & 0o077 == 0


def test_without_a_place_for_the_key_a_run_believes_itself_alone(
    folder: Path, tmp_path: Path, another_user: pytest.MonkeyPatch
) -> None:
    (tmp_path / "state").write_text("a file, and no folder")
    Store(folder).keep("page", CONTENT)
    assert Store(folder).find("page") == CONTENT
    store._key.cache_clear()  # as in the next run
    assert Store(folder).find("page") is None


def test_a_store_that_cannot_be_written_is_done_without(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    blocked = Store(tmp_path / "file")
    blocked.keep("page", CONTENT)
    blocked.prune()
    assert blocked.find("page") is None


def test_what_cannot_take_its_place_leaves_nothing_behind(folder: Path) -> None:
    (folder / "page").unlink()
    (folder / "page").mkdir()
    Store(folder).keep("page", CONTENT)
    assert list(folder.iterdir()) == [folder / "page"]


def test_what_was_used_longest_ago_is_dropped_first(tmp_path: Path) -> None:
    kept = Store(tmp_path / "cache")
    for age, name in enumerate(("new", "old", "used")):
        kept.keep(name, CONTENT)
        os.utime(tmp_path / "cache" / name, (1000 - age, 1000 - age))
    assert kept.find("used") == CONTENT
    size = (tmp_path / "cache" / "new").stat().st_size
    kept.prune(limit_bytes=2 * size)
    assert [kept.find(n) for n in ("new", "old", "used")] == [CONTENT, None, CONTENT]
