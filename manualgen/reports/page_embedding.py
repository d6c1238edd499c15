"""A page set into a report: ids of its own, links that stay inside, pictures in it."""

from __future__ import annotations

import base64
import mimetypes
import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace

from manualgen.reports.html_tree import Element, Node
from manualgen.reports.page_marks import DIFFERS
from manualgen.sources import SourceError

_LEFT_OUT = ("on-page",)
"""Classes of what serves a page of its own alone."""
_REFERRING = ("aria-labelledby", "aria-describedby", "for", "headers")
_WITHIN_SVG = re.compile(r"url\(#([^)]+)\)")
_ASSETS = "assets/"


@dataclass(frozen=True, slots=True)
class Embedding:
    """One version's pages in the report."""

    side: str
    """``before`` or ``after``; ids begin with it."""
    experiments: Collection[str]
    """Whose pages are in the report."""
    picture: Callable[[str], bytes]

    def prefix(self, experiment: str) -> str:
        """What the ids of an experiment's page begin with."""
        return f"{self.side}.{experiment}."

    def page(self, experiment: str, main: Element) -> Element:
        """The page as it stands in the report, its first difference named."""
        numbered = _first_named(main)
        prefix = self.prefix(experiment)
        found = _Setting(self, prefix).element(numbered)
        attributes = {"class": "sheet", "id": f"{prefix}top"}
        return replace(found, tag="div", attributes=attributes)


def _first_named(main: Element) -> Element:
    """The page with an id at its first difference, to lead there."""
    first = next((e for e in main.elements() if DIFFERS in e.classes), None)
    return _with_id(main, first) if first is not None else main


def _with_id(element: Element, wanted: Element) -> Element:
    if element is wanted:
        named = element.attributes.get("id") or DIFFERS
        return element.having(id=named)
    return replace(
        element,
        children=tuple(
            c if isinstance(c, str) else _with_id(c, wanted) for c in element.children
        ),
    )


@dataclass(frozen=True, slots=True)
class _Setting:
    """Sets one page's elements."""

    embedding: Embedding
    prefix: str

    def element(self, element: Element) -> Element:
        tag, attributes = element.tag, self._attributes(element.attributes)
        if tag == "section":
            tag = "div"
            attributes.pop("aria-labelledby", None)
        if tag == "img":
            return self._picture(attributes)
        children = tuple(self._node(c) for c in element.children if not _is_left_out(c))
        return Element(tag, attributes, children)

    def _node(self, node: Node) -> Node:
        return node if isinstance(node, str) else self.element(node)

    def _attributes(self, attributes: Mapping[str, str]) -> dict[str, str]:
        found: dict[str, str] = {}
        for name, text in attributes.items():
            if name == "id":
                found[name] = self.prefix + text
            elif name == "href":
                address = self._address(text)
                found.update({name: address} if address else {})
            elif name in _REFERRING:
                found[name] = " ".join(self.prefix + each for each in text.split())
            else:
                found[name] = _WITHIN_SVG.sub(rf"url(#{self.prefix}\1)", text)
        return found

    def _address(self, address: str) -> str | None:
        """Where a link leads in the report; None where it would lead to another file."""
        if address.startswith("https:"):
            return address
        page, _, anchor = address.partition("#")
        if not page:
            return f"#{self.prefix}{anchor}"
        experiment = page.removesuffix(".html")
        if experiment not in self.embedding.experiments:
            return None
        return f"#{self.embedding.prefix(experiment)}{anchor or 'top'}"

    def _picture(self, attributes: Mapping[str, str]) -> Element:
        """A picture with its bytes, or its description where they cannot be had."""
        file = attributes.get("src", "").removeprefix(_ASSETS)
        try:
            content = self.embedding.picture(file)
        except SourceError:
            words = attributes.get("alt", "")
            return Element("span", {"class": "missing"}, (words.replace("<", "&lt;"),))
        kind = mimetypes.guess_type(file)[0] or "application/octet-stream"
        data = base64.b64encode(content).decode("ascii")
        return Element("img", {**attributes, "src": f"data:{kind};base64,{data}"}, ())


def _is_left_out(node: Node) -> bool:
    return isinstance(node, Element) and any(c in node.classes for c in _LEFT_OUT)
