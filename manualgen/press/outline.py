"""The outline of a PDF, what viewers show beside the pages, as plain values."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from pikepdf import Array, Name, OutlineItem, Pdf

from manualgen.press.places import page_key, page_numbers


@dataclass(frozen=True, slots=True)
class Entry:
    """A heading, the page that it stands on, counted from 0, and those under it.

    `left` and `top` are its place on the page in points from the lower left
    corner, None for wherever the reader is.
    """

    title: str
    page: int
    left: Decimal | None = None
    top: Decimal | None = None
    entries: tuple["Entry", ...] = ()


def read_outline(pdf: Pdf) -> tuple[Entry, ...]:
    """The outline that the browser made of the document's headings."""
    # As a context it would be written back as well.
    return tuple(_read(pdf.open_outline().root, page_numbers(pdf)))


def _read(
    items: Iterable[OutlineItem], pages: dict[tuple[int, int], int]
) -> Iterator[Entry]:
    for item in items:
        if isinstance(item.destination, Array):
            page, _, left, top = item.destination.as_list()[:4]
            yield Entry(
                item.title,
                pages[page_key(page)],
                Decimal(str(left)),
                Decimal(str(top)),
                tuple(_read(item.children, pages)),
            )


def write_outline(pdf: Pdf, entries: Iterable[Entry]) -> None:
    """Give the PDF this outline; only its first level is shown unfolded."""
    with pdf.open_outline() as outline:
        outline.root[:] = [_item(pdf, entry) for entry in entries]


def _item(pdf: Pdf, entry: Entry) -> OutlineItem:
    page = pdf.pages[entry.page].obj
    item = OutlineItem(entry.title, Array([page, Name.XYZ, entry.left, entry.top, 0]))
    item.is_closed = True
    item.children[:] = [_item(pdf, inner) for inner in entry.entries]
    return item


def moved(entry: Entry, pages: int) -> Entry:
    """The entry, that many pages further on."""
    inner = tuple(moved(e, pages) for e in entry.entries)
    return Entry(entry.title, entry.page + pages, entry.left, entry.top, inner)
