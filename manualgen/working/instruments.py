"""What an experiment's instruments are good for: limits of readings and volumes.

    a scale's reading      ± what it is read to, which is half a division
    a display's reading    ± half of its last digit
    a volume delivered     ± the tolerance of the glass, once

The first is the custom of school laboratories (common practice, no source), the
second the resolution of a display (GUM F.2.2.1), the third the standard's.
Where the list does not say which piece gave a reading, nothing is known of its
limits.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from manualgen.knowledge.apparatus import find_apparatus
from manualgen.knowledge.glassware import glassware, tolerance
from manualgen.knowledge.scales import Scale, scales_of
from manualgen.model.fences import Column, ColumnKind, Readings
from manualgen.model.lab import ListedApparatus
from manualgen.quantities import Quantity, parse_unit
from manualgen.quantities.expression import Binary, Expression, Operator, Symbol
from manualgen.quantities.figures import rounded_to_figures
from manualgen.quantities.uncertainty import Input
from manualgen.quantities.value import Value, datum

CM3 = parse_unit("cm3")
BURETTE_WORDS = ("burette", "reading", "titre")


@dataclass(frozen=True, slots=True)
class Bench:
    """The listed apparatus and to what a burette is read here."""

    apparatus: tuple[ListedApparatus, ...]
    burette: Quantity

    def named(self, words: str) -> Iterator[ListedApparatus]:
        """The listed pieces that words mean: ``pipette``, ``flask``."""
        wanted, meant, glass = words.casefold(), find_apparatus(words), glassware(words)
        for listed in self.apparatus:
            name = piece_name(listed)
            is_same = (meant and meant.name == name) or (
                glass and glass == glassware(name)
            )
            if is_same or wanted in listed.name.casefold():
                yield listed

    @property
    def the_burette(self) -> ListedApparatus | None:
        """The burette of the list."""
        return next((a for a in self.apparatus if piece_name(a) == "burette"), None)


def piece_name(listed: ListedApparatus) -> str:
    """What a listed piece is, by the vocabulary's name where it has one."""
    piece = find_apparatus(listed.name)
    return piece.name if piece else listed.name.casefold()


def measured_with(
    name: str, quantity: Quantity, bench: Bench
) -> tuple[Value, Quantity] | None:
    """``25.00 cm3 (pipette)``: the value, and it stated with the piece's tolerance.

    None where the list has no such piece, or one without known limits.  A piece
    of which each group has one is the same piece wherever it is used.
    """
    for listed in sorted(
        bench.named(quantity.of or ""), key=lambda a: not _fits(a, quantity)
    ):
        limits = _limits(listed, quantity, bench)
        if limits is not None:
            shared = _is_shared_mark(listed)
            known_as = f"{listed.name} of {listed.capacity}" if shared else name
            within = replace(quantity, half_width=limits, standard=False, of=None)
            return datum(known_as, within), within
    return None


def _is_shared_mark(listed: ListedApparatus) -> bool:
    kind = glassware(piece_name(listed))
    return kind is not None and kind.is_fixed and listed.count == 1


def _fits(listed: ListedApparatus, quantity: Quantity) -> bool:
    capacity = listed.capacity
    return capacity is not None and capacity.si_value == quantity.si_value


def _limits(
    listed: ListedApparatus, quantity: Quantity, bench: Bench
) -> Decimal | None:
    """The half-width for one volume or weighing, in the quantity's unit."""
    kind = glassware(piece_name(listed))
    if kind and kind.is_fixed and not _fits(listed, quantity):
        return None
    glass, read = _tolerance(listed), _reading_of(listed, bench)
    known = [
        limit.to(quantity.unit.difference).value
        for limit in ((glass, read, read) if kind and _is_burette(listed) else (glass,))
        if limit and limit.dimension == quantity.dimension
    ]
    if not known and read and read.dimension == quantity.dimension:
        known = [read.to(quantity.unit.difference).value]
    if len(known) > 1:
        squares = sum((width * width for width in known), Decimal(0))
        return rounded_to_figures(squares.sqrt(), 2)
    return known[0] if known else None


def _is_burette(listed: ListedApparatus) -> bool:
    return piece_name(listed) == "burette"


def _reading_of(listed: ListedApparatus, bench: Bench) -> Quantity | None:
    """The half-width of one reading of a piece."""
    scale = next(scales_of([listed], bench.burette), None)
    return _limits_of(scale) if scale else None


def _limits_of(scale: Scale) -> Quantity:
    """Half of a display's last digit; half a division, which a scale is read to."""
    if not scale.is_display:
        return scale.step
    return replace(scale.step, value=scale.step.value / 2)


def _tolerance(listed: ListedApparatus) -> Quantity | None:
    if listed.capacity is None:
        return None
    return tolerance(piece_name(listed), listed.capacity, listed.glass_class)


def reading_limits(column: Column, block: Readings, bench: Bench) -> Fraction | None:
    """The half-width of a column's readings in its unit, if its piece is known."""
    unit = column.unit
    if unit is None or column.kind is not ColumnKind.SAMPLE:
        return None
    if is_read_off_burette(column, block, bench):
        return Fraction(bench.burette.to(unit).value)
    stated = [listed for listed in bench.apparatus if listed.resolution]
    scales = [
        scale
        for scale in scales_of(stated, bench.burette)
        if scale.step.dimension == unit.dimension
    ]
    heading = column.heading.casefold()
    chosen = [scale for scale in scales if scale.name in heading] or scales
    if len(chosen) != 1:
        return None
    limits = _limits_of(chosen[0])
    return Fraction(limits.value) * limits.unit.factor / unit.factor


def is_read_off_burette(column: Column, block: Readings, bench: Bench) -> bool:
    """Whether readings are a burette's: by their heading or by what is made of them."""
    is_volume = column.unit is not None and column.unit.dimension == CM3.dimension
    if not is_volume or bench.the_burette is None:
        return False
    heading = column.heading.casefold()
    if "gas" in heading or "syringe" in heading:
        return False
    return any(word in heading for word in BURETTE_WORDS) or any(
        column.symbol in _subtracted(other.formula) for other in block.columns
    )


def _subtracted(formula: Expression | None) -> Iterable[str]:
    match formula:
        case Binary(
            operator=Operator.MINUS, left=Symbol(name=left), right=Symbol(name=right)
        ):
            return left, right
        case _:
            return ()


def glass_of_titre(bench: Bench) -> Input | None:
    """The burette's tolerance, which every volume run out of it shares."""
    burette = bench.the_burette
    limits = _tolerance(burette) if burette else None
    if limits is None:
        return None
    width = float(limits.si_value)
    return Input("tolerance of the burette", width / 3**0.5, width)
