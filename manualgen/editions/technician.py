"""What the technician's edition prints: sheets of actions, and bottle labels.

Every amount is text already, as a balance or a cylinder shows it: who works by
these pages has no arithmetic to do.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ActionRow:
    """One thing to do, with a box to tick."""

    what: str
    amount: str = ""
    code: str = ""
    """The letter of a solution, or nothing."""
    how: tuple[str, ...] = ()
    """Sentences, in order."""
    cautions: tuple[str, ...] = ()
    """What to wear and watch meanwhile."""
    signal_word: str = ""
    hazards: tuple[str, ...] = ()
    """What a label says of it."""
    pictograms: tuple[str, ...] = ()
    """Codes, ``GHS05``."""


@dataclass(frozen=True, slots=True)
class Action:
    """One kind of action: weigh, dilute, fill."""

    name: str
    """``weigh``: the same in every language."""
    heading: str
    what: str
    """What the column of that name holds; so are the next two."""
    amount: str
    how: str
    rows: tuple[ActionRow, ...]
    words: str = ""
    """A word about all of them."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What the manual leaves open, and why it has to be asked."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class AuthorsWords:
    """What an experiment's author says to the technician."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TechnicianSheet:
    """The sheet for one order: a class, a day, or an experiment of the year."""

    id: str
    number: str
    """Of the experiment; empty for a day."""
    title: str
    facts: tuple[str, ...]
    ask: tuple[Asked, ...]
    actions: tuple[Action, ...]
    notes: tuple[AuthorsWords, ...] = ()


@dataclass(frozen=True, slots=True)
class BottleLabel:
    """A label for a bottle, or for several of one kind."""

    name: str
    """What it is, or what students are shown."""
    formula: str
    """Empty where students must not know it."""
    strength: str
    """With *about* where it has to be found."""
    found: str
    """The unit of the found value to write in; empty where none is found."""
    remark: str
    """Which experiments it is for."""
    signal_word: str
    pictograms: tuple[str, ...]
    statements: tuple[str, ...]
    precautions: tuple[str, ...]
    """At most six, as CLP Article 28(3) has it."""
    notes: tuple[str, ...]
    """Of the pH, or that nothing is known."""
    keeps: str
    """``6 months``: how long after it was made; empty where nobody says."""
    copies: int

    @property
    def weight(self) -> int:
        """How many letters its hazards and precautions have."""
        return sum(map(len, (*self.statements, *self.precautions, *self.notes)))


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A common sheet of labels; lengths in mm, as text."""

    across: int
    down: int
    width: str
    height: str
    left: str
    top: str
    gap: str

    @property
    def number(self) -> int:
        """How many labels are on it."""
        return self.across * self.down
