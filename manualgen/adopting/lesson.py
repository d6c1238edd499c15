"""How long a practical takes and how many work together, where the source is sure of it."""

from __future__ import annotations

import re

from manualgen.adopting.draft import Entry
from manualgen.adopting.spans import quantities_in
from manualgen.adopting.statement import Statement
from manualgen.adopting.vocabulary import numbers, patterns
from manualgen.adopting.wording import said_of
from manualgen.quantities import parse_quantity
from manualgen.quantities.kinds import kind_of

_GROUPS = {"pairs": "2", "twos": "2", "threes": "3", "fours": "4", "alone": "1"}


class Lesson:
    """The time and the size of a group, each from the first sentence that tells it."""

    def __init__(self) -> None:
        self.time: Entry | None = None
        self.group: Entry | None = None

    def take(self, statement: Statement) -> bool:
        """Whether a sentence tells one of them and no more."""
        if self.time is None and (time := time_in(statement.text)):
            self.time = Entry(time, said_of(statement))
            return True
        if self.group is None and (group := group_in(statement.text)):
            self.group = Entry(group, said_of(statement))
            return True
        return False


def time_in(text: str) -> str | None:
    """The time that a lesson takes, where a text tells one and no other.

    >>> time_in("One double lesson (80 min).")
    '80 min'
    """
    found = list(quantities_in(text))
    if len(found) != 1 or kind_of(parse_quantity(found[0][2]).unit) != "time":
        return None
    start, end, written = found[0]
    rest = re.sub(r"[\s(),.:–-]+", " ", f"{text[:start]} {text[end:]}").strip()
    return written if patterns("beside_time").fullmatch(rest) else None


def group_in(text: str) -> str | None:
    """How many work together, where a text tells only that.

    >>> group_in("Work in groups of three."), group_in("In pairs")
    ('3', '2')
    """
    found = patterns("grouping").fullmatch(text.strip(" .!"))
    if found is None:
        return None
    said = next(word for word in found.groups() if word).casefold()
    return _GROUPS.get(said) or numbers().get(said, said)
