"""Numbers and anchors: what every cross-reference in the manual leads to.

Each experiment numbers its own pieces, ``4.1``, ``4.2`` …, in four series;
Safety starts at 2, since the hazard box that the tool makes is the first.
Pieces that only the teacher sees are numbered after all that students see, so
that taking them away renumbers nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from manualgen.model.blocks import (
    Block,
    Blocks,
    Box,
    BoxKind,
    Figure,
    PipeTable,
    Question,
    Step,
)
from manualgen.model.experiment import Experiment, SectionKind
from manualgen.model.fences import Calculation, EquationBlock, Graph, Readings, Setup
from manualgen.model.manual import Manual
from manualgen.model.place import Place
from manualgen.model.walk import children, walk

TEACHER_SECTIONS = (SectionKind.TEACHER, SectionKind.TECHNICIAN)
TEACHER_BOXES = (BoxKind.TEACHER, BoxKind.TECHNICIAN)


@dataclass(frozen=True, slots=True)
class Target:
    """Something that can be referred to."""

    number: str
    anchor: str
    teachers: bool = False
    """Whether it stands on the teacher pages alone."""


@dataclass(frozen=True, slots=True)
class Numbered:
    """One experiment's numbers."""

    id: str
    number: str
    title: str
    by_place: Mapping[Place, Target]
    by_name: Mapping[str, Target]


def catalogue(manual: Manual) -> dict[str, Numbered]:
    """The numbers of every experiment, by id."""
    return {e.id: number_pieces(manual, e) for e in manual.experiments}


def number_pieces(manual: Manual, experiment: Experiment) -> Numbered:
    """The numbers and anchors of one experiment's pieces."""
    chapter = manual.number_of(experiment.id) or experiment.id
    counts: Counter[str] = Counter(safety=1)
    by_place: dict[Place, Target] = {}
    by_name: dict[str, Target] = {}
    for block, label, teachers in _in_print_order(experiment):
        target = _target(block, label, chapter, counts)
        if target:
            target = replace(target, teachers=teachers)
            by_place[block.place] = target
            name = getattr(block, "name", None)
            if name:
                by_name.setdefault(name, target)
    return Numbered(experiment.id, chapter, experiment.title, by_place, by_name)


def _target(
    block: Block, label: str, chapter: str, counts: Counter[str]
) -> Target | None:
    match block:
        case Step():
            return Target(str(block.number), block.name or f"step.{block.number}")
        case Question():
            return Target(label, block.name or f"question.{label}")
        case Calculation():
            return Target("", block.name or f"calculation.{block.place.line}")
        case _:
            return _in_a_series(block, chapter, counts)


def _in_a_series(block: Block, chapter: str, counts: Counter[str]) -> Target | None:
    series = _series(block)
    if series is None:
        return None
    counts[series] += 1
    number = f"{chapter}.{counts[series]}"
    name = getattr(block, "name", None)
    return Target(number, name or f"{series}.{counts[series]}")


def _series(block: Block) -> str | None:
    match block:
        case Box(kind=BoxKind.SAFETY):
            return "safety"
        case Box():
            return "box" if block.name else None
        case EquationBlock():
            return "equation"
        case PipeTable() | Readings():
            return "table"
        case Figure() | Graph() | Setup():
            return "figure"
        case _:
            return None


def _in_print_order(experiment: Experiment) -> Iterator[tuple[Block, str, bool]]:
    """Blocks with their labels, and whether they are the teacher's: those last."""
    later: list[Block] = []
    for section in experiment.sections:
        if section.kind in TEACHER_SECTIONS:
            later.extend(section.blocks)
        else:
            for block, label in _students(section.blocks, "", later):
                yield block, label, False
    for block in walk(tuple(later)):
        yield block, "", True


def _students(
    blocks: Blocks, outer: str, later: list[Block]
) -> Iterator[tuple[Block, str]]:
    for block in blocks:
        if isinstance(block, Box) and block.kind in TEACHER_BOXES:
            later.append(block)
        elif isinstance(block, Question):
            label = question_label(outer, block.number)
            yield block, label
            yield from _students((*block.blocks, *block.parts), label, later)
            if block.answer:
                later.extend(block.answer.blocks)
        else:
            yield block, ""
            yield from _students(children(block), "", later)


def question_label(outer: str, number: int) -> str:
    """``2`` for a question, ``2a`` for its first part, ``2a.1`` below that."""
    if not outer:
        return str(number)
    if outer[-1].isdigit() and "." not in outer and number <= 26:
        return outer + chr(ord("a") + number - 1)
    return f"{outer}.{number}"
