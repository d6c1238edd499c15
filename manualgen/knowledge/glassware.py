"""Volumetric glassware: how far a volume may be from the one that is marked.

The tolerance is the largest error that the piece's standard allows. Where a
list names no class, class B is meant, the wider one: it is what schools buy,
and an uncertainty should not be stated too small.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from manualgen.knowledge.tables import Row, read_table
from manualgen.quantities import Quantity, parse_unit


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a piece of glassware; volumes in cm³."""

    capacity: Decimal
    division: Decimal | None
    """Between two graduations; None for a piece with one mark."""
    tolerances: Mapping[str, Decimal]
    """By class, A or B: plus or minus so much."""


@dataclass(frozen=True, slots=True)
class Glassware:
    """A kind of volumetric glassware in all its sizes."""

    name: str
    is_fixed: bool
    """Whether it has one mark and measures its capacity alone."""
    sizes: tuple[Size, ...]
    source: str


USUAL_CLASS = "B"


def glassware(name: str) -> Glassware | None:
    """The kind of glassware of that name, or None for any other piece."""
    return _glassware().get(name.casefold())


def all_glassware() -> tuple[Glassware, ...]:
    """Every kind of glassware once, by its own name."""
    by_name = {piece.name: piece for piece in _glassware().values()}
    return tuple(by_name.values())


def tolerance(
    name: str, capacity: Quantity, glass_class: str | None = None
) -> Quantity | None:
    """The half-width to put behind a volume measured with a piece, in cm³.

    None where the standard has no such piece or size. Of two scales that a size
    may have the coarser is meant, which is the safer to assume.
    """
    size = _size(name, capacity)
    if size is None:
        return None
    return Quantity(size.tolerances[glass_class or USUAL_CLASS], parse_unit("cm3"))


def _size(name: str, capacity: Quantity) -> Size | None:
    piece, cm3 = glassware(name), parse_unit("cm3")
    if piece is None or capacity.dimension != cm3.dimension:
        return None
    wanted = capacity.si_value / cm3.factor
    fitting = [size for size in piece.sizes if size.capacity == wanted]
    return max(fitting, key=lambda size: size.tolerances[USUAL_CLASS], default=None)


@cache
def _glassware() -> Mapping[str, Glassware]:
    table = read_table("glassware")
    found: dict[str, Glassware] = {}
    for row in table.rows("glassware"):
        piece = Glassware(
            row.text("piece"),
            row.text("fixed") == "yes",
            tuple(_sizes(row)),
            table.row("sources").text(row.text("source")),
        )
        for name in (piece.name, *row.texts("also")):
            found[name.casefold()] = piece
    return found


def _sizes(row: Row) -> Iterator[Size]:
    for size in row.rows("sizes"):
        tolerances = {"A": Decimal(size.text("A")), "B": Decimal(size.text("B"))}
        yield Size(Decimal(size.text("capacity")), size.number("division"), tolerances)
