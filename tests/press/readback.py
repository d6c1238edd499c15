"""Reads PDFs back with Poppler's programs and by walking their objects.

Poppler has no part in making our PDFs, so what it finds is there to be found.
"""

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pikepdf


def poppler(program: str, *words: object) -> str:
    """What one of Poppler's programs says."""
    command = [program, *(str(word) for word in words)]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def page_texts(pdf: Path) -> list[str]:
    """The text of each page, in the order of the page."""
    return poppler("pdftotext", "-layout", pdf, "-").split("\f")[:-1]


def tagged_text(pdf: Path) -> str:
    """The text as the structure tree gives it."""
    quoted = re.findall(r'^ *"(.*)"$', poppler("pdfinfo", "-struct-text", pdf), re.M)
    return " ".join(quoted)


def tags(pdf: Path) -> list[str]:
    """The names of the structure elements, in the order of the tree.

    Poppler calls a reference to an annotation an object, and so it is no tag.
    """
    return re.findall(
        r"^ *(?!Object)([A-Z]\w*)(?= |:|$)", poppler("pdfinfo", "-struct", pdf), re.M
    )


def figures(pdf: Path) -> list[str]:
    """The alternative text of each figure, in the order of the file."""
    with pikepdf.open(pdf) as opened:
        return [
            str(thing.get("/Alt", ""))
            for thing in opened.objects
            if isinstance(thing, pikepdf.Dictionary) and thing.get("/S") == "/Figure"
        ]


def header_ids(pdf: Path) -> list[str]:
    """The IDs of table cells, in the order of the file's table of them."""
    with pikepdf.open(pdf) as opened:
        return [str(n) for n in opened.Root.StructTreeRoot.IDTree.Names.as_list()[::2]]


def facts(pdf: Path) -> dict[str, str]:
    """What `pdfinfo` says of the file."""
    lines = poppler("pdfinfo", pdf).splitlines()
    return {k: v.strip() for k, _, v in (line.partition(":") for line in lines)}


def destinations(pdf: Path) -> dict[str, int]:
    """The page, counted from 1, of each named destination."""
    found = re.findall(
        r'^ *(\d+) \[.*?\] "(.*)"$', poppler("pdfinfo", "-dests", pdf), re.M
    )
    return {name: int(page) for page, name in found}


def fonts_are_embedded(pdf: Path) -> bool:
    """Whether `pdffonts` finds fonts, and each of them in the file."""
    rows = poppler("pdffonts", pdf).splitlines()[2:]
    return bool(rows) and all(row.split()[-5] == "yes" for row in rows)


def outline(pdf: Path) -> list[tuple[int, str]]:
    """The depth and title of each entry of the outline, from the top."""
    with pikepdf.open(pdf) as opened:
        return list(_outline(opened.Root.Outlines, 0))


def _outline(parent: pikepdf.Object, depth: int) -> Iterator[tuple[int, str]]:
    item = parent.get("/First")
    while item is not None:
        yield depth, str(item.Title)
        yield from _outline(item, depth + 1)
        item = item.get("/Next")


def links(pdf: Path) -> list[tuple[int, str]]:
    """The page of each link, counted from 1, and where it leads.

    `page 3` is a page of the same file, and what leads nowhere is empty.
    """
    with pikepdf.open(pdf) as opened:
        numbers = {page.obj.objgen: n for n, page in enumerate(opened.pages, start=1)}
        return [
            (number, _target(link, numbers))
            for number, page in enumerate(opened.pages, start=1)
            for link in page.obj.get("/Annots", ())
        ]


def _target(link: pikepdf.Object, pages: dict[tuple[int, int], int]) -> str:
    if "/A" in link:
        return str(link.A.URI)
    target = link.get("/Dest", "")
    if isinstance(target, pikepdf.Array):
        return f"page {pages[target[0].objgen]}"
    return str(target)


def unmarked_paint(pdf: Path) -> list[str]:
    """The painting operators that stand in no mark, tag or artefact."""
    with pikepdf.open(pdf) as opened:
        return [operator for page in opened.pages for operator in _unmarked(page)]


_PAINTS = {
    "f",
    "F",
    "f*",
    "S",
    "s",
    "B",
    "B*",
    "b",
    "b*",
    "Tj",
    "TJ",
    "'",
    '"',
    "Do",
    "sh",
}


def _unmarked(page: pikepdf.Page) -> Iterator[str]:
    marks: list[bool] = []
    for instruction in pikepdf.parse_content_stream(page):
        operator = str(instruction.operator)
        if operator in ("BDC", "BMC"):
            marks.append("/Span" not in str(instruction.operands[0]))
        elif operator == "EMC":
            marks.pop()
        elif operator in _PAINTS and not any(marks):
            yield operator


def shared_keys(pdf: Path) -> tuple[list[int], list[int]]:
    """The keys of the parent tree, and those that pages and links hold."""
    with pikepdf.open(pdf) as opened:
        numbers = opened.Root.StructTreeRoot.ParentTree.Nums.as_list()
        held = [
            int(page.obj.StructParents)
            for page in opened.pages
            if "/StructParents" in page.obj
        ]
        held += [
            int(link.StructParent)
            for page in opened.pages
            for link in page.obj.get("/Annots", ())
        ]
        return [int(n) for n in numbers[::2]], sorted(held)
