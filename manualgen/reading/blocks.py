"""Blocks: nodes of the tree to the model's blocks.

`gather` reads what stands inside a section, an item of a list or a box, and
keeps apart what belongs to its bearer: a step's name, a question's marks, its
answer and its parts.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from manualgen.model.blocks import (
    Answer,
    Block,
    Blocks,
    Box,
    Figure,
    ListBlock,
    Paragraph,
    PipeTable,
    Subheading,
)
from manualgen.model.place import Place
from manualgen.model.text import Blank, Inlines, Marks, Words
from manualgen.model.walk import inlines
from manualgen.reading.boxes import note_stray_labels, read_label
from manualgen.reading.fences import read_fence
from manualgen.reading.inline import MarksMean, Name, Run, read_inlines
from manualgen.reading.numbering import note_broken_numbers
from manualgen.reading.paragraphs import figure_of, read_run
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.tables import read_table
from manualgen.reading.tree import Body, Node

_ANSWER = re.compile(r"(?:\*\*|__)\s*answer\b", re.IGNORECASE)


@dataclass(slots=True)
class Gathered:
    """What stands inside something, and what that carries."""

    blocks: list[Block] = field(default_factory=list)
    name: Name | None = None
    marks: Marks | None = None
    answers: list[Answer] = field(default_factory=list)
    parts: list[Node] = field(default_factory=list)
    """Numbered lists, where they are the parts of a question."""


@dataclass(frozen=True, slots=True)
class Bearer:
    """What the thing whose inside is read can carry."""

    named: bool = False
    marks: MarksMean = MarksMean.NOTHING
    parts: bool = False


NOTHING = Bearer()
STEP = Bearer(named=True)
QUESTION = Bearer(named=True, marks=MarksMean.QUESTION, parts=True)
ANSWER = Bearer(marks=MarksMean.ANSWER)


class BlockReader:
    """Reads the blocks of one file."""

    def __init__(self, body: Body, around: Surroundings) -> None:
        self.body = body
        self.around = around
        self.faults = around.faults

    def blocks(self, nodes: Sequence[Node], bearer: Bearer = NOTHING) -> Blocks:
        """Blocks in a place that has no use for an answer."""
        gathered = self.gather(nodes, bearer)
        for answer in gathered.answers:
            message = "an answer stands inside its question, under ## Questions"
            self.faults.syntax(answer.place, message, "indent it under its question")
        return tuple(gathered.blocks)

    def gather(self, nodes: Sequence[Node], bearer: Bearer = NOTHING) -> Gathered:
        """Everything that stands inside something."""
        gathered = Gathered()
        for node in nodes:
            self._take(node, bearer, gathered)
        return gathered

    def _take(self, node: Node, bearer: Bearer, gathered: Gathered) -> None:
        match node.kind:
            case "paragraph":
                self._paragraph(node, bearer, gathered)
            case "blockquote":
                self.quote(node, gathered)
            case "ordered_list" if bearer.parts:
                gathered.parts.append(node)
            case "ordered_list" | "bullet_list":
                gathered.blocks.append(self._list(node, bearer))
            case "table":
                gathered.blocks.append(read_table(node, self.body, self.around))
            case "fence":
                if block := read_fence(node, self.body, self.around):
                    gathered.blocks.append(block)
            case "heading":
                gathered.blocks.append(self.subheading(node))
            case "code_block":
                gathered.blocks.append(self._indented(node))
            case _:
                pass

    def subheading(self, node: Node) -> Subheading:
        """A heading below a section's own."""
        text = self.body.heading(node)
        run = self.unnamed(read_inlines(text, self.around))
        return Subheading(int(node.token.tag[1]), run.content, text.place())

    def unnamed(self, run: Run) -> Run:
        """A run that can carry no name; one that does is noted."""
        if run.name and not run.name.noted:
            message = "only a step, a question or a caption is named so"
            self.faults.syntax(run.name.place, message)
        return run

    def bare_heading(self, text: Stretch) -> Inlines:
        """A heading that stands in contents and running heads, where no blank can."""
        content = self.unnamed(read_inlines(text, self.around)).content
        for inline in inlines(content):
            if isinstance(inline, Blank):
                message = "a blank in a heading would show its words in the contents"
                self.faults.syntax(inline.place, message, "put it into the text")
        return content

    def _paragraph(self, node: Node, bearer: Bearer, gathered: Gathered) -> None:
        run, paragraph = read_run(node, self.body, self.around, bearer.marks)
        note_stray_labels(run.content, inside_box=node.quotes > 0, faults=self.faults)
        self._put(run, paragraph, bearer, gathered)

    def _put(
        self, run: Run, paragraph: Paragraph, bearer: Bearer, gathered: Gathered
    ) -> None:
        if figure := figure_of(run, paragraph):
            gathered.blocks.append(figure)
            return
        if run.name and self._caption(run, gathered):
            return
        if paragraph.content:
            gathered.blocks.append(paragraph)
        if run.name and not bearer.named:
            self.unnamed(run)
        elif run.name and gathered.name:
            message = f"this is named #{gathered.name.text} already"
            self.faults.syntax(run.name.place, message)
        elif run.name:
            gathered.name = run.name
        if run.marks and gathered.marks:
            message = "the marks of a question stand once, at its end"
            self.faults.syntax(gathered.marks.place, message)
        gathered.marks = run.marks or gathered.marks

    def _caption(self, run: Run, gathered: Gathered) -> bool:
        """Whether a named line is the caption of the table or picture above it."""
        last = gathered.blocks[-1] if gathered.blocks else None
        if not isinstance(last, PipeTable | Figure) or last.name or run.name is None:
            return False
        caption = run.content or last.caption
        gathered.blocks[-1] = replace(last, caption=caption, name=run.name.text)
        return True

    def _list(self, node: Node, bearer: Bearer) -> ListBlock:
        ordered = node.kind == "ordered_list"
        if ordered:
            note_broken_numbers(node, self.body, self.faults)
        inside = replace(bearer, named=False, parts=False)
        if bearer.marks is MarksMean.QUESTION:
            inside = NOTHING
        items = tuple(self.blocks(item.children, inside) for item in node.children)
        start = int(node.token.attrs.get("start", 1))
        mark = node.children[0].token.info + node.token.markup
        return ListBlock(ordered, start, items, self.body.place_of(node, mark))

    def _indented(self, node: Node) -> Paragraph:
        """Text that Markdown takes for program code, which a manual has none of."""
        text = self.body.stretch(node.token.content.rstrip("\n"), node.line)
        message = "these lines are indented by four blanks, which makes code of them"
        self.faults.syntax(text.place(0, 1), message, "indent them less")
        words = tuple(Words(line.text, line.place()) for line in text.lines())
        return Paragraph(words, text.place())

    def quote(self, node: Node, gathered: Gathered) -> None:
        """A box, or the answer to a question."""
        place = self._quote_place(node)
        if node.quotes:
            message = "a box stands inside another box"
            self.faults.syntax(place, message, "give each box a quote of its own")
        first = node.children[0] if node.children else None
        head, others = Run(()), node.children
        if first and first.kind == "paragraph":
            marks = MarksMean.ANSWER if _is_answer(first.text) else MarksMean.NOTHING
            head, _ = read_run(first, self.body, self.around, marks)
            others = node.children[1:]
        label = read_label(head.content, place, self.faults)
        self.unnamed(head)
        note_stray_labels(label.rest, inside_box=True, faults=self.faults)
        bearer = NOTHING if label.kind else ANSWER
        text = _paragraph_of(label.rest)
        blocks = (*text, *self.blocks(others, bearer))
        if label.kind:
            gathered.blocks.append(Box(label.kind, label.name, blocks, place))
            return
        gathered.answers.append(Answer(label.space, blocks, place))
        if label.name and gathered.name is None:
            gathered.name = Name(label.name, place)

    def _quote_place(self, node: Node) -> Place:
        """From the quote's own ``>`` on."""
        before, after = node.token.map or (0, 1)
        column = -1
        for _ in range(node.quotes + 1):
            column = self.body.line(before).find(">", column + 1)
        return self.body.place(before, max(column, 0), after - 1)


def _is_answer(text: str) -> bool:
    """Whether a box's text begins with the label of an answer."""
    return bool(_ANSWER.match(text))


def _paragraph_of(content: Inlines) -> Blocks:
    """What follows a label on its line, if anything does."""
    if not content:
        return ()
    first, last = content[0].place, content[-1].place
    place = Place(first.file, first.line, first.column, last.end_line, last.end_column)
    return (Paragraph(content, place),)
