"""A content folder made of texts, and short ways to read one experiment of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from manualgen.model.blocks import Block, Blocks
from manualgen.model.experiment import Experiment, SectionKind
from manualgen.model.place import Place
from manualgen.reading import read_manual
from manualgen.sources import SourceError


class Unreadable(str):
    """A file that is there and cannot be read."""


@dataclass(frozen=True)
class Shelf:
    """A source whose files are texts or bytes."""

    texts: Mapping[str, str | bytes]
    name: str = "content"

    def files(self) -> tuple[str, ...]:
        return tuple(sorted(self.texts))

    def read(self, path: str, limit: int = 1_000_000) -> bytes:
        if path not in self.texts:
            raise SourceError("is not there", missing=True)
        content = self.texts[path]
        if isinstance(content, Unreadable):
            raise SourceError("cannot be read: permission was denied")
        return content.encode() if isinstance(content, str) else content

    def exists(self, path: str) -> bool:
        return path in self.texts


@dataclass(frozen=True)
class Page:
    """An experiment's text and what it was read to."""

    text: str
    experiment: Experiment
    lines: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def blocks(self) -> Blocks:
        """The blocks of the first section that is not the Method."""
        return next(
            (
                section.blocks
                for section in self.experiment.sections
                if section.kind is not SectionKind.METHOD
            ),
            (),
        )

    @property
    def block(self) -> Block:
        (only,) = self.blocks
        return only

    @property
    def faults(self) -> list[tuple[str, str, str | None]]:
        """Each fault's check, line:column and mend."""
        return [
            (n.check, where(n.fault.place), n.fault.mend) for n in self.experiment.noted
        ]

    def at(self, words: str, nth: int = 1) -> str:
        """The line:column at which some words stand, searched in the text."""
        offset = -1
        for _ in range(nth):
            offset = self.text.index(words, offset + 1)
        before = self.text[:offset]
        return f"{before.count(chr(10)) + 1}:{offset - before.rfind(chr(10))}"


def where(place: Place) -> str:
    return f"{place.line}:{place.column}"


def shown(place: Place, text: str) -> str:
    """The characters of a text between the ends of a place."""
    lines = text.split("\n")[place.line - 1 : place.end_line]
    lines[-1] = lines[-1][: place.end_column - 1]
    lines[0] = lines[0][place.column - 1 :]
    return "\n".join(lines)


METHOD = "## Method\n\n1. Begin.\n"


def read(text: str, others: Mapping[str, str | bytes] | None = None) -> Page:
    """A whole file, read beside other files."""
    texts = {"acids/sample.md": text, **(others or {})}
    manual, lines = read_manual(Shelf(texts))
    experiment = next(e for e in manual.experiments if e.id == "sample")
    return Page(text, experiment, lines)


def read_body(body: str, others: Mapping[str, str | bytes] | None = None) -> Page:
    """What stands under a heading of its own, in a file that is sound otherwise."""
    return read(f"---\ntitle: Sample\n---\n\n## Theory\n\n{body}\n\n{METHOD}", others)


def read_settings(settings: str) -> Page:
    """The front matter of a file that is sound otherwise."""
    return read(f"---\ntitle: Sample\n{settings}\n---\n\n{METHOD}")


def read_method(body: str, others: Mapping[str, str | bytes] | None = None) -> Page:
    """What stands under ## Method."""
    return read(f"---\ntitle: Sample\n---\n\n## Method\n\n{body}\n", others)


def read_questions(body: str) -> Page:
    """What stands under ## Questions."""
    return read(f"---\ntitle: Sample\n---\n\n## Questions\n\n{body}\n\n{METHOD}")
