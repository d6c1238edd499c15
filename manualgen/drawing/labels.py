"""Labels at both sides of a drawing, their lines never crossing.

A label's line runs level from what it names to the edge of the drawing, and
from there straight to the label.  Labels at one side stand in the order of
their lines, so no two lines cross; which side a label takes, and at which
height its line leaves, is what hides the least of the drawing.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from manualgen.drawing.face import lettering_mm
from manualgen.drawing.geometry import Box, Point, Points
from manualgen.drawing.hiding import Lines
from manualgen.drawing.near_labels import near_places
from manualgen.drawing.shape import Stroke

LONGEST: Final = 11.0
"""Longer labels are broken into lines; in sizes of their letters."""
EDGE_MM: Final = 2.5
SLOPE_MM: Final = 5.0
"""Between the edge of the drawing and a label, where lines may slope."""
HIDES_MUCH: Final = 6.5
"""The cost from which a label is better written in the drawing itself."""
APART_MM: Final = 1.3
"""Between two level lines on one side."""
GAP_MM: Final = 0.8
"""Between a line's end and the words."""


class Align(StrEnum):
    """How the words of a label stand in its box; each is an anchor of SVG."""

    LEFT_OF = "end"
    """Left of the drawing, so its words end at it."""
    RIGHT_OF = "start"
    NEAR = "middle"


@dataclass(frozen=True, slots=True)
class Named:
    """Something to label: its words, and the points that a line may end at."""

    words: str
    anchors: Points
    own: tuple[Stroke, ...]
    """The lines of the piece itself, which its line may cross."""


@dataclass(frozen=True, slots=True)
class Label:
    """A label in its place: lines of words, and its line."""

    lines: tuple[str, ...]
    box: Box
    align: Align
    leader: Points


@dataclass(frozen=True, slots=True)
class _Choice:
    named: Named
    anchor: Point
    is_left: bool


def place_labels(
    all_named: Sequence[Named],
    strokes: Sequence[Stroke],
    around: Box,
    size_mm: float,
    longest: float = LONGEST,
) -> tuple[Label, ...]:
    """Every label in its place beside a drawing that fills the box, or in it."""
    chosen: list[_Choice] = []
    near: list[Label] = []
    lines = Lines(strokes)
    for named in sorted(all_named, key=lambda n: len(n.anchors)):
        best, cost = _best(named, chosen, lines, around)
        label = None
        if cost > HIDES_MUCH:
            label = _near(named, chosen, lines, around, size_mm)
        if label:
            near.append(label)
            lines.add(_frame(label.box))
        else:
            chosen.append(best)
    return tuple(near) + tuple(
        label
        for is_left in (True, False)
        for label in _column(
            [c for c in chosen if c.is_left is is_left],
            around,
            size_mm,
            longest,
        )
    )


def _near(
    named: Named,
    chosen: Sequence[_Choice],
    lines: Lines,
    around: Box,
    size_mm: float,
) -> Label | None:
    """A label right beside what it names, if it hides nothing there."""
    drawn = lines.with_strokes(_level(choice, around) for choice in chosen)
    own = frozenset(map(id, named.own))
    for box, line in near_places(named.words, named.anchors, size_mm):
        is_inside = around.left <= box.left and box.right <= around.right
        if is_inside and drawn.are_clear_of(box, line, own):
            return Label((named.words,), box, Align.NEAR, line)
    return None


def _level(choice: _Choice, around: Box) -> Stroke:
    """The level part of a label's line, as something not to be written over."""
    edge = around.left if choice.is_left else around.right
    return Stroke((choice.anchor, (edge, choice.anchor[1])))


def _frame(box: Box) -> Stroke:
    return Stroke(box.corners, closed=True)


def _best(
    named: Named, chosen: Sequence[_Choice], lines: Lines, around: Box
) -> tuple[_Choice, float]:
    own = frozenset(map(id, named.own))
    priced = [
        (
            _cost(choice, place, chosen, around) + _hidden(choice, own, lines, around),
            choice,
        )
        for place, anchor in enumerate(named.anchors)
        for choice in (_Choice(named, anchor, True), _Choice(named, anchor, False))
    ]
    cost, choice = min(priced, key=lambda pair: pair[0])
    return choice, cost


