"""The Method: steps, numbered through, and the lessons or stations that part it.

### Lesson 2 (40 min, after 1 week)
### Station A: Flame tests (10 min)
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from manualgen.model.blocks import Block, Blocks, PartHeading, PartKind, Step
from manualgen.model.walk import plain
from manualgen.quantities import Quantity
from manualgen.reading.blocks import STEP, BlockReader
from manualgen.reading.numbering import Numbering
from manualgen.reading.stretch import Stretch
from manualgen.reading.tree import Node
from manualgen.reading.values import read_quantity

_PART = re.compile(
    r"(?P<kind>lesson|station)\s+(?P<label>\d{1,2}[a-z]?|[a-z]\d?)\b[\s:.–—-]*(?P<title>[^()]*?)\s*"
    r"(?:\((?P<times>[^()]*)\))?",
    re.IGNORECASE,
)


def read_method(nodes: Sequence[Node], reader: BlockReader) -> Blocks:
    """The steps, and what stands between them."""
    numbering = Numbering(reader.body, reader.faults, "step")
    blocks: list[Block] = []
    count = 0
    for node in nodes:
        if node.kind == "ordered_list":
            for item in node.children:
                numbering.take(item)
                count += 1
                blocks.append(_step(item, count, reader))
        elif node.kind == "heading" and (part := _part(node, reader)):
            numbering.allow_restart()
            blocks.append(part)
        else:
            blocks += reader.blocks([node])
    return tuple(blocks)


def _step(item: Node, number: int, reader: BlockReader) -> Step:
    gathered = reader.gather(item.children, STEP)
    for answer in gathered.answers:
        message = "an answer stands inside its question, under ## Questions"
        reader.faults.syntax(answer.place, message)
    mark = item.token.info + item.token.markup
    place = reader.body.place_of(item, mark)
    name = gathered.name.text if gathered.name else None
    return Step(number, tuple(gathered.blocks), name, place)


def _part(node: Node, reader: BlockReader) -> PartHeading | None:
    text = reader.body.heading(node)
    found = _PART.fullmatch(text.text)
    if not found:
        return None
    time, after = _times(text, found, reader)
    kind = PartKind(found["kind"].capitalize())
    title = plain(reader.bare_heading(text.cut(*found.span("title"))))
    return PartHeading(kind, found["label"], title, time, after, text.place())


def _times(
    text: Stretch, found: re.Match[str], reader: BlockReader
) -> tuple[Quantity | None, Quantity | None]:
    """How long the part takes, and how long after the one before it comes."""
    time = after = None
    if found["times"] is None:
        return time, after
    for words in text.cut(found.start("times"), found.end("times")).split(","):
        if words.text.startswith("after "):
            wait = words.cut(len("after "), len(words.text)).strip()
            after = read_quantity(wait, reader.faults, ("time",), "a time")
        else:
            time = read_quantity(words, reader.faults, ("time",), "a time")
    return time, after
