"""One Chromium with one page: the one holder of Playwright.

A browser prints one document at a time. Several tabs in one browser are slower
than one, and in about four prints of a hundred they shift the baseline of a
sub- or superscript by part of a pixel, so parallel printing takes several
browsers (see `press.py`).

The browser is closed off. It answers only requests for files under one root
folder, runs no script of the document's, and its sandbox is on except for root,
for whom Chromium refuses to start with one.
"""

import os
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import url2pathname

from playwright.async_api import Error as BrowserError
from playwright.async_api import Page, Route, ViewportSize, async_playwright

from manualgen.press.jobs import WideElement

__all__ = ["Browser", "BrowserError", "Document", "open_browser"]

# Printing needs neither the services of the browser's maker nor a graphics
# card, and glyphs must not depend on the screen that a developer happens to have.
ARGUMENTS = (
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--disable-extensions",
    "--disable-gpu",
    "--disable-sync",
    "--disable-threaded-compositing",
    "--font-render-hinting=none",
    "--force-color-profile=srgb",
    "--host-resolver-rules=MAP * ~NOTFOUND",
    "--no-first-run",
    "--no-pings",
)

# What a screen would show is drawn as well, in vain: keep it small. Print media
# take their width from the paper, not from here.
VIEWPORT: ViewportSize = {"width": 800, "height": 100}

# Chromium gives a destination to each id that a link of the same file names, so
# every id gets a link, out of sight in the head. A face that only a margin box
# uses is not asked for by the document's own layout, and a print does not wait
# for it: load every face that is declared.
_PREPARE = """
() => {
  const links = document.createElement("div");
  for (const place of document.querySelectorAll("[id]")) {
    const link = document.createElement("a");
    link.href = "#" + encodeURIComponent(place.id);
    links.append(link);
  }
  document.head.append(links);
  return Promise.allSettled([...document.fonts].map(face => face.load()))
    .then(() => null);
}
"""

# The innermost elements whose box, or whose words, reach past the right edge.
# What an element cuts off at its own edge widens nothing.
_FIND_WIDE = """
width => {
  const edge = width + 0.5;  // the print's own coordinates are rounded so far
  const right = element => {
    const box = element.getBoundingClientRect();
    const cuts = getComputedStyle(element).overflowX !== "visible";
    return Math.max(box.right, cuts ? 0 : box.left + element.scrollWidth);
  };
  const visit = element => {
    if (right(element) <= edge) return [];
    const cuts = getComputedStyle(element).overflowX !== "visible";
    const inner = cuts ? [] : [...element.children].flatMap(visit);
    return inner.length ? inner : [element];
  };
  const found = [...document.body.children].flatMap(visit);
  const all = document.documentElement;
  if (!found.length && all.scrollWidth > edge) found.push(all);
  return found.map(element => ({
    tag: element.localName,
    id: element.closest("[id]")?.id ?? "",
    line: element.closest("[data-line]")?.dataset.line ?? "",
    excess: right(element) - width,
  }));
}
"""

_MM_PER_PX = 25.4 / 96


@dataclass(frozen=True, slots=True)
class Document:
    """A printed document as the browser gave it.

    `loaded` are the files it was made from, itself first, in the order of
    asking; `refused` the addresses that were not answered.
    """

    pdf: bytes
    loaded: tuple[Path, ...]
    refused: tuple[str, ...]


class Browser:
    """An open Chromium with its one page."""

    def __init__(self, page: Page, root: Path) -> None:
        self._page = page
        self._root = root
        self._loaded: list[Path] = []
        self._refused: list[str] = []

    async def print_html(self, html: Path) -> Document:
        """Print a document, tagged and with an outline, on its `@page`'s paper.

        Raises BrowserError where the browser fails.
        """
        self._loaded.clear()
        self._refused.clear()
        await self._page.goto(html.resolve().as_uri())
        await self._page.evaluate(_PREPARE)
        pdf = await self._page.pdf(
            prefer_css_page_size=True, tagged=True, outline=True, print_background=True
        )
        return Document(pdf, tuple(self._loaded), tuple(self._refused))

    async def find_wide(self, width_px: float) -> tuple[WideElement, ...]:
        """What is wider than a page of this width, in the document last printed."""
        await self._page.set_viewport_size(
            {"width": int(width_px), "height": VIEWPORT["height"]}
        )
        found = await self._page.evaluate(_FIND_WIDE, width_px)
        await self._page.set_viewport_size(VIEWPORT)
        return tuple(
            WideElement(e["tag"], e["id"], e["line"], e["excess"] * _MM_PER_PX)
            for e in found
        )

    async def answer(self, route: Route) -> None:
        """Let a request through if it is for a file under the root, else abort it."""
        path = local_path(route.request.url)
        if path is not None and path.is_relative_to(self._root) and path.is_file():
            self._loaded.append(path)
            await route.continue_()
        else:
            self._refused.append(route.request.url)
            await route.abort("blockedbyclient")


@asynccontextmanager
async def open_browser(executable: Path, root: Path) -> AsyncIterator[Browser]:
    """Start a Chromium that sees the files under `root` and nothing else.

    Each has a Playwright of its own, so that whatever dies takes no other
    browser with it. Raises BrowserError where it does not start.
    """
    async with async_playwright() as playwright:
        chromium = await playwright.chromium.launch(
            executable_path=executable, chromium_sandbox=not is_root(), args=ARGUMENTS
        )
        context = await chromium.new_context(
            java_script_enabled=False,
            service_workers="block",
            offline=True,
            viewport=VIEWPORT,
        )
        page = await context.new_page()
        browser = Browser(page, root.resolve())
        await page.route("**/*", browser.answer)
        await page.emulate_media(media="print", color_scheme="light")
        yield browser
        await chromium.close()


def is_root() -> bool:
    """Whether this process is the superuser's, where no sandbox can start."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def local_path(url: str) -> Path | None:
    """The file that a `file:` address names, symbolic links followed."""
    parts = urlsplit(url)
    if parts.scheme != "file" or parts.netloc not in ("", "localhost"):
        return None
    return Path(url2pathname(parts.path)).resolve()
