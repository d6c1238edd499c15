"""The table of units, read once: every writing that is known, and its meaning.

`data/units.yaml` holds the units, the prefixes and the ways in which people
type them. Here each prefix is put before each unit that takes it, so that a
word of a unit is looked up and never taken apart by guesswork: `min` is the
minute and `cd` the candela, whatever prefixes there are.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files

import yaml

from manualgen.quantities.dimension import ONE, Dimension
from manualgen.quantities.units import NamedUnit, Verdict

Row = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Writing:
    """One way of typing a unit: what it means and what the standards say."""

    means: NamedUnit | str
    """The unit; or the better writing, which may be of several parts."""
    verdict: Verdict = Verdict.OK
    why: str = ""
    convert_to: str | None = None


@dataclass(frozen=True, slots=True)
class Prefix:
    """A power of ten before a unit."""

    symbol: str
    name: str
    factor: Fraction


@dataclass(frozen=True, slots=True)
class UnitTable:
    """Every writing of a unit, and the names of what units measure."""

    writings: Mapping[str, Writing]
    kinds: Mapping[Dimension, str]
    si_symbols: Mapping[Dimension, str]
    """Coherent units with names of their own: J, Pa, V."""
    common: tuple[str, ...]
    """The units in everyday use, for suggestions."""


@cache
def unit_table() -> UnitTable:
    """The table that comes with the program."""
    text = files("manualgen").joinpath("data/units.yaml").read_text("utf-8")
    return table_of(text)


def table_of(text: str) -> UnitTable:
    """The table in a text of the form of `data/units.yaml`.

    The writings that a row spells out come before the ones that a prefix makes.
    """
    data = yaml.load(text, Loader=yaml.CBaseLoader)
    prefixes = [
        Prefix(row["symbol"], row["name"], Fraction(row["factor"]))
        for row in data["prefixes"]
    ]
    units = [*data["units"], *data["discouraged"]]
    plain = {row["symbol"]: Writing(_named(row), *_judged(row)) for row in units}
    for row in data["writings"]:
        for written in row["written"]:
            plain.setdefault(written, Writing(row["means"], *_judged(row)))
    made: dict[str, Writing] = {}
    for row in units:
        made |= dict(_prefixed_units(row, prefixes))
    for row in data["writings"]:
        made |= dict(_prefixed_writings(row, prefixes))
    kinds = {_dimension(row): row["kind"] for row in reversed(data["kinds"])}
    si_symbols = {_dimension(row): row["si"] for row in data["kinds"] if "si" in row}
    common = tuple(symbol for row in data["common"] for symbol in row)
    return UnitTable(made | plain, kinds, si_symbols, common)


def _named(row: Row) -> NamedUnit:
    return NamedUnit(
        symbol=str(row["symbol"]),
        factor=Fraction(str(row["factor"])),
        dimension=_dimension(row),
        offset=Fraction(str(row.get("offset", 0))),
        kind=str(row.get("kind", "")),
        is_word=row.get("word") == "yes",
    )


def _dimension(row: Row) -> Dimension:
    powers = row.get("dimension")
    if not isinstance(powers, Mapping):
        return ONE
    return Dimension(**{str(base): int(power) for base, power in powers.items()})


def _judged(row: Row) -> tuple[Verdict, str, str | None]:
    verdict = Verdict[str(row.get("verdict", "ok")).upper()]
    convert_to = row.get("convert_to")
    return verdict, str(row.get("why", "")), str(convert_to) if convert_to else None


def _taken(row: Row, prefixes: Sequence[Prefix]) -> Iterator[Prefix]:
    """The prefixes that a row allows."""
    allowed = row.get("prefixes", ())
    for prefix in prefixes:
        if allowed in ("all", "names") or prefix.symbol in str(allowed):
            yield prefix


def _spellings(prefix: Prefix) -> tuple[tuple[str, Verdict, str], ...]:
    """A prefix and, for micro, what other keyboards make of it."""
    if prefix.symbol != "µ":
        return ((prefix.symbol, Verdict.OK, ""),)
    why = "u stands for µ only where there is no µ"
    return ("µ", Verdict.OK, ""), ("μ", Verdict.OK, ""), ("u", Verdict.TOLERATED, why)


def _prefixed_units(
    row: Row, prefixes: Sequence[Prefix]
) -> Iterator[tuple[str, Writing]]:
    unit = _named(row)
    for prefix in _taken(row, prefixes):
        larger = NamedUnit(
            prefix.symbol + unit.symbol,
            prefix.factor * unit.factor,
            unit.dimension,
            kind=unit.kind,
        )
        for spelling, verdict, why in _spellings(prefix):
            yield spelling + unit.symbol, Writing(larger, verdict, why)


def _prefixed_writings(
    row: Row, prefixes: Sequence[Prefix]
) -> Iterator[tuple[str, Writing]]:
    verdict, why, convert_to = _judged(row)
    means, written = str(row["means"]), row["written"]
    for prefix in _taken(row, prefixes):
        spellings = _spellings(prefix)
        if row["prefixes"] == "names":
            spellings = ((prefix.name, verdict, why),)
        for spelling, also, reason in spellings:
            for word in written if isinstance(written, list) else ():
                worse = max(verdict, also)
                meaning = Writing(
                    prefix.symbol + means, worse, why or reason, convert_to
                )
                yield spelling + word, meaning
