"""The marked content of a PDF in the order of its tags (ISO 32000-1, 14.7)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pikepdf


@dataclass(frozen=True)
class Run:
    """A piece of marked content: its page, from 0, and the tags it stands in."""

    page: int
    number: int
    within: tuple[str, ...]

    @property
    def is_heading(self) -> bool:
        """Whether it is part of a heading."""
        return any(tag[0] == "H" and tag[1:].isdigit() for tag in self.within)


def tagged_runs(pdf: Path) -> list[Run]:
    """Every piece of marked content that has a tag, as a voice would read them."""
    with pikepdf.open(pdf) as opened:
        pages = {page.obj.objgen: n for n, page in enumerate(opened.pages)}
        return list(_runs(opened.Root.StructTreeRoot.K, (), None, pages))


def _runs(
    node: pikepdf.Object,
    within: tuple[str, ...],
    page: pikepdf.Object | None,
    pages: dict[tuple[int, int], int],
) -> Iterator[Run]:
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from _runs(kid, within, page, pages)
    elif isinstance(node, int):
        assert page is not None
        yield Run(pages[page.objgen], node, within)
    elif node.get("/Type") == "/MCR":
        yield Run(pages[node.Pg.objgen], int(node.MCID), within)
    elif "/S" in node:
        inner = (*within, str(node.S).removeprefix("/"))
        yield from _runs(
            node.get("/K", pikepdf.Array()), inner, node.get("/Pg", page), pages
        )


def elements(pdf: Path) -> list[str]:
    """The names of the structure elements, in the order of the tree."""
    with pikepdf.open(pdf) as opened:
        return list(_names(opened.Root.StructTreeRoot.K))


def _names(node: pikepdf.Object) -> Iterator[str]:
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from _names(kid)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        yield str(node.S).removeprefix("/")
        yield from _names(node.get("/K", pikepdf.Array()))


def linked(pdf: Path) -> list[str]:
    """Where the links lead, by the order of their tags."""
    with pikepdf.open(pdf) as opened:
        return list(_linked(opened.Root.StructTreeRoot.K))


def _linked(node: pikepdf.Object) -> Iterator[str]:
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from _linked(kid)
    elif isinstance(node, pikepdf.Dictionary) and "/Obj" in node:
        yield str(node.Obj.get("/Dest", ""))
    elif isinstance(node, pikepdf.Dictionary):
        yield from _linked(node.get("/K", pikepdf.Array()))
