"""Joins prints into a book: outline, page labels, links, tags and language.

What belongs to pages travels with them. What belongs to the whole file has to
be made again from the parts': the outline, the page labels, and the links from
one document to another, which in the book lead to a page of the book. Tags and
the names of places are `binding.py`'s.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from pathlib import Path

from pikepdf import Array, Dictionary, Name, Object, Pdf, String

from manualgen.press.binding import Binding
from manualgen.press.jobs import Places
from manualgen.press.links import link_annotations, read_address, uri_of
from manualgen.press.normalise import set_metadata, to_bytes
from manualgen.press.outline import Entry, moved, read_outline, write_outline
from manualgen.press.places import places_of


@dataclass(frozen=True, slots=True)
class Labels:
    """How pages are called from one place on: `4-` gives 4-1, 4-2, 4-3.

    `place` is the id where these pages begin, or empty for the part's first;
    `roman` pages are i, ii, iii.
    """

    prefix: str
    place: str = ""
    roman: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """A finished print that goes into a book.

    `title` is its entry in the outline, under `group`, a heading that it
    shares with its neighbours, where there is one. The file's name without its
    ending is the document's, by which others link to it.
    """

    pdf: Path
    title: str
    labels: tuple[Labels, ...] = ()
    group: str = ""


@dataclass(frozen=True, slots=True)
class _Bound:
    """A part as it stands in the book: its first page, places and headings."""

    part: Part
    first: int
    places: Places
    headings: tuple[Entry, ...]


def join_book(
    parts: Sequence[Part],
    title: str,
    language: str,
    when: datetime,
    *,
    duplex: bool = False,
) -> bytes:
    """The parts, in their order, as one PDF with this title and language.

    With `duplex` each part begins on a right-hand page, after an empty one if
    need be. Raises OSError where a part cannot be read.
    """
    with Pdf.new() as book:
        binding = Binding(book)
        bound = [_bind(part, binding, duplex) for part in parts]
        binding.finish(language)
        write_outline(book, _outline(bound))
        book.Root.PageLabels = _page_labels(bound)
        _lead_links(book, {b.part.pdf.stem: b for b in bound})
        book.Root.Lang = String(language)
        book.Root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
        set_metadata(book, title, when)
        return to_bytes(book)


def _bind(part: Part, binding: Binding, duplex: bool) -> _Bound:
    with Pdf.open(part.pdf) as source:
        if duplex and len(binding.book.pages) % 2:
            _, _, width, height = map(float, source.pages[0].mediabox.as_list())
            binding.book.add_blank_page(page_size=(width, height))
        places, headings = places_of(source), read_outline(source)
        return _Bound(part, binding.add(source), places, headings)


def _outline(bound: Sequence[_Bound]) -> Iterator[Entry]:
    for group, members in groupby(bound, key=lambda b: b.part.group):
        entries = tuple(_entry(member) for member in members)
        if group:
            yield Entry(group, entries[0].page, entries=entries)
        else:
            yield from entries


def _entry(bound: _Bound) -> Entry:
    """The part's entry; a lone heading over all others is the part's own title."""
    headings = bound.headings
    if len(headings) == 1:
        headings = headings[0].entries
    inner = tuple(moved(heading, bound.first) for heading in headings)
    return Entry(bound.part.title, bound.first, entries=inner)


def _page_labels(bound: Sequence[_Bound]) -> Dictionary:
    """The page labels (ISO 32000-1, 12.4.2); a part without any is 1, 2, 3."""
    numbers: list[Object | int] = []
    for b in bound:
        for labels in b.part.labels or (Labels(""),):
            page = b.places.by_id.get(labels.place, 0) if labels.place else 0
            style = Name.r if labels.roman else Name.D
            label = Dictionary(S=style, P=String(labels.prefix))
            numbers += [b.first + page, label]
    return Dictionary(Nums=Array(numbers))


def _lead_links(book: Pdf, bound: dict[str, _Bound]) -> None:
    """Let links to another document's PDF lead to its page of this book."""
    for page in book.pages:
        for link in link_annotations(page):
            address = read_address(uri_of(link))
            if address is None:
                continue
            del link.A
            document, place = address
            if document in bound:
                link.Dest = _target(book, bound[document], place)


def _target(book: Pdf, bound: _Bound, place: str) -> Object:
    if place.partition("/")[2] in bound.places.by_id:
        return String(place)
    return Array([book.pages[bound.first].obj, Name.Fit])
