"""What was made for one revision, kept for the next.

Whatever is made notes what it asked on its way.  Where the next revision would
give the same answers to the same questions, it would be made the same, and is
not made again.
"""

from __future__ import annotations

import hashlib
import operator
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Generic, Protocol, TypeVar

from manualgen.sources import Source, SourceError
from manualgen.sources.source import TEXT_LIMIT

T = TypeVar("T")
V = TypeVar("V")


class Asked(Protocol):
    """Something that is asked, and notes its answers."""

    def still_answers(self, fresh: object) -> bool:
        """Whether another of its kind would have answered the same."""


@dataclass(slots=True)
class Kept(Generic[T]):
    """What was last made, by name."""

    _made: dict[Hashable, tuple[Asked, T]] = field(default_factory=dict)

    def made(self, name: Hashable, asked: Asked, make: Callable[[], T]) -> T:
        """What ``make`` makes of what it asks; the last of that name, if it serves."""
        if name in self._made:
            before, made = self._made[name]
            if before.still_answers(asked):
                return made
        new = make()
        self._made[name] = asked, new
        return new


@dataclass(slots=True)
class AskedMapping(Mapping[str, V]):
    """A mapping that notes which of its values were wanted."""

    _of: Mapping[str, V]
    _given: dict[str, V | None] = field(default_factory=dict)
    _whole: bool = False
    """Whether all of it was wanted."""

    def __getitem__(self, name: str) -> V:
        """A value, noted; noted too where there is none."""
        self._given[name] = self._of.get(name)
        return self._of[name]

    def __iter__(self) -> Iterator[str]:
        """All names, so that any other would be another answer."""
        self._whole = True
        return iter(self._of)

    def __len__(self) -> int:
        """How many there are, which depends on all."""
        self._whole = True
        return len(self._of)

    def still_answers(self, fresh: object) -> bool:
        """Whether the values that were wanted are the same in another."""
        if not isinstance(fresh, AskedMapping) or (
            self._whole and self._of != fresh._of
        ):
            return False
        return all(fresh._of.get(k) == value for k, value in self._given.items())


@dataclass(slots=True)
class AskedSource:
    """A source that notes what was read of it; what is big, by its digest."""

    _of: Source
    _read: dict[tuple[str, int], bytes | str] = field(default_factory=dict)
    _exists: dict[str, bool] = field(default_factory=dict)
    _files: tuple[str, ...] | None = None

    @property
    def name(self) -> str:
        """The folder as the author would name it."""
        return self._of.name

    def files(self) -> tuple[str, ...]:
        """Every file, noted."""
        self._files = self._of.files()
        return self._files

    def read(self, path: str, limit: int = TEXT_LIMIT) -> bytes:
        """The bytes of a file, noted; raises `SourceError` as the source does."""
        content = _content(self._of, path, limit)
        self._read[path, limit] = _digest(content)
        if isinstance(content, SourceError):
            raise content
        return content

    def exists(self, path: str) -> bool:
        """Whether there is such a file, noted."""
        self._exists[path] = self._of.exists(path)
        return self._exists[path]

    def still_answers(self, fresh: object) -> bool:
        """Whether another folder has the same in all that was read of this one."""
        if not isinstance(fresh, AskedSource) or fresh.name != self.name:
            return False
        other = fresh._of
        return (
            (self._files is None or self._files == other.files())
            and all(other.exists(p) == there for p, there in self._exists.items())
            and all(
                _digest(_content(other, *asked)) == digest
                for asked, digest in self._read.items()
            )
        )


@dataclass(frozen=True, slots=True)
class MadeFrom:
    """What something is made from and nothing else."""

    things: tuple[object, ...]
    """Too large to be compared: the same where they are the same objects."""
    facts: tuple[object, ...] = ()
    """The same where they are written the same."""

    def still_answers(self, fresh: object) -> bool:
        """Whether another's are the same."""
        return (
            isinstance(fresh, MadeFrom)
            and len(fresh.things) == len(self.things)
            and all(map(operator.is_, fresh.things, self.things))
            and len(fresh.facts) == len(self.facts)
            and all(map(written_alike, fresh.facts, self.facts))
        )


def written_alike(one: object, other: object) -> bool:
    """Whether both say the same, figure for figure: 10 and 10.0 are equal, and are not."""
    return one is other or repr(one) == repr(other)


@dataclass(frozen=True, slots=True)
class AskedAll:
    """Several that are asked."""

    parts: tuple[Asked, ...]

    def still_answers(self, fresh: object) -> bool:
        """Whether each would have answered the same."""
        if not isinstance(fresh, AskedAll):
            return False
        pairs = zip(self.parts, fresh.parts, strict=True)
        return all(part.still_answers(other) for part, other in pairs)


def _content(source: Source, path: str, limit: int) -> bytes | SourceError:
    try:
        return source.read(path, limit)
    except SourceError as error:
        return error


def _digest(content: bytes | SourceError) -> bytes | str:
    if isinstance(content, SourceError):
        return f"{content.missing} {content.message}"
    return hashlib.sha256(content).digest()
