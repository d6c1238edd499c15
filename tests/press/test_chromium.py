"""Which browser is taken, of those that there are."""

import os
import sys
from pathlib import Path

import pytest

from manualgen.press.chromium import BrowserNotFoundError, find_chromium


def executable(path: Path) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("#!/bin/sh\n", encoding="utf-8")
    path.chmod(0o755)
    return path


def environment(home: Path, **more: object) -> dict[str, str]:
    return {"HOME": str(home), "PATH": str(home / "bin")} | {
        key: str(value) for key, value in more.items()
    }


def test_a_browser_that_is_named_comes_first(tmp_path: Path) -> None:
    executable(tmp_path / "bin" / "chromium")
    named = executable(tmp_path / "mine")
    assert find_chromium(environment(tmp_path, MANUALGEN_BROWSER=named)) == named


def test_a_name_without_a_path_is_looked_up(tmp_path: Path) -> None:
    mine = executable(tmp_path / "bin" / "my-browser")
    assert find_chromium(environment(tmp_path, MANUALGEN_BROWSER="my-browser")) == mine


def test_a_named_browser_that_is_not_there_is_not_replaced_by_another(
    tmp_path: Path,
) -> None:
    executable(tmp_path / "bin" / "chromium")
    with pytest.raises(BrowserNotFoundError, match=r"absent.*MANUALGEN_BROWSER"):
        find_chromium(environment(tmp_path, MANUALGEN_BROWSER=tmp_path / "absent"))


def test_the_newest_download_of_playwright_comes_before_the_systems_browser(
    tmp_path: Path,
) -> None:
    executable(tmp_path / "bin" / "chromium")
    downloads = tmp_path / "downloads"
    executable(downloads / "chromium-999" / "chrome-linux" / "chrome")
    newest = executable(downloads / "chromium-1200" / "chrome-linux64" / "chrome")
    chosen = find_chromium(environment(tmp_path, PLAYWRIGHT_BROWSERS_PATH=downloads))
    assert chosen == newest


@pytest.mark.parametrize(
    "command", ["chromium", "chromium-browser", "google-chrome", "microsoft-edge"]
)
def test_a_browser_of_the_chromium_family_is_found_on_the_path(
    command: str, tmp_path: Path
) -> None:
    found = executable(tmp_path / "bin" / command)
    assert find_chromium(environment(tmp_path)) == found


def test_without_a_browser_the_sentence_says_how_to_get_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "platform", "win32")  # whose usual places are not here
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(BrowserNotFoundError, match="no Chromium, Chrome or Edge"):
        find_chromium({"PATH": str(tmp_path)})
    assert BrowserNotFoundError.exit_status == 3
