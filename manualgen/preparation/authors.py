"""What the authors say to the technician, and where they send what is left."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from manualgen.editions.technician import AuthorsWords
from manualgen.knowledge.disposal import says_collect
from manualgen.model.blocks import Block, Blocks, Box, BoxKind, ListBlock, Step
from manualgen.model.experiment import Experiment, SectionKind
from manualgen.model.text import (
    Blank,
    Emphasis,
    EquationSpan,
    FormulaSpan,
    Inline,
    Inlines,
    LineBreak,
    OutsideLink,
    Picture,
    QuantitySpan,
    Reference,
    UnreadSpan,
    Words,
)
from manualgen.model.walk import texts, walk
from manualgen.preparation.needs import Sitting
from manualgen.preparation.plan import Plan
from manualgen.preparation.words import Writer


def notes_of(plan: Plan, writer: Writer) -> tuple[AuthorsWords, ...]:
    """What each experiment's author says to the technician."""
    return _of_each(plan, writer, SectionKind.TECHNICIAN, BoxKind.TECHNICIAN)


def disposal_of(plan: Plan, writer: Writer) -> tuple[AuthorsWords, ...]:
    """Where each experiment's author sends what is left."""
    return _of_each(plan, writer, SectionKind.DISPOSAL, BoxKind.DISPOSAL)


def author_collects(sitting: Sitting, writer: Writer) -> bool:
    """Whether the author says into which bottles things are collected."""
    experiment = sitting.work.experiment
    reader = _Reader(writer, experiment.id)
    lines = _lines(experiment, reader, SectionKind.DISPOSAL, BoxKind.DISPOSAL)
    return says_collect(" ".join(lines))


def _of_each(
    plan: Plan, writer: Writer, section: SectionKind, box: BoxKind
) -> tuple[AuthorsWords, ...]:
    found: dict[str, AuthorsWords] = {}
    for sitting in plan.order.sittings:
        experiment = sitting.work.experiment
        reader = _Reader(writer, experiment.id)
        lines = tuple(_lines(experiment, reader, section, box))
        if lines:
            found[experiment.id] = AuthorsWords(experiment.title, lines)
    return tuple(found.values())


def _lines(
    experiment: Experiment, reader: _Reader, kind: SectionKind, box: BoxKind
) -> Iterator[str]:
    for section in experiment.sections:
        if section.kind is kind:
            yield from reader.lines(section.blocks)
    for section in experiment.sections:
        if section.kind is not kind:
            for found in _boxes(section.blocks, (box,)):
                yield from reader.lines(found.blocks)


def _boxes(blocks: Blocks, kinds: Collection[BoxKind]) -> Iterator[Box]:
    for block in walk(blocks):
        if isinstance(block, Box) and block.kind in kinds:
            yield block


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads an experiment's text as plain lines."""

    writer: Writer
    experiment: str

    def lines(self, blocks: Blocks) -> Iterator[str]:
        """Each run of text as a line; of a list each item."""
        for block in blocks:
            yield from self._of_block(block)

    def _of_block(self, block: Block) -> Iterator[str]:
        own = " ".join(filter(None, map(self._text, texts(block))))
        if own:
            yield own
        match block:
            case ListBlock():
                yield from (" ".join(self.lines(item)) for item in block.items)
            case Step() | Box():
                yield " ".join(self.lines(block.blocks))
            case _:
                pass

    def _text(self, content: Inlines) -> str:
        return "".join(map(self._written, content)).strip()

    def _written(self, inline: Inline) -> str:
        match inline:
            case Words():
                return inline.text
            case LineBreak():
                return " "
            case Emphasis() | Blank() | OutsideLink():
                return self._text(inline.content)
            case Reference():
                return self._reference(inline)
            case Picture():
                return inline.description
            case _:
                return self._chemistry(inline)

    def _chemistry(self, inline: Inline) -> str:
        match inline:
            case FormulaSpan():
                state = f"({inline.state})" if inline.state else ""
                return inline.formula.pretty + state
            case EquationSpan():
                return inline.equation.pretty
            case QuantitySpan():
                return self.writer.quantity(inline.quantity)
            case UnreadSpan():
                return inline.source
            case _:
                return ""

    def _reference(self, reference: Reference) -> str:
        """The link's words and the number of what it leads to."""
        words = self._text(reference.content)
        target = self.writer.numbers.get(reference.experiment or self.experiment)
        if target is None:
            return words
        if reference.name is None:
            return f"{words} ({target.number})"
        piece = target.by_name.get(reference.name)
        return f"{words} {piece.number}" if piece and piece.number else words
