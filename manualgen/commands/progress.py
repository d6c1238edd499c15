"""How far long work has come: a bar on a terminal, plain lines elsewhere."""

from __future__ import annotations

import sys
from collections.abc import Callable

WIDTH = 30
LINES = 4
"""Plain lines in all where there is no terminal."""


def progress_bar(what: str) -> Callable[[int, int], None]:
    """A function to call with how much is done, of how much."""
    return _bar(what) if sys.stderr.isatty() else _lines(what)


def _bar(what: str) -> Callable[[int, int], None]:
    def show(done: int, of: int) -> None:
        full = WIDTH * done // of
        end = "\n" if done == of else ""
        bar = "█" * full + "·" * (WIDTH - full)
        sys.stderr.write(f"\r{what} {bar} {done}/{of}{end}")
        sys.stderr.flush()

    return show


def _lines(what: str) -> Callable[[int, int], None]:
    def show(done: int, of: int) -> None:
        step = max(1, of // LINES)
        if done % step == 0 or done == of:
            sys.stderr.write(f"{what}: {done} of {of}\n")

    return show
