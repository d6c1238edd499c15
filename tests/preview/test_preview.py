"""The preview, driven in a real browser: save, reload, finding shown, mended, gone."""

from __future__ import annotations

import contextlib
import http.client
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect, sync_playwright

from manualgen.press.chromium import find_chromium

GOOD = """\
---
title: Salt
apparatus:
  - beaker, 100 cm3
---

## Method

1. Fill the beaker with water.
"""
BROKEN = GOOD + "\n```equation\nAl(s) + O2(g) -> Al2O3(s)\n```\n"


class Preview:
    """A running preview of a manual with one experiment."""

    def __init__(self, folder: Path) -> None:
        self.experiment = folder / "salt.md"
        (folder / "manual.yaml").write_text(
            "title: T\nparts:\n  - title: All\n    experiments: [salt]\n"
        )
        self.experiment.write_text(GOOD)
        self.process = subprocess.Popen(
            [sys.executable, "-m", "manualgen", "preview", folder, "--port", "0"],
            stderr=subprocess.PIPE,
            text=True,
        )
        self.address = ""
        while not self.address:
            assert self.process.stderr is not None
            line = self.process.stderr.readline()
            assert line or self.process.poll() is None, "the preview ended"
            if line.startswith("open http"):
                self.address = line.split()[1]

    def save(self, text: str) -> float:
        """Save the experiment; gives the time of it."""
        self.experiment.write_text(text)
        return time.monotonic()

    def ask(self, path: str, headers: dict[str, str]) -> int:
        """The status with which one request is answered."""
        host = self.address.removeprefix("http://").rstrip("/")
        connection = http.client.HTTPConnection(host, timeout=10)
        connection.putrequest("GET", path, skip_host=True)
        for name, value in {"Host": host, **headers}.items():
            connection.putheader(name, value)
        connection.endheaders()
        with contextlib.closing(connection), connection.getresponse() as answer:
            return answer.status


@pytest.fixture(scope="module")
def preview(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Preview]:
    running = Preview(tmp_path_factory.mktemp("content"))
    yield running
    running.process.terminate()
    running.process.wait(timeout=10)
    if running.process.stderr:
        running.process.stderr.close()


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=find_chromium(),
            chromium_sandbox=os.name == "posix" and os.geteuid() != 0,
        )
        yield browser.new_page()
        browser.close()


@pytest.mark.browser
def test_a_finding_is_shown_when_it_is_saved_and_gone_when_it_is_mended(
    preview: Preview, page: Page
) -> None:
    page.goto(preview.address + "teacher/salt.html")
    expect(page.locator("h1")).to_contain_text("Salt")
    expect(page.locator(".preview-findings")).to_have_count(0)

    preview.save(BROKEN)
    finding = page.locator(".preview-findings")
    expect(finding).to_contain_text("4 Al(s) + 3 O2(g) -> 2 Al2O3(s)")
    expect(finding).to_contain_text("Al(s) + O2(g) -> Al2O3(s)")

    preview.save(GOOD.replace("water", "sea water"))
    expect(finding).to_have_count(0)
    expect(page.locator("main")).to_contain_text("sea water")


@pytest.mark.browser
def test_a_save_that_cannot_be_read_does_not_end_the_preview(
    preview: Preview, page: Page
) -> None:
    page.goto(preview.address + "student/salt.html")
    preview.experiment.write_bytes(b"\xff\xfe\x00broken")
    expect(page.locator("body")).to_contain_text("UTF-8")
    preview.save(GOOD)
    page.goto(preview.address + "student/salt.html")
    expect(page.locator("h1")).to_contain_text("Salt")


@pytest.mark.browser
@pytest.mark.parametrize(
    "headers",
    [
        {"Host": "manual.example"},
        {"Origin": "https://elsewhere.example"},
        {"Sec-Fetch-Site": "cross-site"},
    ],
)
def test_requests_from_elsewhere_are_refused(
    preview: Preview, headers: dict[str, str]
) -> None:
    assert preview.ask("/index.html", headers) == 403


@pytest.mark.browser
@pytest.mark.parametrize(
    "path",
    [
        "/../manual.yaml",
        "/%2e%2e/manual.yaml",
        "/student/../../salt.md",
        "//etc/passwd",
    ],
)
def test_no_address_leads_out_of_the_pages(preview: Preview, path: str) -> None:
    assert preview.ask(path, {}) == 404
    assert preview.ask("/index.html", {}) == 200
