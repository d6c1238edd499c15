"""The preview, driven in a real browser: save, reload, finding shown, mended, gone."""

from __future__ import annotations

import contextlib
import http.client
import os
import shutil
import signal
import statistics
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect, sync_playwright

from manualgen.press.chromium import find_chromium

DEMONSTRATION = Path(__file__).parents[2] / "content"

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
    """A running preview of a content folder, and one of its experiments."""

    def __init__(self, folder: Path, experiment: str = "salt.md") -> None:
        self.experiment = folder / experiment
        self.process = subprocess.Popen(
            [sys.executable, "-m", "manualgen", "preview", folder, "--port", "0"],
            stderr=subprocess.PIPE,
            text=True,
        )
        assert self.process.stderr is not None
        while not (line := self.process.stderr.readline()).startswith("open http"):
            assert line, "the preview ended"
        self.address = line.split()[1]

    def save(self, text: str) -> None:
        """Save the experiment."""
        self.experiment.write_text(text)

    def end(self, number: signal.Signals) -> tuple[int, str]:
        """Send a signal; gives the exit status and what was said since."""
        self.process.send_signal(number)
        _, said = self.process.communicate(timeout=10)
        return self.process.returncode, said

    def processor_seconds(self) -> float:
        """The processor's time that the preview has taken so far."""
        fields = Path(f"/proc/{self.process.pid}/stat").read_text().split()
        return (int(fields[13]) + int(fields[14])) / os.sysconf("SC_CLK_TCK")

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
    folder = tmp_path_factory.mktemp("content")
    (folder / "manual.yaml").write_text(
        "title: T\nparts:\n  - title: All\n    experiments: [salt]\n"
    )
    (folder / "salt.md").write_text(GOOD)
    running = Preview(folder)
    yield running
    running.end(signal.SIGTERM)


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
def test_a_page_of_the_demonstration_is_renewed_in_a_third_of_a_second(
    tmp_path: Path, page: Page
) -> None:
    """The processor's time counts: a busy machine makes any page wait."""
    shutil.copytree(DEMONSTRATION, tmp_path / "content")
    demo = Preview(tmp_path / "content", "volumetric/vinegar.md")
    source = demo.experiment.read_text()
    page.goto(demo.address + "teacher/vinegar.html")
    spent = []
    for n in range(7):
        before = demo.processor_seconds()
        demo.save(source.replace("title: ", f"title: Save {n} of "))
        expect(page.locator("h1")).to_contain_text(f"Save {n} of")
        spent.append(demo.processor_seconds() - before)
    demo.end(signal.SIGTERM)
    assert statistics.median(spent) < 0.3


@pytest.mark.browser
def test_control_c_ends_it_and_nothing_is_amiss(tmp_path: Path, page: Page) -> None:
    (tmp_path / "manual.yaml").write_text("title: T\nparts: []\n")
    running = Preview(tmp_path)
    page.goto(running.address)  # and so one request waits for the next version
    assert running.end(signal.SIGINT) == (0, "\n")


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
