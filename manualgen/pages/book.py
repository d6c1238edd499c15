"""What the pages around the experiments are made from."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from manualgen.editions.key import NO_KEY, Key
from manualgen.editions.sheet import BoxPanel, QuestionItem, Sheet
from manualgen.editions.within import within


@dataclass(frozen=True, slots=True)
class BookEntry:
    """An experiment in its place in the book."""

    sheet: Sheet
    key: Key = NO_KEY
    pages: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    """The page on which each anchor stands: ``4-2``; what is missing is not told."""

    @property
    def first_page(self) -> str:
        """The number of the experiment's first page."""
        return f"{self.sheet.number}-1"

    def page_of(self, anchor: str) -> str:
        """The number of the page where an anchor stands, or of the first."""
        return self.pages.get(anchor, self.first_page)

    @property
    def total_marks(self) -> int:
        """The marks of all questions."""
        return sum(map(_marks, self.questions()))

    def boxes(self) -> Iterator[BoxPanel]:
        """The author's numbered safety boxes, in order."""
        return (b for b in within(self.sheet, BoxPanel) if b.number)

    def questions(self) -> tuple[QuestionItem, ...]:
        """The questions, each with its parts inside it."""
        return tuple(
            panel
            for section in self.sheet.sections
            for panel in section.blocks
            if isinstance(panel, QuestionItem)
        )


def _marks(question: QuestionItem) -> int:
    return (question.marks or 0) + sum(map(_marks, question.parts))


@dataclass(frozen=True, slots=True)
class BookPart:
    """A part of the manual."""

    title: str
    entries: tuple[BookEntry, ...]


@dataclass(frozen=True, slots=True)
class Book:
    """The manual of one edition."""

    parts: tuple[BookPart, ...]
    record: bool = False
    """Whether it opens with a page where students record what they have done."""
    _entries: tuple[BookEntry, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        entries = (entry for part in self.parts for entry in part.entries)
        object.__setattr__(self, "_entries", tuple(entries))

    def entries(self) -> tuple[BookEntry, ...]:
        """Every experiment, in order."""
        return self._entries


@dataclass(frozen=True, slots=True)
class IndexRow:
    """A word of the index, and where it leads."""

    word: str
    entries: tuple[BookEntry, ...]


def index_of_chemicals(book: Book) -> tuple[IndexRow, ...]:
    """The chemicals as students know them, in alphabetical order."""
    return _index(book, lambda sheet: (row.name for row in sheet.chemicals))


def index_of_techniques(book: Book) -> tuple[IndexRow, ...]:
    """The techniques, in alphabetical order."""
    return _index(book, lambda sheet: iter(sheet.techniques))


def _index(
    book: Book, words_of: Callable[[Sheet], Iterator[str]]
) -> tuple[IndexRow, ...]:
    found: dict[str, list[BookEntry]] = {}
    for entry in book.entries():
        for word in dict.fromkeys(words_of(entry.sheet)):
            found.setdefault(word, []).append(entry)
    ordered = sorted(found, key=lambda word: (word.casefold(), word))
    return tuple(IndexRow(word, tuple(found[word])) for word in ordered)
