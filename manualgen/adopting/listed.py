"""What is needed, as entries for the two lists with their words in the source."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import replace

from manualgen.adopting.columns import lines_of_needs
from manualgen.adopting.draft import Block, Entry, Form, Said
from manualgen.adopting.needs import details_parted, needed_in, things_in
from manualgen.adopting.piece import Kind
from manualgen.adopting.seeing import has_verb
from manualgen.adopting.spans import marked
from manualgen.adopting.statement import Statement
from manualgen.adopting.thing import known_thing
from manualgen.adopting.unparted import parted
from manualgen.adopting.vocabulary import NEEDS, Part, part_named, patterns, words
from manualgen.adopting.wanted import may_be_thing, need_list
from manualgen.adopting.wording import said_of

_MORE = re.compile(
    r"(?:and|plus|also|oh and|then)?\s*(?:an?|some|two|three|\d)\s", re.I
)


def listed(
    text: str, part: Part, said: Said
) -> tuple[list[tuple[Part, Entry]], list[Block]]:
    """The entries of a list by their part, and what nobody can tell the part of.

    A list of which nothing can be told stays whole; a sentence is none.
    """
    things = needed_in(text, part)
    entries = [(t.part, Entry(t.entry, said)) for t in things if t.part]
    left = [t.words for t in things if t.part is None]
    if not entries:
        left = [text] if left and not has_verb(text) else []
    unsure = [Block(Form.PARAGRAPH, f"Needed: {marked(t)}", (said,)) for t in left]
    return entries, unsure


def goes_on(text: str) -> bool:
    """*And a flask with a bung.* goes on with what is needed, and so does a bare name."""
    first = re.split(r"[^\w]", text.strip(), maxsplit=1)[0].casefold()
    if first in words("no_thing") and patterns("remarks").match(f" {text}") is not None:
        return False
    is_list = _MORE.match(text) or not has_verb(details_parted(text))
    items = things_in(details_parted(text)) if is_list else ()
    if not all(map(may_be_thing, items)):
        return False
    things = needed_in(text, Part.NEEDS) if is_list else ()
    return bool(things) and all(thing.part for thing in things)


def list_in(text: str) -> str:
    """The list of what is needed; talk without stops parts it by nothing."""
    said = need_list(text) or text
    if text.rstrip()[-1:] in ".:;":
        return said
    return ", ".join(parted(piece, known_thing) for piece in said.split(", "))


def _has(listed: str, entry: str, sort: Part) -> bool:
    """Whether an entry says nothing new; a bare *beaker* may be another than *beaker, 1 dm3*."""
    is_more = sort is Part.CHEMICALS and listed.startswith(f"{entry}, ")
    return listed == entry or is_more


class Lists:
    """The two lists of a practical, as what is needed is met."""

    def __init__(self) -> None:
        self._entries: defaultdict[Part, list[Entry]] = defaultdict(list)

    def of(self, part: Part) -> tuple[Entry, ...]:
        """The entries of a list."""
        return tuple(self._entries[part])

    def __bool__(self) -> bool:
        return any(self._entries.values())

    def take(self, text: str, part: Part, said: Said) -> list[Block] | None:
        """Take a list; what of it is not sure, or None where nothing of it is new."""
        entries, unsure = listed(text, part, said)
        is_told = False
        for sort, entry in entries:
            if not any(_has(e.text, entry.text, sort) for e in self._entries[sort]):
                self._entries[sort].append(entry)
                is_told = True
        return unsure if is_told or (unsure and not entries) else None

    def take_lines(self, statement: Statement, here: Part | None) -> list[Block] | None:
        """Take a table row by row; what is not sure and the hazards that it names.

        None where it lists nothing that is needed.
        """
        lines = lines_of_needs(statement.rows, here)
        unsure: list[Block] = []
        for line in lines:
            said = said_of(replace(statement, kind=Kind.ITEM, text=line.words))
            for part, entry in line.entries:
                self._entries[part].append(Entry(entry, said))
            if line.left:
                words = f"Needed: {marked(line.left)}"
                unsure.append(Block(Form.PARAGRAPH, words, (said,)))
            if line.danger:
                unsure.append(Block(Form.SAFETY, f"{marked(line.danger)}.", (said,)))
        return unsure if lines else None


def needs_of_table(
    rows: tuple[tuple[str, ...], ...], here: Part | None
) -> list[tuple[Part, str]]:
    """The cells of a table of what is needed, column by column.

    Every column is headed by what is needed, or the table stands ``here``, under
    such a heading, and no cell of it is a figure.
    """
    head, *below = rows or ((),)
    parts = [part_named(cell) for cell in head]
    is_wider = any(len(row) > len(head) for row in below)
    if not head or is_wider or not all(part in NEEDS for part in parts):
        if here is None or any(map(_is_figure, (cell for row in rows for cell in row))):
            return []
        parts, below = [here] * len(head), list(rows)
    return [
        (part, row[at])
        for at, part in enumerate(parts)
        for row in below
        if part and at < len(row) and row[at]
    ]


def _is_figure(cell: str) -> bool:
    """Whether a cell tells a number and no thing: *250*, but not *3 beakers*."""
    return cell[:1].isdigit() and not known_thing(cell)
