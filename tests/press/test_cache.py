"""The cache of prints: what it finds, and that its faults only cost time."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from manualgen.press.cache import PrintCache
from manualgen.press.jobs import Finished, Places

PRINT = Finished(
    b"%PDF-1.5 a print\n with lines\n",
    Places(2, {"top": 0, "end": 1}, {"top": 0.1, "end": 0.75}),
)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "root"
    folder.mkdir()
    (folder / "page.html").write_text("<p>one</p>", encoding="utf-8")
    (folder / "page.css").write_text("p { color: black }", encoding="utf-8")
    return folder


@pytest.fixture
def filled(tmp_path: Path, root: Path) -> Path:
    """A cache folder that has the print of the page."""
    folder = tmp_path / "cache"
    loaded = [root / "page.html", root / "page.css"]
    PrintCache(folder, root, ["1"]).keep(root / "page.html", loaded, PRINT)
    return folder


def test_a_print_is_found_as_it_was_kept(filled: Path, root: Path) -> None:
    assert PrintCache(filled, root, ["1"]).find(root / "page.html") == PRINT


def rewrite(name: str) -> Callable[[Path], object]:
    return lambda root: (root / name).write_text("changed", encoding="utf-8")


@pytest.mark.parametrize(
    "change",
    [
        rewrite("page.html"),
        rewrite("page.css"),
        lambda root: (root / "page.css").unlink(),
    ],
    ids=["document", "style sheet", "style sheet gone"],
)
def test_a_print_is_not_found_when_what_it_was_made_of_has_changed(
    filled: Path, root: Path, change: Callable[[Path], object]
) -> None:
    change(root)
    assert PrintCache(filled, root, ["1"]).find(root / "page.html") is None


def test_a_print_is_not_found_under_other_circumstances(
    filled: Path, root: Path
) -> None:
    assert PrintCache(filled, root, ["2"]).find(root / "page.html") is None


def test_another_document_with_the_same_text_has_a_print_of_its_own(
    filled: Path, root: Path
) -> None:
    other = root / "other.html"
    other.write_text("<p>one</p>", encoding="utf-8")
    assert PrintCache(filled, root, ["1"]).find(other) is None


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(cut=st.integers(0, 400), junk=st.binary(max_size=40))
def test_a_damaged_entry_is_as_good_as_none(
    filled: Path, root: Path, cut: int, junk: bytes
) -> None:
    (entry,) = filled.iterdir()
    whole = entry.read_bytes()
    entry.write_bytes(whole[:cut] + junk)
    try:
        expected = PRINT if whole[:cut] + junk == whole else None
        assert PrintCache(filled, root, ["1"]).find(root / "page.html") == expected
    finally:
        entry.write_bytes(whole)


def test_a_cache_that_cannot_be_written_is_done_without(
    tmp_path: Path, root: Path
) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("no folder", encoding="utf-8")
    cache = PrintCache(blocked, root, ["1"])
    cache.keep(root / "page.html", [root / "page.html"], PRINT)
    assert cache.find(root / "page.html") is None
