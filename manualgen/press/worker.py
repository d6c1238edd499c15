"""One printing worker: a browser that is opened when needed and replaced once.

A browser that dies in the middle of a document, or stands still, is closed and
started again, and the document printed again. When that fails too the fault is
hardly chance, and the worker gives up on the document.
"""

import asyncio
from contextlib import AsyncExitStack
from dataclasses import dataclass
from pathlib import Path

from manualgen.press.browser import Browser, BrowserError, Document, open_browser
from manualgen.press.errors import PressError
from manualgen.press.jobs import WideElement
from manualgen.press.overflow import Fit, measure_fit

# A hundred times what a long experiment takes on an old computer.
PATIENCE_SECONDS = 120

LEAST_SCALE = 2 / 3  # Chromium shrinks no further; what is left over it cuts off
MM_PER_PX = 25.4 / 96


@dataclass(frozen=True, slots=True)
class Proof:
    """A document off the press, how it fitted, and what made it not fit."""

    document: Document
    scale: float
    wide: tuple[WideElement, ...]


class Worker:
    """Prints one document at a time with a browser of its own."""

    def __init__(self, executable: Path, root: Path) -> None:
        self._executable = executable
        self._root = root
        self._stack = AsyncExitStack()
        self._browser: Browser | None = None

    async def print_html(self, name: str, html: Path) -> Proof:
        """Print one document; raises PressError, with its name, the second time."""
        try:
            return await self._attempt(html)
        except (BrowserError, TimeoutError):
            await self.close()
        try:
            return await self._attempt(html)
        except (BrowserError, TimeoutError) as error:
            await self.close()
            raise PressError(self._complaint(error), name) from error

    async def close(self) -> None:
        """Close the browser, if one is open, in whatever state it is."""
        self._browser = None
        stack, self._stack = self._stack, AsyncExitStack()
        try:
            async with asyncio.timeout(PATIENCE_SECONDS):
                await stack.aclose()
        except (BrowserError, TimeoutError):
            pass  # it was dead already, which is why it is being closed

    async def _attempt(self, html: Path) -> Proof:
        async with asyncio.timeout(PATIENCE_SECONDS):
            if self._browser is None:
                self._browser = await self._stack.enter_async_context(
                    open_browser(self._executable, self._root)
                )
            document = await self._browser.print_html(html)
            fit = await asyncio.to_thread(measure_fit, document.pdf)
            wide = await find_wide(self._browser, fit)
            return Proof(document, fit.scale if wide else 1, wide)

    def _complaint(self, error: Exception) -> str:
        if isinstance(error, TimeoutError):
            return f"the browser {self._executable} did not finish in time, twice"
        reason = str(error).strip().partition("\n")[0]
        return f"the browser {self._executable} failed twice: {reason}"


async def find_wide(browser: Browser, fit: Fit) -> tuple[WideElement, ...]:
    """What made the print shrink, on the widest of its pages that shows it."""
    if fit.scale == 1:
        return ()
    for width in fit.widths_px:
        wide = await browser.find_wide(width)
        if wide and explains(max(e.excess_mm for e in wide), width, fit.scale):
            return wide
    return ()


def explains(excess_mm: float, width_px: float, scale: float) -> bool:
    """Whether an excess over this width makes Chromium shrink by about so much."""
    width_mm = width_px * MM_PER_PX
    needed = width_mm / (width_mm + excess_mm)
    return abs(max(needed, LEAST_SCALE) - scale) < 0.1
