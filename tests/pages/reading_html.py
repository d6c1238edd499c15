"""HTML read back with the standard library, which has no part in making it."""

from __future__ import annotations

from collections import Counter
from html.parser import HTMLParser

VOID = frozenset(
    [
        "area",
        "base",
        "br",
        "col",
        "embed",
        "hr",
        "img",
        "input",
        "link",
        "meta",
        "source",
        "track",
        "wbr",
    ]
)


class Reader(HTMLParser):
    """What stands in a document: its words, its ids, its links, its headings."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.faults: list[str] = []
        self.ids: Counter[str] = Counter()
        self.links: list[str] = []
        self.loaded: list[str] = []
        self.headings: list[int] = []
        self.classes: Counter[str] = Counter()
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if len(given) != len(attrs):
            self.faults.append(f"<{tag}> has an attribute twice")
        if "id" in given:
            self.ids[given["id"]] += 1
        self.classes.update(given.get("class", "").split())
        if tag == "a":
            self.links.append(given.get("href", ""))
        if tag in ("link", "script", "img"):
            self.loaded.append(given.get("href") or given.get("src", ""))
        if len(tag) == 2 and tag[0] == "h" and tag[1].isdigit():
            self.headings.append(int(tag[1]))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open[-1] != tag:
            self.faults.append(f"</{tag}> closes {self.open[-1:]}")
        else:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        if "style" not in self.open[-1:] and "script" not in self.open[-1:]:
            self.words.append(data)


def read(html: str) -> Reader:
    """A document read to its end."""
    reader = Reader()
    reader.feed(html)
    reader.close()
    if reader.open:
        reader.faults.append(f"never closed: {reader.open}")
    return reader
