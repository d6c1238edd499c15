"""What has to be printed again: exactly the pages that print otherwise.

A page is compared as it is printed, in both editions.  Anchors and the links
inside the manual are no ink, so they are left out; a picture counts by what it
shows, since its file may be another under the same name.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from manualgen.review.changes import Change, Reprint
from manualgen.review.order import Pairs

_NO_INK = re.compile(r' (?:id|href|aria-labelledby|rel)="(?!https:)[^"]*"')


@dataclass(frozen=True, slots=True)
class Printed:
    """One edition of one manual as its pages."""

    edition: str
    pages: Mapping[str, str]
    """HTML by experiment, for those that the manual lists."""
    matter: Mapping[str, str]
    """HTML of what stands before and after them, by what it is called."""
    pictures: Mapping[str, Mapping[str, str]]
    """The digests of the pictures on each experiment's page, by file."""

    def ink(self, experiment: str) -> tuple[str, Mapping[str, str]] | None:
        """What is on a page; equal for two that print the same."""
        page = self.pages.get(experiment)
        if page is None:
            return None
        return inked(page), self.pictures.get(experiment, {})


def inked(html: str) -> str:
    """A page without what leaves no mark on paper."""
    return " ".join(_NO_INK.sub("", html).split())


def reprints(before: Printed, after: Printed, pairs: Pairs) -> Reprint:
    """What of an edition has to be printed again."""
    experiments = []
    for old, new in pairs:
        if new is None:
            continue
        was = before.ink(old.experiment.id) if old else None
        now = after.ink(new.experiment.id)
        if now is not None and now != was:
            experiments.append(new.experiment.id)
    matter = [
        name
        for name, html in after.matter.items()
        if inked(html) != inked(before.matter.get(name, ""))
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
