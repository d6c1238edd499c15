"""Chemicals that must not meet, and those that give off a toxic gas when they do."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from manualgen.knowledge.chemical import Chemical, Form
from manualgen.knowledge.tables import Row, read_table


@dataclass(frozen=True, slots=True)
class InUse:
    """A chemical as it is used; no mass fraction means undiluted."""

    chemical: Chemical
    percent: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Side:
    """One half of a pair: a substance or a family, from so many % w/w on."""

    name: str
    least: Decimal | None
    solid: bool

    def fits(self, used: InUse) -> bool:
        """Whether a chemical that is called so is used as this half has it."""
        chemical = used.chemical
        if self.solid and (chemical.form is not Form.SOLID or used.percent is not None):
            return False
        is_strong = used.percent is None and chemical.form is not Form.SOLUTION
        percent = used.percent or (Decimal(100) if is_strong else _usual(chemical))
        return self.least is None or percent >= self.least


@dataclass(frozen=True, slots=True)
class Pair:
    """Two that must not meet, and what comes of it."""

    one: Side
    other: Side
    because: str
    """Said of the two: ``give off chlorine, a toxic gas``."""
    gas: str | None = None
    """The toxic gas that comes of it."""
    unless: frozenset[str] = frozenset()
    """Families beside them with which nothing comes of it."""


@lru_cache(maxsize=1)
def pairs() -> tuple[Pair, ...]:
    """Every pair of the table."""
    return tuple(_pair(row) for row in read_table("incompatible").rows("pairs"))


@lru_cache(maxsize=1)
def gas_makers() -> tuple[Pair, ...]:
    """The pairs that may meet, and give off a toxic gas."""
    return tuple(_pair(row) for row in read_table("incompatible").rows("gases"))


def _pair(row: Row) -> Pair:
    is_solid = row.text("solid") == "true"
    return Pair(
        Side(row.text("one"), row.number("one_from"), is_solid),
        Side(row.text("other"), row.number("other_from"), is_solid),
        row.text("because"),
        row.text("gas") or None,
        frozenset(row.texts("unless")),
    )


def incompatibility(one: InUse, other: InUse) -> Pair | None:
    """The pair that must not meet that two chemicals in use are, either way round."""
    return _among(pairs(), one, other)


def gas_from(one: InUse, other: InUse) -> Pair | None:
    """The pair that gives off a toxic gas that two chemicals in use are, either way round."""
    return _among(gas_makers(), one, other)


def _among(known: Iterable[Pair], one: InUse, other: InUse) -> Pair | None:
    if one.chemical.substance == other.chemical.substance:
        return None
    first, second = _names(one.chemical), _names(other.chemical)
    for pair in known:
        a, b = pair.one.name, pair.other.name
        if a in first and b in second and _fits(pair, one, other):
            return pair
        if a in second and b in first and _fits(pair, other, one):
            return pair
    return None


def _fits(pair: Pair, one: InUse, other: InUse) -> bool:
    return pair.one.fits(one) and pair.other.fits(other)


def _names(chemical: Chemical) -> frozenset[str]:
    """What a half of a pair may call it: itself, or its family."""
    return frozenset((chemical.name, chemical.substance, *chemical.kin))


def _usual(chemical: Chemical) -> Decimal:
    """The strength of a solution whose strength is not said, at most dilute."""
    shares = [i.percent for i in chemical.ingredients if i.name == chemical.strength_of]
    return shares[0] if shares else Decimal(5)
