"""The report of changes as a reviewer reads it: on a phone and at a desk, in Chromium."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, sync_playwright

from manualgen.cli import main
from manualgen.press.browser import is_root
from manualgen.press.chromium import find_chromium
from tests.review.repository import Repository

pytestmark = pytest.mark.browser

PHONE, DESK = (360, 740), (1500, 900)


@pytest.fixture(scope="module")
def report(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The report that the command writes for a leak and a stronger acid."""
    repository = Repository(tmp_path_factory.mktemp("reviewed"))
    content = repository.folder / "content"
    shutil.copytree(Path(__file__).parent / "college", content)
    repository.git("init", "-q")
    repository.commit()
    repository.edit("marble.md", "acid, 0.50 mol/dm3", "acid, 1.0 mol/dm3")
    repository.edit("soda.md", "turns [_orange_]", "turns orange")
    repository.edit("manual.yaml", "edition: 2025-26", "edition: 2026-27")
    out = repository.folder / "changes.html"
    words = ["compare", "HEAD", "--content", str(content), "--format", "html"]
    assert main([*words, "--output", str(out)]) == 0
    return out


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(
            executable_path=find_chromium(), chromium_sandbox=not is_root()
        )
        yield opened
        opened.close()


def opened(
    browser: Browser, report: Path, size: tuple[int, int], scheme: str = "light"
) -> tuple[Page, list[str]]:
    """The report in a window, and whatever it asks for beyond itself."""
    page = browser.new_page(
        viewport={"width": size[0], "height": size[1]},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(report.as_uri())
    return page, asked[1:]


@pytest.mark.parametrize("size", [PHONE, DESK])
def test_nothing_has_to_be_scrolled_sideways_even_with_every_page_open(
    browser: Browser, report: Path, size: tuple[int, int]
) -> None:
    page, asked = opened(browser, report, size)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") == size[0]
    assert asked == []


def test_a_link_opens_the_page_and_shows_the_part(
    browser: Browser, report: Path
) -> None:
    page, _ = opened(browser, report, PHONE)
    link = page.locator("a[href='#after.soda.step.6']").first
    target = page.locator("[id='after.soda.step.6']")
    assert not target.is_visible()
    link.click()
    target.wait_for(state="visible")
    box = target.bounding_box()
    assert box is not None
    assert 0 <= box["y"] < PHONE[1]


def test_the_pages_stand_side_by_side_at_a_desk_and_below_one_another_on_a_phone(
    browser: Browser, report: Path
) -> None:
    for size, beside in ((DESK, True), (PHONE, False)):
        page, _ = opened(browser, report, size)
        page.evaluate("document.querySelector('details').open = true")
        boxes = [page.locator(".side").nth(n).bounding_box() for n in range(2)]
        tops = [box["y"] for box in boxes if box]
        assert (tops[0] == tops[1]) is beside


def test_the_report_is_dark_where_the_system_is_dark(
    browser: Browser, report: Path
) -> None:
    shade = "getComputedStyle(document.body).backgroundColor"
    dark, _ = opened(browser, report, PHONE, "dark")
    light, _ = opened(browser, report, PHONE)
    assert dark.evaluate(shade) == "rgb(23, 24, 26)"
    assert light.evaluate(shade) == "rgb(255, 255, 255)"


def test_the_figures_of_a_formula_stand_below_the_line_without_the_manuals_face(
    browser: Browser, report: Path
) -> None:
    page, _ = opened(browser, report, DESK)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    figure = page.locator(".sheet .formula sub").first.bounding_box()
    letter = page.locator(".sheet .formula").first.bounding_box()
    assert figure is not None
    assert letter is not None
    assert figure["height"] < letter["height"]
    assert figure["y"] + figure["height"] > letter["y"] + letter["height"] * 0.8


@pytest.mark.parametrize(("size", "scheme"), [(DESK, "light"), (PHONE, "dark")])
def test_axe_core_finds_nothing_to_object_to(
    browser: Browser, report: Path, size: tuple[int, int], scheme: str
) -> None:
    page, _ = opened(browser, report, size, scheme)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    found = Axe().run(page).response["violations"]
    assert [(v["id"], v["nodes"][0]["html"]) for v in found] == []
