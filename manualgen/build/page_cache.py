"""Rendered pages, so that what has not changed is not rendered again.

A page is found by all that it is made from: its sheet, its key, what surrounds
it, and the program.  A change elsewhere that does not reach the page leaves it
where it is.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from manualgen.build.edition import Edition, experiment_page
from manualgen.editions.sheet import Sheet
from manualgen.pages.search import places_of
from manualgen.press.store import Store


class Rendered(NamedTuple):
    """An experiment's page, and what the search finds in it."""

    page: bytes
    places: str


def render(edition: Edition, index: int) -> Rendered:
    """The page of the experiment at ``index``."""
    page = experiment_page(edition, index)
    if edition.large or edition.snug:  # which is for paper, and not searched
        return Rendered(page, "")
    sheet = edition.entries[index].sheet
    return Rendered(page, places_of(sheet, edition.context()))


@dataclass(frozen=True, slots=True)
class PageCache:
    """Pages in a store."""

    store: Store
    program: Mapping[str, object]
    """What renders them: the program, its templates and its libraries."""
    last: list[tuple[Sheet, str]] = field(default_factory=list)
    """The sheet that was last asked for, and its digest: editions share theirs."""

    def render(self, edition: Edition, index: int) -> Rendered:
        """The page of the experiment at ``index``, as it was kept if it was."""
        name = self._name(edition, index)
        kept = self.store.find(name)
        if kept is not None:
            places, _, page = kept.partition(b"\n")
            return Rendered(page, places.decode())
        made = render(edition, index)
        self.store.keep(name, made.places.encode() + b"\n" + made.page)
        return made

    def _name(self, edition: Edition, index: int) -> str:
        entry = edition.entries[index]
        made_from = repr((entry.key, edition.context_of(index)))
        program = json.dumps(self.program, sort_keys=True)
        sheet = self._digest(entry.sheet)
        digest = hashlib.sha256(f"{program}\n{sheet}\n{made_from}".encode())
        return f"{digest.hexdigest()}.page"

    def _digest(self, sheet: Sheet) -> str:
        if not (self.last and self.last[0][0] is sheet):
            digest = hashlib.sha256(repr(sheet).encode())
            self.last[:] = [(sheet, digest.hexdigest())]
        return self.last[0][1]
