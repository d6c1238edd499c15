"""A printed manual read back: where its words stand, how full its pages are."""

from __future__ import annotations

import re
import subprocess
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from typing import TypeAlias

import pikepdf

from manualgen.working.worked import Worked
from tests.press.readback import destinations, poppler

MM = 25.4 / 72

_WORD = re.compile(r'<word xMin="(.*?)" yMin="(.*?)" xMax=".*?" yMax="(.*?)">(.*?)<')


@dataclass(frozen=True)
class Demo:
    """A built site, and what it was built from."""

    site: Path
    worked: Worked

    @property
    def experiments(self) -> tuple[str, ...]:
        """The ids of the experiments, in the order of the manual."""
        return tuple(e.experiment for p in self.worked.manual.parts for e in p.entries)

    def book(self, edition: str, *, large: bool = False) -> Path:
        """An edition's book."""
        return self.site / edition / ("manual-large.pdf" if large else "manual.pdf")

    def pdf(self, edition: str, experiment: str) -> Path:
        """An experiment printed by itself."""
        return self.site / edition / "pdf" / f"{experiment}.pdf"

    def html(self, edition: str, experiment: str) -> str:
        """An experiment's page of the site."""
        return (self.site / edition / f"{experiment}.html").read_text(encoding="utf-8")

    def pdfs(self) -> list[Path]:
        """Every PDF of the site."""
        return sorted(self.site.rglob("*.pdf"))


@dataclass(frozen=True)
class Word:
    """A word on a page, in mm from the page's upper left corner."""

    text: str
    left: float
    top: float
    bottom: float


Pages: TypeAlias = list[list[Word]]


def words(pdf: Path) -> Pages:
    """The words of each page, as Poppler finds them."""
    pages = poppler("pdftotext", "-bbox", pdf, "-").split("<page ")[1:]
    return [list(_words(page)) for page in pages]


def _words(page: str) -> Iterator[Word]:
    for left, top, bottom, text in _WORD.findall(page):
        shown = unescape(text).replace("\u200b", "")
        if shown:
            yield Word(shown, float(left) * MM, float(top) * MM, float(bottom) * MM)


def labels(pdf: Path) -> list[str]:
    """How each page is called: ``4-2``."""
    with pikepdf.open(pdf) as opened:
        return [page.label for page in opened.pages]


def by_label(pdf: Path) -> dict[str, list[Word]]:
    """The words of each page, by what the page is called."""
    return dict(zip(labels(pdf), words(pdf), strict=True))


def places(pdf: Path) -> dict[str, str]:
    """What the page is called on which each named place stands."""
    called = labels(pdf)
    return {name: called[page - 1] for name, page in destinations(pdf).items()}


def fills(pdf: Path) -> list[float]:
    """How far down each page is filled: 1 to the foot of its text, 0 not at all.

    Read from a coarse picture of the page without its head and foot.
    """
    resolution = 24
    picture = subprocess.run(
        ["pdftoppm", "-r", str(resolution), "-gray", str(pdf)],
        capture_output=True,
        check=True,
    ).stdout
    return [_fill(page, resolution) for page in _greys(picture)]


def _greys(pictures: bytes) -> Iterator[tuple[int, bytes]]:
    """The width and the pixels of each picture (portable graymap, P5)."""
    at = 0
    while at < len(pictures):
        head = re.compile(rb"P5\s(\d+) (\d+)\s255\s").match(pictures, at)
        assert head is not None
        width, height = int(head[1]), int(head[2])
        at = head.end() + width * height
        yield width, pictures[head.end() : at]


def _fill(page: tuple[int, bytes], resolution: int) -> float:
    width, pixels = page
    rows = [pixels[n : n + width] for n in range(0, len(pixels), width)]
    body = rows[_pixels(16, resolution) : len(rows) - _pixels(15, resolution)]
    inked = [n for n, row in enumerate(body, start=1) if min(row) < INKED]
    return max(inked, default=0) / len(body)


INKED = 200


def _pixels(mm: float, resolution: int) -> int:
    return int(mm / 25.4 * resolution)


def grouped(called: list[str]) -> Mapping[str, list[int]]:
    """The students' pages of each experiment, by its number."""
    found: dict[str, list[int]] = defaultdict(list)
    for index, label in enumerate(called):
        number, _, page = label.partition("-")
        if page.isdigit() and number[:1].isdigit():
            found[number].append(index)
    return found
