"""The rules by which solutions are made, kept and handled: ``preparing.yaml``, read once.

Volumes are in cm³ and masses in g. Every rule's source stands in the table.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from manualgen.knowledge import Chemical
from manualgen.knowledge.tables import Row, read_table
from manualgen.quantities import Quantity, parse_quantity


@dataclass(frozen=True, slots=True)
class Measures:
    """What there is to weigh and measure with, and how finely each is read."""

    makings: tuple[Fraction, ...]
    """Volumes that one making can have."""
    waste: Fraction
    """The part of a flask that may be left over before two makings are made."""
    most: Fraction
    """More than this of a solution is not made."""
    reads: Fraction
    least: Fraction
    least_exact: Fraction
    finer: Fraction
    cylinders: tuple[tuple[Fraction, Fraction], ...]
    """Capacity and what it is read to, smallest first."""
    pipettes: tuple[Fraction, ...]
    burette: Fraction
    burette_reads: Fraction
    least_stock: Fraction
    take: Fraction
    """What a first dilution takes of the stock."""
    make: Fraction
    """What it is made up to."""
    drop: Fraction
    dropping_least: Fraction
    dropping_at_most: Fraction
    dropping_kin: frozenset[str]
    dropping_kin_at_most: Fraction
    figures: int
    """From so many figures on a strength is meant to be exact."""
    costly: frozenset[str]
    costly_steps: tuple[tuple[Fraction, Fraction], ...]
    bottles: tuple[Fraction, ...]
    dropping_bottles: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True)
class StockRule:
    """What suppliers sell as a liquid."""

    strength: Quantity
    """In % w/w."""
    density: Quantity


@dataclass(frozen=True, slots=True)
class Standard:
    """Why a solution has to be standardised, and against what."""

    against: str
    why: str
    weighed: str = ""
    """The formula of a standard that is a solid."""
    takes: Fraction = Fraction(0)
    """The amount of the solute that 1 mol of such a standard takes, in mol."""


@dataclass(frozen=True, slots=True)
class Recipe:
    """A solution of no stated strength: what goes to 1 dm³."""

    solids: tuple[tuple[str, Fraction], ...]
    """In g."""
    liquids: tuple[tuple[str, Fraction], ...]
    """In cm³."""
    filtered: bool


@dataclass(frozen=True, slots=True)
class Keeping:
    """The bottle, until when it keeps, and why no longer."""

    bottle: str
    use_by: str
    """Counted from when it was made: ``on the day``, ``6 months``."""
    why: str

    @property
    def on_the_day(self) -> bool:
        """Whether it is made for this day alone."""
        return self.use_by.startswith(("on the day", "at once"))


@cache
def measures() -> Measures:
    """The measures of a preparation room."""
    table = _table()
    sizes, dropping = table.row("sizes"), table.row("dropping")
    weighing, dilution = table.row("weighing"), table.row("dilution")
    costly, bottles = table.row("costly"), table.row("bottles")
    return Measures(
        _fractions(sizes, "makings"),
        Fraction(sizes.text("waste")),
        _fraction(sizes, "most"),
        _fraction(weighing, "reads"),
        _fraction(weighing, "least"),
        _fraction(weighing, "least_exact"),
        _fraction(weighing, "finer"),
        _pairs(table, "cylinders"),
        _fractions(table, "pipettes"),
        _fraction(table.row("burette"), "capacity"),
        _fraction(table.row("burette"), "reads"),
        _fraction(dilution, "least"),
        _fraction(dilution, "take"),
        _fraction(dilution, "make"),
        _fraction(dropping, "drop"),
        _fraction(dropping, "least"),
        _fraction(dropping, "at_most"),
        frozenset(dropping.texts("kin")),
        _fraction(dropping, "kin_at_most"),
        int(table.text("figures")),
        frozenset(costly.texts("elements")),
        _pairs(costly, "steps"),
        _fractions(bottles, "capacities"),
        _fractions(bottles, "dropping"),
    )


def stock_rule(chemical: Chemical) -> StockRule | None:
    """What suppliers sell of a chemical as a liquid, if they do."""
    row = _row_of("stocks", chemical)
    if row is None:
        return None
    return StockRule(
        parse_quantity(f"{row.text('percent')} % w/w"),
        parse_quantity(f"{row.text('density')} g/cm3"),
    )


def called_when(chemical: Chemical, percent: Fraction) -> str:
    """What a stock of so many % w/w is called: by its bare name, or as concentrated."""
    row, strong = _row_of("stocks", chemical), _row_of("strong", chemical)
    if row is None or strong is None:
        return chemical.name
    least = _fraction(row if "from" in row else strong, "from")
    return row.text("called") if percent >= least else chemical.name


def standard_for(chemical: Chemical) -> Standard | None:
    """Against what a solution is standardised; None for a primary standard."""
    row = _row_of("no_primary", chemical)
    if row is None:
        return None
    takes = row.row("takes")
    found = next((_fraction(takes, n) for n in _names(chemical) if n in takes), None)
    against, why = row.text("against"), row.text("why")
    return Standard(against, why, row.text("weighed"), found or Fraction(0))


def loses_strength(chemical: Chemical) -> bool:
    """Whether even a bought solution of known strength has to be checked."""
    return bool(_names(chemical) & set(_table().texts("fast_losing")))


def is_bought(chemical: Chemical) -> bool:
    """Whether its solutions are bought, or made by local rules alone."""
    return bool(_names(chemical) & set(_table().texts("bought")))


def helper_for(chemical: Chemical) -> tuple[str, Fraction] | None:
    """What a solid needs beside it to dissolve, and how many times its own mass."""
    row = _row_of("helpers", chemical)
    return None if row is None else (row.text("add"), _fraction(row, "times"))


def strong_cautions(chemical: Chemical, percent: Fraction) -> tuple[str, ...]:
    """How a stock is handled that counts as concentrated; nothing if it does not."""
    row = _row_of("strong", chemical)
    if row is None or percent < _fraction(row, "from"):
        return ()
    return row.texts("cautions")


def heats_up(chemical: Chemical) -> bool:
    """Whether a concentrated stock grows hot when it is mixed with water."""
    row = _row_of("strong", chemical)
    return row is not None and row.text("hot") == "true"


def heats_water(chemical: Chemical) -> bool:
    """Whether a solid heats the water that it dissolves in."""
    return bool(_names(chemical) & set(_table().texts("hot")))


def dissolving_words(chemical: Chemical) -> str:
    """How a solid is dissolved, where simply stirring will not do."""
    row = _table().row("dissolving")
    found = (row.text(name) for name in sorted(_names(chemical)) if name in row)
    return next(found, "")


def dissolves_otherwise(chemical: Chemical) -> bool:
    """Whether those words take the place of dissolving in part of the water."""
    return bool(_names(chemical) & set(_table().texts("otherwise")))


def is_costly(chemical: Chemical) -> bool:
    """Whether no more of its solution is made than is needed."""
    atoms = chemical.formula.atoms if chemical.formula else {}
    return bool(measures().costly & set(atoms))


def most_dissolved(chemical: Chemical) -> Fraction | None:
    """What dissolves at 20 °C at most, in g to 100 g of water; None if not known."""
    known = _table().row("dissolves")
    found = (_fraction(known, n) for n in sorted(_names(chemical)) if n in known)
    return next(found, None)


def recipe_for(chemical: Chemical, strength: str | None) -> Recipe | None:
    """The recipe of a solution without a strength in numbers."""
    for row in _table().rows("recipes"):
        if row.text("of") == chemical.name and row.text("strength") == (strength or ""):
            return Recipe(
                _parts(row.row("solids")),
                _parts(row.row("liquids")),
                row.text("filtered") == "true",
            )
    return None


def keeping_of(chemical: Chemical | None) -> Keeping:
    """How a solution of a chemical keeps; the table's last row holds for any."""
    row = next(r for r in _table().rows("keeping") if _fits(r, chemical))
    return Keeping(row.text("bottle"), row.text("on"), row.text("why"))


