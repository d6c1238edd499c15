"""A drawing as it is seen: its lines and words, read back from the SVG.

Nothing of what the program knows about a drawing comes in here, so that what is
measured is what is printed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import hypot
from xml.etree.ElementTree import Element, fromstring

from manualgen.drawing.face import MM_PER_PT, width_mm

Point = tuple[float, float]
Piece = tuple[Point, Point]

ASCENT, DESCENT = 0.76, 0.24
"""Of a line of words above and below its base line, as parts of its size."""

INK = {"line", "thin", "body", "solid", "shade", "surface", "grain", "lead"}
"""The classes of paths that leave a line on paper."""
FILLED = {"liquid", "hollow", "body", "solid", "shade", "grain"}


@dataclass(frozen=True)
class Box:
    left: float
    top: float
    right: float
    bottom: float

    def wider(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def holds(self, point: Point) -> bool:
        x, y = point
        return self.left <= x <= self.right and self.top <= y <= self.bottom

    def meets(self, other: Box) -> bool:
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


@dataclass(frozen=True)
class Path:
    name: str
    points: tuple[Point, ...]
    closed: bool

    @property
    def pieces(self) -> Iterator[Piece]:
        ends = (*self.points, self.points[0]) if self.closed else self.points
        return pairwise(ends)


@dataclass(frozen=True)
class Words:
    text: str
    box: Box


@dataclass(frozen=True)
class Seen:
    view: Box
    paths: tuple[Path, ...]
    words: tuple[Words, ...]

    def named(self, *names: str) -> list[Path]:
        return [path for path in self.paths if path.name in names]


def seen(svg: str) -> Seen:
    """What a drawing shows."""
    root = fromstring(svg)
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    assert (width, height) == tuple(
        float(root.attrib[side].removesuffix("mm")) for side in ("width", "height")
    )
    return Seen(
        Box(left, top, left + width, top + height),
        tuple(map(as_path, root.iterfind("path"))),
        tuple(map(_words, root.iterfind("text"))),
    )


def as_path(element: Element) -> Path:
    """The points of a path that is all straight pieces between given points."""
    d = element.attrib["d"]
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", d)]
    points = tuple(zip(numbers[::2], numbers[1::2], strict=True))
    return Path(element.attrib["class"], points, d.endswith("Z"))


def _words(element: Element) -> Words:
    text = "".join(element.itertext())
    x, y, size = (float(element.attrib[key]) for key in ("x", "y", "font-size"))
    width = width_mm(text, size / MM_PER_PT)
    left = {"start": x, "middle": x - width / 2, "end": x - width}[
        element.get("text-anchor", "start")
    ]
    return Words(text, Box(left, y - ASCENT * size, left + width, y + DESCENT * size))


def crosses(one: Piece, other: Piece) -> bool:
    """Whether two straight pieces cross inside both."""
    (a, b), (c, d) = one, other

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def enters(piece: Piece, box: Box) -> bool:
    """Whether a straight piece has a point in a box."""
    corners = (
        (box.left, box.top),
        (box.right, box.top),
        (box.right, box.bottom),
        (box.left, box.bottom),
    )
    sides = pairwise((*corners, corners[0]))
    return any(map(box.holds, piece)) or any(crosses(piece, side) for side in sides)


def far(point: Point, piece: Piece) -> float:
    """How far a point is from a straight piece."""
    (ax, ay), (bx, by) = piece
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    along = ((point[0] - ax) * dx + (point[1] - ay) * dy) / square if square else 0.0
    part = min(1.0, max(0.0, along))
    return hypot(point[0] - ax - part * dx, point[1] - ay - part * dy)


def far_from(point: Point, pieces: Iterable[Piece]) -> float:
    """How far a point is from the nearest of several pieces."""
    return min((far(point, piece) for piece in pieces), default=float("inf"))


def is_inside(point: Point, polygon: tuple[Point, ...]) -> bool:
    """Whether a point lies in a closed polygon."""
    inside = False
    for (ax, ay), (bx, by) in pairwise((*polygon, polygon[0])):
        if (ay > point[1]) != (by > point[1]):
            inside ^= point[0] < ax + (bx - ax) * (point[1] - ay) / (by - ay)
    return inside


def faults_of_labels(drawing: Seen) -> Iterator[str]:
    """What is wrong with the words of a drawing and their lines."""
    ink = [p for path in drawing.paths if path.name in INK for p in path.pieces]
    leaders = drawing.named("leader")
    for one, other in combinations(drawing.words, 2):
        if one.box.meets(other.box):
            yield f"{one.text} lies over {other.text}"
    for words in drawing.words:
        if any(enters(piece, words.box.wider(0.2)) for piece in ink):
            yield f"{words.text} lies over the drawing"
        for leader in leaders:
            if any(enters(piece, words.box) for piece in leader.pieces):
                yield f"a line runs through {words.text}"
    for a, b in combinations(leaders, 2):
        if any(crosses(p, q) for p in a.pieces for q in b.pieces):
            yield "two lines of labels cross"
    for leader in leaders:
        yield from _faults_of_line(leader, drawing, ink)


def _faults_of_line(leader: Path, drawing: Seen, ink: list[Piece]) -> Iterator[str]:
    start, end = leader.points[0], leader.points[-1]
    beside = [w.text for w in drawing.words if w.box.wider(1.2).holds(end)]
    if not beside:
        yield f"a line ends at no words, at {end}"
    filled = [path for path in drawing.paths if path.name in FILLED]
    if far_from(start, ink) > 0.1 and not any(
        is_inside(start, p.points) for p in filled
    ):
        yield f"the line of {beside} points at nothing"


def faults_of_page(drawing: Seen) -> Iterator[str]:
    """What reaches over the edge of the drawing, half a line's weight included."""
    for path in drawing.paths:
        if not all(map(drawing.view.wider(-0.2).holds, path.points)):
            yield f"a {path.name} reaches over the edge"
    for words in drawing.words:
        corners = (words.box.left, words.box.top), (words.box.right, words.box.bottom)
        if not all(map(drawing.view.holds, corners)):
            yield f"{words.text} reaches over the edge"
