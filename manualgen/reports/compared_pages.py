"""An experiment's page before and after, as both stand in a report.

The pages are the teacher's, which say all that students' pages say.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from manualgen.reports.html_tree import Element, main_of
from manualgen.reports.page_embedding import Embedding
from manualgen.reports.page_marks import DIFFERS, marked
from manualgen.review.changes import Change, ExperimentChange
from manualgen.review.compare import Version

BEFORE, AFTER = "before", "after"
_HEADINGS = ("h2", "h3")
_TAGS = re.compile(r"<[^>]*>")


@dataclass(frozen=True, slots=True)
class SetPage:
    """One version of a page, set into the report."""

    side: str
    prefix: str
    html: Markup
    ids: frozenset[str]
    headings: Mapping[str, str]
    """The id of a heading by its words."""

    def address(self, anchor: str, heading: str) -> str:
        """The id at which something stands, or where the page first differs."""
        wanted = (
            self.prefix + anchor,
            self.headings.get(heading, ""),
            self.prefix + DIFFERS,
        )
        return next((w for w in wanted if w in self.ids), f"{self.prefix}top")


@dataclass(frozen=True, slots=True)
class Versions:
    """Both manuals, and how their pictures are had."""

    base: Version
    head: Version
    pictures: tuple[Callable[[str], bytes], Callable[[str], bytes]]

    def embeddings(
        self, listed: Collection[ExperimentChange]
    ) -> tuple[Embedding, Embedding]:
        """How the pages of these experiments are set in."""
        old = {e.old_id for e in listed if e.old_id is not None}
        new = {e.id for e in listed}
        return (
            Embedding(BEFORE, frozenset(old), self.pictures[0]),
            Embedding(AFTER, frozenset(new), self.pictures[1]),
        )


def set_pages(
    experiment: ExperimentChange,
    versions: Versions,
    embeddings: tuple[Embedding, Embedding],
) -> tuple[SetPage, ...]:
    """The pages there are, the older first; what differs in both is marked."""
    old = _main(versions.base, experiment.old_id)
    new = _main(versions.head, experiment.id)
    if old is not None and new is not None:
        old, new = marked(old, new)
    sides = (
        (embeddings[0], experiment.old_id, old),
        (embeddings[1], experiment.id, new),
    )
    return tuple(
        _set_in(embedding, id_, main)
        for embedding, id_, main in sides
        if id_ is not None and main is not None
    )


def _main(version: Version, experiment: str | None) -> Element | None:
    page = version.teachers.pages.get(experiment or "")
    return main_of(page.html) if page else None


def _set_in(embedding: Embedding, experiment: str, main: Element) -> SetPage:
    page = embedding.page(experiment, main)
    elements = tuple(page.elements())
    return SetPage(
        embedding.side,
        embedding.prefix(experiment),
        Markup(str(page)),
        frozenset(e.attributes["id"] for e in elements if "id" in e.attributes),
        {
            _words(e): e.attributes["id"]
            for e in elements
            if e.tag in _HEADINGS and "id" in e.attributes
        },
    )


def _words(element: Element) -> str:
    return " ".join(_TAGS.sub("", "".join(map(str, element.children))).split())


def links(change: Change, pages: tuple[SetPage, ...]) -> Iterator[tuple[str, str]]:
    """Where a change stands: the side, and the id on its page."""
    texts = {BEFORE: change.before, AFTER: change.after}
    anchors = dict(zip((BEFORE, AFTER), change.anchors, strict=True))
    for page in pages:
        if texts[page.side] is not None or not any(texts.values()):
            yield page.side, page.address(anchors[page.side], change.what)
