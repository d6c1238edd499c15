"""A drawn piece of apparatus: its lines, and the places where others meet it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from types import MappingProxyType

from manualgen.drawing.geometry import Box, Move, Point, Points, box_of, shift


class Style(StrEnum):
    """How a line is drawn; each is a class of the style sheet."""

    LINE = "line"
    """The one weight of apparatus."""
    THIN = "thin"
    """Graduations and what is only hinted at."""
    BODY = "body"
    """A closed outline whose inside hides what is behind it."""
    SOLID = "solid"
    """Filled with ink."""
    SHADE = "shade"
    """Filled grey: bungs, insulation."""
    LIQUID = "liquid"
    SURFACE = "surface"
    GRAIN = "grain"
    """A lump of a solid."""
    HOLLOW = "hollow"
    """White: the inside of a tube, or of a vessel that stands in another's liquid."""
    LEAD = "lead"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points."""

    points: Points
    style: Style = Style.LINE
    closed: bool = False

    @property
    def course(self) -> Points:
        """Its points; of a closed line, the first once more."""
        return (*self.points, self.points[0]) if self.closed else self.points


@dataclass(frozen=True, slots=True)
class Mouth:
    """An opening: the middle of its rim, and how wide it is inside."""

    at: Point
    width: float
    flare: Point = (0.0, 0.0)
    """How far the rim stands out on either side, and how far down it does."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A piece in section, its lowest middle point at the origin unless it says so.

    The places are what the rules of joining know: a piece stands on another's
    ``top``, a tube goes into a ``mouth`` or leaves from an ``outlet``, a clamp
    holds at ``grip``, and a label's line ends at ``label``.
    """

    strokes: tuple[Stroke, ...]
    label: Point
    base: Point = (0.0, 0.0)
    top: Point | None = None
    """The surface on which another piece stands."""
    mouth: Mouth | None = None
    tip: Point | None = None
    """The end that goes into another piece or drips into it."""
    outlet: Point | None = None
    """Where a tube is joined."""
    inlet: Point | None = None
    grip: Point | None = None
    cavity: Points = ()
    """The inside that can hold something, as a closed polygon."""
    terminals: tuple[Point, ...] = ()
    flame: Point | None = None
    """Where a burner's heat goes to."""
    joint: Point | None = None
    """The lower joint, which fits a mouth."""
    over: tuple[Stroke, ...] = ()
    """What is drawn over the contents, such as graduations."""
    outline: Points = ()
    """All that its walls hold, of a piece that may go through a bung."""
    others: Mapping[str, Point] = field(default_factory=lambda: MappingProxyType({}))
    """Further places that one rule alone knows."""

    @property
    def box(self) -> Box:
        """The smallest box that holds all lines."""
        return box_of(p for s in (*self.strokes, *self.over) for p in s.points)

    def moved(self, move: Move) -> Shape:
        """The whole piece moved, every place with it."""

        def at(point: Point | None) -> Point | None:
            return None if point is None else move(point)

        def lines(strokes: tuple[Stroke, ...]) -> tuple[Stroke, ...]:
            return tuple(replace(s, points=tuple(map(move, s.points))) for s in strokes)

        return replace(
            self,
            strokes=lines(self.strokes),
            over=lines(self.over),
            label=move(self.label),
            base=move(self.base),
            top=at(self.top),
            mouth=replace(self.mouth, at=move(self.mouth.at)) if self.mouth else None,
            tip=at(self.tip),
            outlet=at(self.outlet),
            inlet=at(self.inlet),
            grip=at(self.grip),
            cavity=tuple(map(move, self.cavity)),
            terminals=tuple(map(move, self.terminals)),
            flame=at(self.flame),
            joint=at(self.joint),
            outline=tuple(map(move, self.outline)),
            others=MappingProxyType({k: move(v) for k, v in self.others.items()}),
        )

    def to(self, place: Point, target: Point) -> Shape:
        """The piece moved so that one of its places comes to a target."""
        return self.moved(shift(target[0] - place[0], target[1] - place[1]))
