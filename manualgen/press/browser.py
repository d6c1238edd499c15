"""One Chromium with one page: the one holder of Playwright.

A browser prints one document at a time. Several tabs in one browser are slower
than one, and in about four prints of a hundred they shift the baseline of a
sub- or superscript by part of a pixel, so parallel printing takes several
browsers (see `press.py`).

The browser is closed off. It answers only requests for files under one root
folder, runs no script of the document's, and its sandbox is on except for root,
for whom Chromium refuses to start with one.
"""

import asyncio
import os
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import url2pathname

from playwright.async_api import Error as BrowserError
from playwright.async_api import Page, Route, ViewportSize, async_playwright

from manualgen.press.in_page import FIND_WIDE, IS_LOADING, PREPARE, SET
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

NOWHERE = ".on-the-press"
"""The name under which documents are opened; no file has it."""

MOST_SET = 100
"""Documents set in the place of one that was opened, before one is opened anew."""

MOMENT_SECONDS = 0.005
"""How long to wait for pictures before looking again."""

_MM_PER_PX = 25.4 / 96


@dataclass(frozen=True, slots=True)
class Document:
    """A printed document as the browser gave it.

    `loaded` are the files it was made from, itself first; `refused` the
    addresses that were not answered.
    """

    pdf: bytes
    loaded: tuple[Path, ...]
    refused: tuple[str, ...]


class Browser:
    """An open Chromium with its one page.

    A document is set in the place of the one before it wherever their style
    sheets are the same.  It has an address in its own folder that is no file's:
    a link to any document of the folder is then a link to another one.
    """

    def __init__(self, page: Page, root: Path) -> None:
        self._page = page
        self._root = root
        self._first = b""
        self._nowhere: Path | None = None
        self._set = 0
        self._loaded: dict[Path, None] = {}
        self._pictures: set[Path] = set()
        self._refused: list[str] = []

    async def print_html(self, html: Path) -> Document:
        """Print a document, tagged and with an outline, on its `@page`'s paper.

        Raises BrowserError where the browser fails.
        """
        html = html.resolve()
        self._refused.clear()
        if not await self._set_in_place(html):
            await self._open(html)
        shown = await self._page.evaluate(PREPARE, html.as_uri())
        pdf = await self._page.pdf(
            prefer_css_page_size=True, tagged=True, outline=True, print_background=True
        )
        return Document(pdf, self._files_of(html, shown), tuple(self._refused))

    async def _set_in_place(self, html: Path) -> bool:
        """Set a document where another one stands; whether that can be done."""
        if html.with_name(NOWHERE) != self._nowhere or self._set == MOST_SET:
            return False
        self._set += 1
        text = html.read_text(encoding="utf-8")
        if not await self._page.evaluate(SET, text):
            return False
        while await self._page.evaluate(IS_LOADING):
            await asyncio.sleep(MOMENT_SECONDS)
        return True

    async def _open(self, html: Path) -> None:
        """Open a document for itself, with its style sheets and faces."""
        self._loaded.clear()
        self._pictures.clear()
        self._refused.clear()
        self._first = html.read_bytes()
        self._nowhere, self._set = html.with_name(NOWHERE), 0
        await self._page.goto(self._nowhere.as_uri())

    def _files_of(self, html: Path, shown: Iterable[str]) -> tuple[Path, ...]:
        """What a document was made from; pictures of the others are none of it."""
        pictures = {path for address in shown if (path := local_path(address))}
        self._pictures |= pictures
        others = self._pictures - pictures
        return (html, *(path for path in self._loaded if path not in others))

    async def find_wide(self, width_px: float) -> tuple[WideElement, ...]:
        """What is wider than a page of this width, in the document last printed."""
        await self._page.set_viewport_size(
            {"width": int(width_px), "height": VIEWPORT["height"]}
        )
        found = await self._page.evaluate(FIND_WIDE, width_px)
        await self._page.set_viewport_size(VIEWPORT)
        return tuple(
            WideElement(e["tag"], e["id"], e["line"], e["excess"] * _MM_PER_PX)
            for e in found
        )

    async def answer(self, route: Route) -> None:
        """Let a request through if it is for a file under the root, else abort it."""
        path = local_path(route.request.url)
        if path == self._nowhere and route.request.frame == self._page.main_frame:
            await route.fulfill(body=self._first, content_type="text/html")
        elif path is not None and path.is_relative_to(self._root) and path.is_file():
            self._loaded[path] = None
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