def handling_cautions(statements: tuple[str, ...]) -> tuple[str, ...]:
    """What to mind while weighing or pouring what has these hazard statements."""
    found = set(statements)
    return tuple(
        row.text("say")
        for row in _table().rows("cautions")
        if found & set(row.texts("statements")) and not found & set(row.texts("unless"))
    )


def _fits(row: Row, chemical: Chemical | None) -> bool:
    conditions = [key for key in ("of", "kin", "element") if key in row]
    if chemical is None:
        return not conditions
    atoms = chemical.formula.atoms if chemical.formula else {}
    return not conditions or bool(
        _names(chemical) & set(row.texts("of"))
        or row.text("kin") in chemical.kin
        or row.text("element") in atoms
    )


def _row_of(table: str, chemical: Chemical) -> Row | None:
    rows, names = _table().rows(table), _names(chemical)
    return next((row for row in rows if names & set(row.texts("of"))), None)


def _names(chemical: Chemical) -> set[str]:
    return {chemical.name, chemical.substance}


def _fraction(row: Row, key: str) -> Fraction:
    return Fraction(row.text(key))


def _fractions(row: Row, key: str) -> tuple[Fraction, ...]:
    return tuple(Fraction(text) for text in row.texts(key))


def _pairs(row: Row, key: str) -> tuple[tuple[Fraction, Fraction], ...]:
    inner = row.row(key)
    return tuple((Fraction(size), _fraction(inner, size)) for size in inner.cells)


def _parts(row: Row) -> tuple[tuple[str, Fraction], ...]:
    return tuple((name, _fraction(row, name)) for name in row.cells)


@cache
def _table() -> Row:
    return read_table("preparing")
