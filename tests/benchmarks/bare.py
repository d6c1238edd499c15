"""What the pipeline is held against: the libraries alone, on the same files.

Each prints one JSON object with the seconds it took and is run as a program of
its own, so that nothing the other has loaded or kept helps it.
"""

from __future__ import annotations

import asyncio
import json
import os
import sys
import time
from pathlib import Path

from markdown_it import MarkdownIt
from playwright.async_api import Browser, async_playwright

from manualgen.press.chromium import find_chromium


def parse(content: Path) -> dict[str, float]:
    """Parse every Markdown file with markdown-it-py and its tables, four times over."""
    texts = [p.read_text(encoding="utf-8") for p in sorted(content.rglob("*.md"))]
    spent = []
    for _ in range(4):
        began = time.process_time()
        parser = MarkdownIt("commonmark").enable("table")
        for text in texts:
            parser.parse(text)
        spent.append(time.process_time() - began)
    return {"seconds": min(spent)}


async def _print_share(browser: Browser, pages: list[Path], out: Path) -> None:
    page = await browser.new_page()
    for html in pages:
        await page.goto(html.as_uri())
        target = out / f"{html.parent.name}-{html.stem}.pdf"
        await page.pdf(
            path=target,
            prefer_css_page_size=True,
            tagged=True,
            outline=True,
            print_background=True,
        )


async def _print_all(pages: list[Path], out: Path, browsers: int) -> dict[str, float]:
    began = time.monotonic()
    async with async_playwright() as playwright:
        opened = [
            await playwright.chromium.launch(
                executable_path=find_chromium(),
                chromium_sandbox=os.geteuid() != 0,
            )
            for _ in range(browsers)
        ]
        ready = time.monotonic()
        shares = [
            _print_share(browser, pages[n::browsers], out)
            for n, browser in enumerate(opened)
        ]
        await asyncio.gather(*shares)
        done = time.monotonic()
        for browser in opened:
            await browser.close()
    return {"seconds": done - began, "start": ready - began}


def print_pages(
    site: Path, out: Path, browsers: int, most: int | None = None
) -> dict[str, float]:
    """Print every experiment's page of a site, one page at a time in each browser.

    With ``most`` no more than so many; with 0 the browsers start and end.
    """
    out.mkdir(parents=True, exist_ok=True)
    pages = [
        html
        for edition in ("student", "teacher")
        for html in sorted((site / edition).glob("*.html"))
        if html.stem != "index"
    ]
    return asyncio.run(_print_all(pages[:most], out, browsers))


if __name__ == "__main__":
    if sys.argv[1] == "parse":
        told = parse(Path(sys.argv[2]))
    else:
        site, out, *numbers = sys.argv[2:]
        told = print_pages(Path(site), Path(out), *map(int, numbers))
    sys.stdout.write(json.dumps(told))
