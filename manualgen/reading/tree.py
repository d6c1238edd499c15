"""Block tokens as a tree, each node with its text and its place in the file.

markdown-it-py counts lines from nought and from the end of the front matter,
and says nothing of columns. A line of a paragraph or a fence is always the end
of a line of the file, since only marks of lists and boxes stand before it; so
its column is the difference of the two lengths.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from markdown_it.common.utils import MD_TRIM_CHARS
from markdown_it.token import Token

from manualgen.model.place import Place
from manualgen.reading.faults import Faults
from manualgen.reading.rules.parser import DEEPEST
from manualgen.reading.stretch import Start, Stretch


@dataclass(slots=True)
class Node:
    """A block, or a part of one such as a row or a list's item."""

    kind: str
    """The token's type, without ``_open``."""
    token: Token
    quotes: int
    """How many block quotes it stands in, itself not counted."""
    children: list[Node] = field(default_factory=list)

    @property
    def line(self) -> int:
        """The first line, from nought within the body."""
        return self.token.map[0] if self.token.map else 0

    @property
    def text(self) -> str:
        """The text of a paragraph, heading or cell."""
        return self.children[0].token.content if self.children else ""


@dataclass(frozen=True, slots=True)
class Body:
    """What follows the front matter of a file."""

    file: str
    lines: tuple[str, ...]
    """Those of the whole file."""
    first: int
    """How many of them come before the body."""

    def line(self, number: int) -> str:
        """A line of the body, counted from nought."""
        at = self.first + number
        return self.lines[at] if at < len(self.lines) else ""

    def stretch(self, content: str, line: int, *, trimmed: bool = True) -> Stretch:
        """Text that the parser took from ``line`` on, line by line.

        ``trimmed`` says that blanks were taken off the end of the whole.
        """
        texts = content.split("\n")
        starts: list[Start] = []
        offset = 0
        for index, text in enumerate(texts):
            source = self.line(line + index)
            if trimmed and index == len(texts) - 1:
                source = source.rstrip(MD_TRIM_CHARS)
            column = max(1, len(source) - len(text) + 1)
            starts.append((offset, self.first + line + index + 1, column))
            offset += len(text) + 1
        return Stretch(self.file, content, tuple(starts))

    def place(self, line: int, column: int, end_line: int | None = None) -> Place:
        """From a column of a line (both from nought) to the end of ``end_line``."""
        last = line if end_line is None else end_line
        while last > line and not self.line(last).strip():
            last -= 1
        width = len(self.line(last))
        start = min(column, len(self.line(line)))
        return Place(
            self.file,
            self.first + line + 1,
            start + 1,
            self.first + last + 1,
            max(width, start if last == line else 0) + 1,
        )

    def place_of(self, node: Node, mark: str) -> Place:
        """The whole of a block that begins with ``mark``."""
        before, after = node.token.map or (0, 1)
        column = max(self.line(before).find(mark), 0)
        return self.place(before, column, after - 1)

    def heading(self, node: Node) -> Stretch:
        """The text of a heading."""
        source, marks = self.line(node.line), node.token.markup
        if not marks.startswith("#"):
            return self.stretch(node.text, node.line)
        column = source.find(marks) + len(marks)
        column += len(source[column:]) - len(source[column:].lstrip(MD_TRIM_CHARS))
        start = (0, self.first + node.line + 1, column + 1)
        return Stretch(self.file, node.text, (start,))


def tree(
    tokens: Sequence[Token], body: Body, faults: Faults
) -> tuple[list[Node], bool]:
    """The blocks of a body, and whether they are all.

    The parser passes over what is nested too deeply, and over all that follows;
    a fence that is never closed takes the rest of the file in. Both are noted.
    """
    root: list[Node] = []
    path: list[Node] = []
    complete = True
    for token in tokens:
        if token.nesting < 0:
            node = path.pop()
            if node.token.level + 1 >= DEEPEST and not node.children:
                message = "lists and boxes are nested too deeply here to be read"
                faults.syntax(body.place(node.line, 0), message)
                complete = False
            continue
        quotes = sum(node.kind == "blockquote" for node in path)
        node = Node(token.type.removesuffix("_open"), token, quotes)
        if token.type == "fence" and not is_closed(node):
            message = f"this fence is never closed; a line of {token.markup} ends it"
            faults.syntax(body.place_of(node, token.markup), message)
            complete = False
        (path[-1].children if path else root).append(node)
        if token.nesting > 0:
            path.append(node)
    return root, complete


def is_closed(node: Node) -> bool:
    """Whether a fence's last line is not part of its content."""
    before, after = node.token.map or (0, 0)
    return after - before == node.token.content.count("\n") + 2
