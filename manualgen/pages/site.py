"""The pages that lead into the manual: the start page, and an edition's contents."""

from __future__ import annotations

from dataclasses import dataclass

from manualgen.pages.book import Book
from manualgen.pages.context import PageContext
from manualgen.pages.environment import environment


@dataclass(frozen=True, slots=True)
class Offered:
    """A document of an edition: where it stands, and what it is."""

    address: str
    label: str
    """The key of its label."""


@dataclass(frozen=True, slots=True)
class Edition:
    """An edition as the start page offers it."""

    name: str
    """``student``, ``teacher`` or ``technician``: its folder."""
    documents: tuple[Offered, ...]


def render_start(editions: tuple[Edition, ...], context: PageContext) -> str:
    """``index.html`` of the site: where a person starts.

    It loads its style sheet from the first edition's folder.
    """
    return (
        environment()
        .get_template("start.html")
        .render(editions=editions, context=context, say=context.say)
    )


def render_contents(book: Book, context: PageContext) -> str:
    """``index.html`` of an edition: its contents by part, with search."""
    return (
        environment()
        .get_template("contents.html")
        .render(book=book, context=context, say=context.say)
    )
