"""Paragraphs and pictures that stand alone."""

from __future__ import annotations

from manualgen.model.blocks import Figure, Paragraph
from manualgen.model.text import LineBreak, Picture
from manualgen.reading.inline import MarksMean, Run, read_inlines
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.tree import Body, Node


def read_run(
    node: Node, body: Body, around: Surroundings, marks: MarksMean
) -> tuple[Run, Paragraph]:
    """A paragraph's text and what it carries, and the paragraph itself."""
    text = body.stretch(node.text, node.line)
    if node.quotes:
        _note_lazy_lines(node, body, around)
    run = read_inlines(text, around, marks)
    return run, Paragraph(run.content, text.place())


def _note_lazy_lines(node: Node, body: Body, around: Surroundings) -> None:
    """A line without ``>`` that CommonMark counts in with the box above it."""
    for index, text in enumerate(node.text.split("\n")):
        line = body.line(node.line + index)
        before = line[: max(0, len(line.rstrip()) - len(text.strip()))]
        if before.count(">") < node.quotes:
            around.faults.syntax(
                body.place(node.line + index, len(before)),
                "this line has no > and would still be read into the box above it",
                "put > before it, or an empty line",
            )
            return


def figure_of(run: Run, paragraph: Paragraph) -> Figure | None:
    """The figure, where a paragraph is a picture with or without its caption."""
    match run.content:
        case (Picture() as picture,):
            name = run.name.text if run.name else None
            return Figure(picture, (), name, paragraph.place)
        case (Picture() as picture, LineBreak(), *caption):
            name = run.name.text if run.name else None
            return Figure(picture, tuple(caption), name, paragraph.place)
        case (Picture() as picture, *caption) if run.name:
            return Figure(picture, tuple(caption), run.name.text, paragraph.place)
        case _:
            return None
