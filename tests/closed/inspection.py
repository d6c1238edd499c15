"""What in a built page runs, or reaches outside it; read with the standard library.

Nothing here knows how the pages are made.  A page may load the two scripts and
the style sheets that every page has; a person may follow a link by https.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

SCRIPTS = frozenset({"assets/search-index.js", "assets/search.js"})
RUNNING = re.compile(
    "applet|base|embed|form|frame|frameset|iframe|object|param|portal"
    "|foreignobject|animate|animatemotion|animatetransform|set|handler"
)
"""Elements that run, load or lead elsewhere, by HTML, SVG 1.1 and SVG 2."""

LOADED = re.compile(
    "src|srcset|href|xlink:href|action|formaction|data|poster|background|cite"
    "|ping|manifest|longdesc|codebase|archive|usemap"
)
"""Attributes that hold an address, by the HTML standard's table of attributes."""

STYLE = re.compile(
    r"@import|expression\s*\(|javascript:|url\(\s*[\"']?(?!faces/)", re.IGNORECASE
)
SCHEME = re.compile(r"[a-z][a-z0-9+.-]*:", re.IGNORECASE)


class _Inspector(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.inside = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.inside = tag
        if RUNNING.fullmatch(tag):
            self.found.append(f"<{tag}>")
        if tag == "script" and given != {"src": given.get("src", "")}:
            self.found.append(f"<script {given}>")
        if tag == "script" and given.get("src") not in SCRIPTS:
            self.found.append(f"<script src={given.get('src')!r}>")
        if tag == "meta" and "http-equiv" in given:
            self.found.append("<meta http-equiv>")
        for name, value in given.items():
            self.found += _in_attribute(tag, name, value)

    def handle_endtag(self, tag: str) -> None:
        self.inside = ""

    def handle_data(self, data: str) -> None:
        if self.inside == "script" and data.strip():
            self.found.append(f"a script's text {data!r}")
        if self.inside == "style" and STYLE.search(data):
            self.found.append(f"a style sheet's text {data!r}")

    def handle_comment(self, data: str) -> None:
        self.found.append(f"a comment {data!r}")

    def handle_decl(self, decl: str) -> None:
        if decl.casefold() != "doctype html":
            self.found.append(f"a declaration {decl!r}")

    def unknown_decl(self, data: str) -> None:
        self.found.append(f"a declaration {data!r}")

    def handle_pi(self, data: str) -> None:
        self.found.append(f"an instruction {data!r}")


def _in_attribute(tag: str, name: str, value: str) -> Iterator[str]:
    if name.startswith("on") or name == "srcdoc":
        yield f"{name}={value!r}"
    if name == "style" and STYLE.search(value):
        yield f"style={value!r}"
    if not LOADED.fullmatch(name):
        return
    address = re.sub(r"[\x00-\x20]", "", value)
    by_hand = tag == "a" and name == "href" and address.lower().startswith("https://")
    leaves = SCHEME.match(address) or address.startswith(("/", "\\")) or "\\" in address
    if leaves and not by_hand:
        yield f"<{tag} {name}={value!r}>"


def reaching_out(html: str) -> list[str]:
    """Everything in a page that runs or reaches outside, in order."""
    inspector = _Inspector()
    inspector.feed(html)
    inspector.close()
    return inspector.found
