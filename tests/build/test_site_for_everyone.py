"""Every page of the site, looked at in a real Chromium by axe-core.

axe-core tests for the rules of WCAG 2.2 that a program can decide.
"""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserType, Page, sync_playwright

from manualgen.press.browser import is_root
from manualgen.press.chromium import find_chromium
from tests.build.printed import Demo

pytestmark = pytest.mark.browser

DESKTOP, PHONE = 1280, 360


@dataclass(frozen=True)
class Look:
    """How a page is looked at, and at which pages."""

    scheme: str
    width: int
    pages: tuple[Path, ...]


def looks(demo: Demo) -> tuple[Look, ...]:
    """Every page by day on a desk and by night on a phone, and some the other way."""
    every = tuple(sorted(demo.site.rglob("*.html")))
    some = tuple(p for p in every if p.stem in ("index", demo.experiments[0]))
    return (
        Look("light", DESKTOP, every),
        Look("dark", PHONE, every),
        Look("dark", DESKTOP, some),
        Look("light", PHONE, some),
    )


def test_axe_finds_nothing_to_object_to_on_any_page(demo: Demo) -> None:
    with ThreadPoolExecutor(2) as pool:
        found = [
            fault for faults in pool.map(_violations, looks(demo)) for fault in faults
        ]
    assert found == []


def _violations(look: Look) -> list[str]:
    """What axe objects to: the rule, the page, and where on it."""
    with sync_playwright() as playwright:
        browser = _open(playwright.chromium)
        page = _page(browser, look.width, look.scheme)
        found = [fault for path in look.pages for fault in _violations_of(page, path)]
        browser.close()
    return found


def _violations_of(page: Page, path: Path) -> Iterator[str]:
    page.goto(path.as_uri())
    for violation in Axe().run(page).response["violations"]:
        for node in violation["nodes"]:
            yield f"{violation['id']}: {path.parent.name}/{path.name}: {node['html'][:200]}"


def _open(chromium: BrowserType) -> Browser:
    return chromium.launch(
        executable_path=find_chromium(), chromium_sandbox=not is_root()
    )


def _page(browser: Browser, width: int, scheme: str = "light") -> Page:
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    return page


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = _open(playwright.chromium)
        yield browser
        browser.close()


@pytest.mark.parametrize("width", [320, PHONE, 768, DESKTOP])
def test_no_page_is_wider_than_its_window(
    demo: Demo, browser: Browser, width: int
) -> None:
    """From a small phone on: WCAG 2.2, 1.4.10, names 320 CSS pixels."""
    page = _page(browser, width)
    wide: list[str] = []
    for path in sorted(demo.site.rglob("*.html")):
        page.goto(path.as_uri())
        over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        if over > 0:
            wide.append(f"{path.parent.name}/{path.name}: {over} px")
    page.close()
    assert wide == []


def test_search_works_from_the_disk_and_leads_to_the_place(
    demo: Demo, browser: Browser
) -> None:
    page = _page(browser, DESKTOP)
    page.goto((demo.site / "student" / "index.html").as_uri())
    page.get_by_role("searchbox").fill("burette titration")
    found = page.locator("#found a")
    assert found.count() > 0
    assert page.get_by_role("status").inner_text()
    address = found.first.get_attribute("href")
    found.first.click()
    assert page.url.endswith(str(address))
    page.close()


@pytest.mark.parametrize("word", ["tablet’s", "tablet's"])
def test_search_takes_a_typed_apostrophe_for_a_printed_one(
    demo: Demo, browser: Browser, word: str
) -> None:
    page = _page(browser, DESKTOP)
    page.goto((demo.site / "student" / "index.html").as_uri())
    page.get_by_role("searchbox").fill(word)
    assert page.locator("#found a").count() > 0
    page.close()


def test_a_keyboard_gets_past_the_ways_and_from_page_to_page(
    demo: Demo, browser: Browser
) -> None:
    page = _page(browser, DESKTOP)
    first, second = demo.experiments[:2]
    page.goto((demo.site / "student" / f"{first}.html").as_uri())
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    page.wait_for_function("document.getElementById(location.hash.slice(1))")
    page.get_by_role("link", name="Next").first.press("Enter")
    assert page.url.endswith(f"{second}.html")
    page.get_by_role("link", name="Previous").first.press("Enter")
    assert page.url.endswith(f"{first}.html")
    page.close()


def test_paper_shows_nothing_that_only_a_screen_needs(
    demo: Demo, browser: Browser
) -> None:
    page = _page(browser, DESKTOP)
    page.emulate_media(media="print")
    page.goto((demo.site / "student" / f"{demo.experiments[0]}.html").as_uri())
    for name in ("way", "skip", "on-page"):
        places = page.locator(f".{name}")
        assert places.count() > 0
        assert not any(place.is_visible() for place in places.all())
    page.close()