def _cost(
    choice: _Choice,
    place: int,
    chosen: Sequence[_Choice],
    around: Box,
) -> float:
    x, y = choice.anchor
    cost = 0.05 * abs(_edge(choice.is_left, around) - x) + 0.15 * place
    beside = [c for c in chosen if c.is_left is choice.is_left]
    cost += 8 * sum(abs(c.anchor[1] - y) < APART_MM for c in beside)
    cost += 0.5 * sum(abs(c.anchor[1] - y) < 5 for c in beside)
    return cost + 0.12 * len(beside)


def _hidden(choice: _Choice, own: frozenset[int], lines: Lines, around: Box) -> float:
    """What the level part of a label's line hides."""
    return lines.hidden(choice.anchor, _edge(choice.is_left, around), own)


def _edge(is_left: bool, around: Box) -> float:
    return around.left - EDGE_MM if is_left else around.right + EDGE_MM


def _column(
    choices: Sequence[_Choice], around: Box, size_mm: float, longest: float
) -> Iterator[Label]:
    """The labels of one side, from top to bottom."""
    ordered = sorted(choices, key=lambda c: c.anchor[1])
    blocks = [broken(c.named.words, size_mm, longest * size_mm) for c in ordered]
    heights = [len(lines) * size_mm * 1.22 for lines in blocks]
    gap = size_mm * 0.45
    middles = spread([c.anchor[1] for c in ordered], heights, gap)
    middles = within(middles, heights, gap, (around.top, around.bottom))
    for choice, lines, height, middle in zip(
        ordered, blocks, heights, middles, strict=True
    ):
        width = max(lettering_mm(line, size_mm) for line in lines)
        yield _label(choice, lines, around, (width, height, middle))


def _label(
    choice: _Choice,
    lines: tuple[str, ...],
    around: Box,
    extent: tuple[float, float, float],
) -> Label:
    width, height, middle = extent
    sign = -1 if choice.is_left else 1
    edge = _edge(choice.is_left, around)
    end = edge + sign * SLOPE_MM
    near = end + sign * GAP_MM
    far = near + sign * (width + 1)
    box = Box(min(near, far), middle - height / 2, max(near, far), middle + height / 2)
    at = choice.anchor
    align = Align.LEFT_OF if choice.is_left else Align.RIGHT_OF
    return Label(lines, box, align, (at, (edge, at[1]), (end, middle)))


def spread(
    wanted: Sequence[float], heights: Sequence[float], gap: float
) -> list[float]:
    """Middles as near as can be to those wanted, in order, none overlapping.

    Neighbours that would overlap are put together around the mean of where
    they want to be, as often as it takes.
    """
    groups: list[tuple[float, list[int]]] = []
    offsets = [0.0]
    for a, b in itertools.pairwise(heights):
        offsets.append(offsets[-1] + (a + b) / 2 + gap)
    for index, want in enumerate(wanted):
        mean, members = want - offsets[index], [index]
        while groups and groups[-1][0] > mean:
            before, earlier = groups.pop()
            total = before * len(earlier) + mean * len(members)
            members = earlier + members
            mean = total / len(members)
        groups.append((mean, members))
    return [mean + offsets[i] for mean, members in groups for i in members]


def within(
    middles: Sequence[float],
    heights: Sequence[float],
    gap: float,
    reach: tuple[float, float],
) -> list[float]:
    """Middles moved up, then down, no farther than keeps all in a reach if they fit."""
    placed: list[float] = []
    limit = reach[1]
    for middle, height in zip(reversed(middles), reversed(heights), strict=True):
        placed.insert(0, min(middle, limit - height / 2))
        limit = placed[0] - height / 2 - gap
    limit = reach[0]
    for index, height in enumerate(heights):
        placed[index] = max(placed[index], limit + height / 2)
        limit = placed[index] + height / 2 + gap
    return placed


def broken(words: str, size_mm: float, widest_mm: float) -> tuple[str, ...]:
    """Words in lines no longer than this where they can be, broken at spaces."""
    lines: list[str] = []
    for word in words.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and lettering_mm(longer, size_mm) <= widest_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
