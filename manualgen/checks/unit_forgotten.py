"""``c_b = 0.100``: a value without its unit, which every line below it has to bear.

Each of those lines comes to another kind of quantity than it states. Where a
unit of the kind that its symbol stands for sets the first of them right, it is that
number which is wrong, and the lines that use it are let be.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from manualgen.model.fences import Computed, Given
from manualgen.model.finding import Fault
from manualgen.quantities.dimension import Dimension
from manualgen.quantities.expression import symbols
from manualgen.quantities.mend import typed
from manualgen.quantities.unit_table import unit_table
from manualgen.working.calculations import WorkedLine
from manualgen.working.worked import WorkedExperiment

_USUAL_UNITS: Final = {
    "amount concentration": ("c", "mol/dm3"),
    "mass concentration": ("cgrb", "g/dm3"),
    "volume": ("Vv", "cm3"),
    "mass": ("mw", "g"),
    "time": ("t", "s"),
    "temperature": ("T", "K"),
    "amount of substance": ("n", "mol"),
    "molar mass": ("M", "g/mol"),
    "electric current": ("I", "A"),
    "specific heat capacity": ("c", "J/g/K"),
}
"""The letters that stand for a kind, and in which unit a value of it is given in school;
common practice, no source.
"""


@dataclass(frozen=True, slots=True)
class Forgotten:
    """A value without its unit."""

    fault: Fault
    lines: frozenset[int]
    """The source lines of a calculation that only bear it."""


def forgotten_units(work: WorkedExperiment) -> tuple[Forgotten, ...]:
    """Each value that lacks a unit, where its lack shows in the lines below.

    The one whose lack shows first answers for all lines that bear it.
    """
    lines = [line for c in work.numbers.calculations for line in c.lines]
    bare = [(line, _bearing(line, lines[n + 1 :])) for n, line in enumerate(lines)]
    found: list[Forgotten] = []
    explained: set[int] = set()
    for line, wrong in sorted((b for b in bare if b[1]), key=lambda b: _at(b[1][0])):
        left = [w for w in wrong if _at(w) not in explained]
        if left and (forgotten := _forgotten(line, left)):
            found.append(forgotten)
            explained |= forgotten.lines
    return tuple(found)


def _at(worked: WorkedLine) -> int:
    return worked.line.place.line


def _is_bare(worked: WorkedLine) -> bool:
    line = worked.line
    if not isinstance(line, Given) or line.quantity.unit.text != "1":
        return False
    exponent = line.quantity.value.as_tuple().exponent
    return isinstance(exponent, int) and exponent < 0


def _bearing(bare: WorkedLine, below: list[WorkedLine]) -> list[WorkedLine]:
    """The lines that use a bare value and come to another kind than they state."""
    if not _is_bare(bare):
        return []
    names, wrong = {bare.line.symbol}, []
    for worked in below:
        line = worked.line
        if isinstance(line, Computed) and names & {
            s.name for s in symbols(line.expression)
        }:
            names.add(line.symbol)
            if any(n.check == "calculation-dimension" for n in worked.noted):
                wrong.append(worked)
    return wrong


def _forgotten(bare: WorkedLine, wrong: list[WorkedLine]) -> Forgotten | None:
    unit = _unit_that_mends(bare.line.symbol, wrong[0])
    if unit is None or not isinstance(bare.line, Given):
        return None
    first = wrong[0].line.symbol
    number = typed(bare.line.quantity)
    message = f"{bare.line.symbol} has no unit, so that {first} comes to another kind"
    fault = Fault(bare.line.value_place, message, f"{number} {unit}, or its own unit")
    return Forgotten(fault, frozenset(_at(w) for w in wrong))


def _unit_that_mends(symbol: str, worked: WorkedLine) -> str | None:
    """The unit that a factor, or a divisor, of that symbol lacks for a line to be right."""
    line, value = worked.line, worked.value
    if not isinstance(line, Computed) or line.unit is None or value is None:
        return None
    lacking = line.unit.dimension / value.dimension
    return _usual(symbol, lacking) or _usual(symbol, Dimension() / lacking)


def _usual(symbol: str, dimension: Dimension) -> str | None:
    kind = unit_table().kinds.get(dimension)
    letters, unit = _USUAL_UNITS.get(kind or "", ("", None))
    return unit if symbol[0] in letters else None
