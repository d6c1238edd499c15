"""Control measures, what asks for them, and the words that name them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from manualgen.knowledge.chemical import Chemical
from manualgen.knowledge.classification import Classification
from manualgen.knowledge.stems import said_in
from manualgen.knowledge.tables import Row, read_table


@dataclass(frozen=True, slots=True)
class Need:
    """What asks for a control measure; one of several is enough."""

    controls: tuple[str, ...]
    because: str
    """Said of the chemical or the operation: ``is flammable``."""
    statements: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()
    kin: frozenset[str] = frozenset()
    not_kin: frozenset[str] = frozenset()
    forms: frozenset[str] = frozenset()
    least_percent: Decimal | None = None
    extreme_ph: bool = False
    evolved: bool = False
    said: bool = False
    """Whether it asks for a gas too that only words say is made."""
    words: tuple[str, ...] = ()
    """Stems of the operation, in a step."""
    beside: frozenset[str] = frozenset()
    """Statements of another chemical in use, beside the operation or the chemical."""
    beside_words: tuple[str, ...] = ()
    """Stems that stand in the same passage."""
    gas_made: bool = False
    """Whether it asks only where an equation makes a gas."""
    unless_words: tuple[str, ...] = ()
    """Stems of the Method that answer it."""

    def asked_by(
        self, chemical: Chemical, found: Classification, *, evolved: bool
    ) -> bool:
        """Whether a chemical as it is used, or a gas that is made, asks for it."""
        if self.words or evolved != self.evolved:
            return False
        if self.names and not self.names & {chemical.name, chemical.substance}:
            return False
        return self._fits(chemical, found)

    def _fits(self, chemical: Chemical, found: Classification) -> bool:
        if self.extreme_ph:
            return found.advice is not None
        if self.statements and not self.statements & _statements(found):
            return False
        if (self.kin and not self.kin & chemical.kin) or self.not_kin & chemical.kin:
            return False
        if self.forms and str(chemical.form) not in self.forms:
            return False
        if self.least_percent is None or found.percent_ww is None:
            return True
        return found.percent_ww >= self.least_percent


@lru_cache(maxsize=1)
def controls() -> dict[str, tuple[str, ...]]:
    """The stems that name each control."""
    row = read_table("controls").row("controls")
    return {name: row.texts(name) for name in row.cells}


@lru_cache(maxsize=1)
def needs() -> tuple[Need, ...]:
    """Everything that asks for a control."""
    return tuple(_need(row) for row in read_table("controls").rows("needs"))


def controls_named(text: str) -> frozenset[str]:
    """The controls that a text names.

    >>> sorted(controls_named("Wear goggles."))
    ['eye protection', 'goggles or face shield']
    """
    return said_in(text, controls())


def _statements(found: Classification) -> frozenset[str]:
    return frozenset((*found.h_statements, *(c.statement for c in found.classes)))


def _need(row: Row) -> Need:
    return Need(
        controls=row.texts("any"),
        because=row.text("because"),
        statements=frozenset(row.texts("statements")),
        names=frozenset(row.texts("names")),
        kin=frozenset(row.texts("kin")),
        not_kin=frozenset(row.texts("not_kin")),
        forms=frozenset(row.texts("forms")),
        least_percent=row.number("from"),
        extreme_ph=row.text("ph") == "true",
        evolved=row.text("evolved") == "true",
        said=row.text("said") == "true",
        words=row.texts("words"),
        beside=frozenset(row.texts("beside")),
        beside_words=row.texts("beside_words"),
        gas_made=row.text("gas") == "true",
        unless_words=row.texts("unless_words"),
    )
