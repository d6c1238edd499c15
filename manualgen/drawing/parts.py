"""What a drawing is asked to show, and where each piece of it comes to lie."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from manualgen.drawing.contents import Content
from manualgen.drawing.geometry import Box, shift
from manualgen.drawing.shape import Shape, Stroke


@dataclass(frozen=True, slots=True)
class Part:
    """A piece as the author asks for it."""

    name: str
    """As the catalogue knows it."""
    label: str
    capacity_cm3: float | None = None
    stoppered: bool = False
    contents: tuple[Content, ...] = ()
    relation: str | None = None
    """How the piece at ``base`` stands to this one: ``on``, ``held by`` …"""
    by: str | None = None
    """What joins them, as the catalogue knows it."""
    base: int | None = None
    tube: str = ""
    """What joins them, in the author's words."""


class Way(Enum):
    """How two groups of pieces are connected at a distance."""

    TUBE = "delivery tube"
    LEAD = "lead"
    BRIDGE = "salt bridge"


@dataclass(frozen=True, slots=True)
class Connection:
    """A tube, a lead or a salt bridge between two pieces."""

    source: int
    target: int
    way: Way
    label: str


@dataclass(slots=True)
class Group:
    """Pieces that stand together and are moved together."""

    shapes: dict[int, Shape] = field(default_factory=dict)
    fittings: list[Stroke] = field(default_factory=list)
    """Bungs and joints, drawn over the pieces."""

    @property
    def box(self) -> Box:
        """The smallest box around the whole group."""
        boxes = [shape.box for shape in self.shapes.values()]
        whole = boxes[0]
        for box in boxes[1:]:
            whole = whole.around(box)
        return whole

    def move(self, dx: float, dy: float) -> None:
        """Move everything in the group."""
        by = shift(dx, dy)
        self.shapes = {i: shape.moved(by) for i, shape in self.shapes.items()}
        self.fittings = [
            Stroke(tuple(map(by, s.points)), s.style, s.closed) for s in self.fittings
        ]


@dataclass(slots=True)
class Arrangement:
    """The groups of a drawing and what connects them, while it is put together."""

    parts: tuple[Part, ...]
    groups: list[Group] = field(default_factory=list)
    group_of: dict[int, int] = field(default_factory=dict)
    connections: list[Connection] = field(default_factory=list)
    held: list[tuple[int, int]] = field(default_factory=list)
    """A piece and the stand that holds it."""
    same: dict[int, int] = field(default_factory=dict)
    """Pieces named a second time, and the first naming."""
    inside: dict[int, int] = field(default_factory=dict)
    """What stands in a vessel, and the vessel."""
    inserts: dict[int, list[int]] = field(default_factory=dict)
    """A vessel and what dips into it side by side."""
    stirred: set[int] = field(default_factory=set)
    """Vessels in whose middle a magnetic follower turns."""
    closed: set[int] = field(default_factory=set)
    """Pieces whose mouth has its bung."""
    through: dict[int, int] = field(default_factory=dict)
    """What goes through a bung, and the piece that the bung closes."""

    def shape(self, index: int) -> Shape:
        """A piece where it stands now."""
        index = self.same.get(index, index)
        return self.groups[self.group_of[index]].shapes[index]

    def group(self, index: int) -> Group:
        """The group that a piece belongs to."""
        return self.groups[self.group_of[self.same.get(index, index)]]

    def depth(self, index: int) -> int:
        """In how many vessels, one in another, a piece stands."""
        outer = self.inside.get(index)
        return 0 if outer is None else 1 + self.depth(outer)

    def add(self, index: int, shape: Shape, beside: int | None = None) -> None:
        """Put a piece into the group of another, or into a new one."""
        if beside is None:
            self.groups.append(Group())
            self.group_of[index] = len(self.groups) - 1
        else:
            self.group_of[index] = self.group_of[self.same.get(beside, beside)]
        self.groups[self.group_of[index]].shapes[index] = shape
