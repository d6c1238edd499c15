"""What a comparison has to say."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from manualgen.model.place import Place


class Status(StrEnum):
    """What became of an experiment."""

    ADDED = "added"
    REMOVED = "removed"
    CHANGED = "changed"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is not as it was."""

    kind: str
    """``strength``, ``step``, ``answer`` …: what sort of thing it is."""
    what: str
    """Which one: the chemical's name, ``step 4``."""
    before: str | None
    """None where it is new."""
    after: str | None
    """None where it is gone."""
    place: Place | None = None
    """Where it stands now, or stood where it is gone."""
    consequence: str | None = None
    """What follows, where the model knows."""
    teachers: bool = False
    """Whether students' pages read as before."""
    leak: bool = False
    """Whether students can now read what only the teacher could."""
    anchors: tuple[str, str] = ("", "")
    """The anchors on the older and the newer page at which it stands; empty
    where a page has none for it.
    """

    @property
    def line(self) -> int | None:
        """The line of its place."""
        return self.place.line if self.place else None


@dataclass(frozen=True, slots=True)
class ExperimentChange:
    """All that changed in one experiment."""

    id: str
    title: str
    status: Status
    changes: tuple[Change, ...]
    reprint: tuple[str, ...] = ()
    """The editions whose pages of this experiment print otherwise than before."""
    old_id: str | None = None
    """What it was called in the older manual, if it was there."""

    @property
    def pages_can_move(self) -> bool:
        """Whether what stands on one of its pages can come to stand on another.

        The teacher's words stand in rooms of fixed size, so that only what
        students read can push anything along.
        """
        return "student" in self.reprint


@dataclass(frozen=True, slots=True)
class Reprint:
    """What has to be printed again of one edition."""

    edition: str
    experiments: tuple[str, ...]
    matter: tuple[str, ...]
    """What stands before and after the experiments."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """What changed between two manuals."""

    base: str
    head: str
    manual: tuple[Change, ...]
    """Changes of the manual itself: its settings, its store, its order."""
    experiments: tuple[ExperimentChange, ...]
    unread: tuple[str, ...] = ()
    """What could not be read in the older one, one sentence each."""
    reprint: tuple[Reprint, ...] = field(default=())
    """By edition; an experiment that says what it said can still print otherwise."""
