"""What the press is asked to print, and what it answers."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple


@dataclass(frozen=True, slots=True)
class Job:
    """A document to print: what to call it, where it is, where its PDF goes.

    The file name of `html`, without its ending, names the document's places:
    other documents link to it by that.
    """

    name: str
    html: Path
    pdf: Path


@dataclass(frozen=True, slots=True)
class WideElement:
    """An element that reaches `excess_mm` past the page's right edge.

    `id` and `line` are those of the nearest element about it that has an `id`
    or a `data-line`, or empty.
    """

    tag: str
    id: str
    line: str
    excess_mm: float


@dataclass(frozen=True, slots=True)
class Places:
    """How many pages a print has, and each id's page, counted from 0."""

    pages: int = 0
    by_id: dict[str, int] = field(default_factory=dict)
    depths: dict[str, float] = field(default_factory=dict)
    """How far down its page each id stands: 0 at the upper edge, 1 at the lower."""


class Finished(NamedTuple):
    """The bytes of a finished print, and where in it things stand."""

    pdf: bytes
    places: Places


@dataclass(frozen=True, slots=True)
class Print:
    """A finished job.

    `scale` is 1 unless `wide` elements made the browser shrink the document;
    `refused` are addresses it asked for that are no files of the build.
    """

    job: Job
    places: Places = Places()
    scale: float = 1
    wide: tuple[WideElement, ...] = ()
    refused: tuple[str, ...] = ()
