"""The pages of the manual as it is now, kept in memory.

Whatever is wrong with a save, the pages stay: what could be read is shown with
the findings about it, and a save from which nothing can be made leaves the
pages before it.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

Pages = Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class Made:
    """What one working-out gives: files by address, and a sentence on how it went."""

    pages: Pages
    summary: str


@dataclass(slots=True)
class Live:
    """The latest pages; readers and the one writer may be on different threads."""

    make: Callable[[int], Made]
    """Works everything out for the version of this number."""
    version: int = 0
    pages: Pages = field(default_factory=lambda: MappingProxyType({}))
    summary: str = ""
    _looked_at: set[str] = field(default_factory=set)
    """The pages that are open in a browser, most likely."""
    _changed: threading.Condition = field(default_factory=threading.Condition)

    def renew(self) -> str:
        """Work everything out again; gives a sentence on how it went."""
        try:
            made = self.make(self.version + 1)
            for name in self._looked_at & set(made.pages):
                made.pages[name]  # before the browser is told to ask for it
        except Exception as error:
            # Whatever it is, the author wants the pages before it, and to be told.
            made = Made(self.pages, f"the pages are as they were: {error!r}")
        with self._changed:
            self.pages, self.summary = made.pages, made.summary
            self.version += 1
            self._looked_at.clear()
            self._changed.notify_all()
        return made.summary

    def page(self, name: str) -> bytes | None:
        """A file by its address, or None; raises what making it raises."""
        pages = self.pages
        if name not in pages:
            return None
        if name.endswith(".html"):
            self._looked_at.add(name)
        return pages[name]

    def wait_after(self, version: int, seconds: float) -> int:
        """The version that follows, or the same one when the time is up."""
        with self._changed:
            self._changed.wait_for(lambda: self.version > version, seconds)
            return self.version
