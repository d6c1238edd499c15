"""What is needed, as entries for the two lists with their words in the source."""

from __future__ import annotations

import re

from manualgen.adopting.draft import Block, Entry, Form, Said
from manualgen.adopting.needs import needed_in
from manualgen.adopting.spans import marked
from manualgen.adopting.vocabulary import NEEDS, Part, part_named

_MORE = re.compile(
    r"(?:and|plus|also|oh and|then)?\s*(?:an?|some|two|three|\d)\s", re.I
)


def listed(
    text: str, part: Part, said: Said
) -> tuple[list[tuple[Part, Entry]], list[Block]]:
    """The entries of a list by their part, and what nobody can tell the part of."""
    things = needed_in(text, part)
    entries = [(t.part, Entry(t.entry, said)) for t in things if t.part]
    unsure = [
        Block(Form.PARAGRAPH, f"Needed: {marked(t.words)}", (said,))
        for t in things
        if t.part is None
    ]
    return entries, unsure


def goes_on(text: str) -> bool:
    """*And a flask with a bung.* goes on with what is needed."""
    things = needed_in(text, Part.NEEDS) if _MORE.match(text) else ()
    return bool(things) and all(thing.part for thing in things)


def needs_of_table(rows: tuple[tuple[str, ...], ...]) -> list[tuple[Part, str]]:
    """The cells of a table whose every column is headed by what is needed."""
    head, *below = rows or ((),)
    parts = [part_named(cell) for cell in head]
    if not head or not all(part in NEEDS for part in parts):
        return []
    return [
        (part, row[at])
        for at, part in enumerate(parts)
        for row in below
        if part and at < len(row) and row[at]
    ]
