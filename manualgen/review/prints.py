"""What has to be printed again: exactly the pages that print otherwise.

A page is compared as it is printed, in both editions.  Anchors and the links
inside the manual are no ink, so they are left out; a picture counts by what it
shows, since its file may be another under the same name.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from manualgen.review.changes import Change, Reprint
from manualgen.review.order import Pairs

_NO_INK = re.compile(
    r' (?:id|href|aria-labelledby|rel)="(?!https:)[^"]*"|<div class="aside"></div>'
)
"""What cannot be seen: names, ways, and where a note would stand in the margin."""


class PrintedPage:
    """A page, rendered when somebody first looks at it.

    What is printed the same of both manuals is one object, at which nobody looks.
    """

    def __init__(self, render: Callable[[], str], number: str = "") -> None:
        self._render = render
        self._number = number
        """The experiment's, which stands on each of its pages."""

    @cached_property
    def html(self) -> str:
        """The page itself."""
        return self._render()

    def prints_as(self, other: PrintedPage | None) -> bool:
        """Whether both leave the same on paper."""
        if other is None or other is self:
            return other is self
        if other._number != self._number:
            return False
        return inked(other.html) == inked(self.html)


@dataclass(frozen=True, slots=True)
class Printed:
    """One edition of one manual as its pages."""

    edition: str
    pages: Mapping[str, PrintedPage]
    """By experiment, for those that the manual lists."""
    matter: Mapping[str, PrintedPage]
    """What stands before and after them, by what it is called."""
    pictures: Mapping[str, Mapping[str, str]]
    """The digests of the pictures on each experiment's page, by file."""

    def prints_as(self, new: str, before: Printed, old: str | None) -> bool:
        """Whether an experiment's page leaves on paper what another edition's left."""
        page, was = self.pages.get(new), before.pages.get(old or "")
        pictures = self.pictures.get(new, {}), before.pictures.get(old or "", {})
        return page is None or (pictures[0] == pictures[1] and page.prints_as(was))


def inked(html: str) -> str:
    """A page without what leaves no mark on paper."""
    return " ".join(_NO_INK.sub("", html).split())


def reprints(before: Printed, after: Printed, pairs: Pairs) -> Reprint:
    """What of an edition has to be printed again."""
    experiments = [
        new.experiment.id
        for old, new in pairs
        if new
        and not after.prints_as(
            new.experiment.id, before, old.experiment.id if old else None
        )
    ]
    matter = [
        name
        for name, page in after.matter.items()
        if not page.prints_as(before.matter.get(name))
    ]
    return Reprint(after.edition, tuple(experiments), tuple(matter))


def picture_changes(
    before: Printed, after: Printed, old: str, new: str
) -> Iterator[Change]:
    """Pictures that are others under the same name."""
    was, now = before.pictures.get(old, {}), after.pictures.get(new, {})
    for file, digest in now.items():
        if file in was and was[file] != digest:
            yield Change("picture", file, None, "another picture under the same name")
