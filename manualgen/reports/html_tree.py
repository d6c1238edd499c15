"""The pages' own HTML as a tree, to mark parts of it and to set it in elsewhere.

It reads what the templates write, which is well formed; it is no reader for
pages of the wide world.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from html import escape
from html.parser import HTMLParser
from typing import TypeAlias

VOID = frozenset({"br", "col", "hr", "img", "input", "link", "meta", "wbr"})


@dataclass(frozen=True, slots=True)
class Element:
    """An element with what is in it."""

    tag: str
    attributes: Mapping[str, str]
    children: tuple[Node, ...]

    def having(self, **attributes: str) -> Element:
        """The same element with these attributes set."""
        named = {name.rstrip("_"): text for name, text in attributes.items()}
        return replace(self, attributes={**self.attributes, **named})

    @property
    def classes(self) -> tuple[str, ...]:
        """Its classes."""
        return tuple(self.attributes.get("class", "").split())

    def elements(self) -> Iterator[Element]:
        """It and every element inside it, in order."""
        yield self
        for child in self.children:
            if isinstance(child, Element):
                yield from child.elements()

    def __str__(self) -> str:
        attributes = "".join(
            f' {name}="{escape(text)}"' for name, text in self.attributes.items()
        )
        inside = "".join(map(str, self.children))
        end = "" if self.tag in VOID else f"</{self.tag}>"
        return f"<{self.tag}{attributes}>{inside}{end}"


Node: TypeAlias = Element | str
"""An element, or text as it is written, references and all."""


def main_of(html: str) -> Element:
    """The main part of a page; empty where it has none."""
    parser = _Reader()
    parser.feed(html)
    parser.close()
    found = (e for e in parser.whole().elements() if e.tag == "main")
    return next(found, Element("main", {}, ()))


class _Reader(HTMLParser):
    """Collects elements; what is open stands on a stack."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self._open: list[tuple[str, dict[str, str], list[Node]]] = [("", {}, [])]

    def whole(self) -> Element:
        """All that was read, as one element."""
        while len(self._open) > 1:
            self._end()
        return Element("", {}, tuple(self._open[0][2]))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._open.append((tag, {name: text or "" for name, text in attrs}, []))
        if tag in VOID:
            self._end()

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._end()

    def handle_endtag(self, tag: str) -> None:
        if tag in (name for name, _, _ in self._open):
            while self._end() != tag:
                pass

    def handle_data(self, data: str) -> None:
        self._open[-1][2].append(data)

    def handle_entityref(self, name: str) -> None:
        self._open[-1][2].append(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self._open[-1][2].append(f"&#{name};")

    def _end(self) -> str:
        tag, attributes, children = self._open.pop()
        self._open[-1][2].append(Element(tag, attributes, tuple(children)))
        return tag
