"""The sections of a draft as they are filled, block after block."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import replace

from manualgen.adopting.draft import Block, Form, Place
from manualgen.adopting.leading import led_in
from manualgen.adopting.seeing import Seen
from manualgen.adopting.spans import marked
from manualgen.adopting.statement import Statement
from manualgen.adopting.wording import (
    as_sentence,
    equation_block,
    leading_boxes,
    said_of,
    seen_text,
)

_CAPTION = re.compile(
    r"fig(?:ure|\.)?\s*\d{1,2}(?:\.\d)?\s*[.:–-]*\s+(?P<words>\S.*)", re.I
)


class Sections:
    """Blocks by the section that they stand in."""

    def __init__(self) -> None:
        self.blocks: defaultdict[Place, list[Block]] = defaultdict(list)

    def filled(self) -> tuple[tuple[Place, tuple[Block, ...]], ...]:
        """The sections that have blocks, in the order of a draft."""
        return tuple((p, tuple(self.blocks[p])) for p in Place if self.blocks[p])

    def add(self, place: Place, form: Form, text: str, statement: Statement) -> None:
        """A block of a statement."""
        self.blocks[place].append(Block(form, text, (said_of(statement),)))

    def unplaced(self, statement: Statement) -> None:
        """A statement of which nobody can tell where it belongs."""
        self.add(Place.UNPLACED, Form.PARAGRAPH, marked(statement.text), statement)

    def seen(self, seen: Seen, statement: Statement) -> None:
        """What is seen, with its blank."""
        self.add(Place.OBSERVATIONS, Form.BULLET, seen_text(seen), statement)

    def paragraph(self, place: Place, statement: Statement) -> None:
        """A sentence; those of one paragraph stay one."""
        if equation := equation_block(statement):
            self.blocks[place].append(equation)
            return
        row = self.blocks[place]
        text = as_sentence(statement)
        last = row[-1] if row and not statement.begins_piece else None
        if last and last.form is Form.PARAGRAPH:
            said = (*last.said, said_of(statement))
            row[-1] = replace(last, text=f"{last.text} {text}", said=said)
        else:
            self.add(place, Form.PARAGRAPH, text, statement)

    def safety(self, statement: Statement, *, leads: bool) -> None:
        """A box, before the first step where it ``leads``."""
        text = as_sentence(replace(statement, text=led_in(statement.text)))
        block = Block(Form.SAFETY, text, (said_of(statement),))
        row = self.blocks[Place.METHOD]
        if leads:
            row.insert(sum(b.form is Form.SAFETY for b in leading_boxes(row)), block)
        else:
            row.append(block)

    def told_beside(self, blocks: list[Block]) -> None:
        """What stood beside a list: hazards as boxes before the steps, the rest unplaced."""
        boxes = [b for b in blocks if b.form is Form.SAFETY]
        row = self.blocks[Place.METHOD]
        at = len(leading_boxes(row))
        row[at:at] = boxes
        self.blocks[Place.UNPLACED] += [b for b in blocks if b not in boxes]

    def captions(self, place: Place, statement: Statement) -> bool:
        """Whether *Fig. 1 …* tells of the picture before it, and was taken so."""
        last = self.blocks[place][-1] if self.blocks[place] else None
        found = _CAPTION.fullmatch(statement.text)
        if not (found and last and last.picture) or last.picture.description:
            return False
        if last.said[-1].number != statement.number - 1:
            return False
        picture = replace(last.picture, description=found["words"])
        said = (*last.said, said_of(statement))
        self.blocks[place][-1] = replace(last, picture=picture, said=said)
        return True
