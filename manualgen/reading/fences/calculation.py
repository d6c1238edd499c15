"""A ``calculation`` fence.

c_b = 0.1000 ± 0.0002 mol/dm3      # a value, printed for everyone
V_a = [_24.85 cm3_]                # what the class measures: a blank
n_b = c_b * V_b -> mol             # an expression and its result's unit
V_b = titres.mean                  # a name for what has a unit already
"""

from __future__ import annotations

import re

from manualgen.model.fences import Calculation, CalculationLine, Computed, Given
from manualgen.model.place import Place
from manualgen.model.text import Inlines
from manualgen.quantities import QuantityError, parse_quantity
from manualgen.quantities.expression import ExpressionError
from manualgen.quantities.parser import parse_expression
from manualgen.reading.faults import Faults
from manualgen.reading.fences.head import Fence
from manualgen.reading.inline import read_inlines
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.symbols import SYMBOL
from manualgen.reading.values import read_expression, read_quantity, read_unit

_BEGINNING = re.compile(rf"\s*({SYMBOL.pattern})\s*=")
_DESCRIPTION = re.compile(r"(?:^|\s)#")
_ARROW = re.compile(r"->|→")
_NUMBER_FIRST = re.compile(r"[-−–+(]?\s*\.?\d")
_COMPUTES = re.compile(r"[*^×·]|\b(?:sqrt|ln|log10|exp|abs|mean|M)\(|\s[-+−/]\s")


def read_calculation(fence: Fence, around: Surroundings) -> Calculation:
    """The lines that could be read; the others are noted."""
    fence.note_words(around.faults)
    lines: list[CalculationLine] = []
    unread: list[str] = []
    for source in fence.lines(around.faults):
        if line := _line(source, around):
            lines.append(line)
        elif begun := _BEGINNING.match(source.text):
            unread.append(begun[1])
    _note_repeated(lines, around.faults)
    return Calculation(fence.name, tuple(lines), fence.place, tuple(unread))


def _line(source: Stretch, around: Surroundings) -> CalculationLine | None:
    working, description = _parted(source, around)
    if not working.text:
        return None
    left, equals, _ = working.text.partition("=")
    symbol = working.cut(0, len(left)).strip()
    if not equals or not SYMBOL.fullmatch(symbol.text):
        message = "a line is: symbol = value with unit, or symbol = expression -> unit"
        around.faults.syntax(symbol.place(), message)
        return None
    right = working.cut(len(left) + 1, len(working.text)).strip()
    return _read(symbol.text, right, description, source.place(), around.faults)


def _parted(source: Stretch, around: Surroundings) -> tuple[Stretch, Inlines]:
    """A line without its description, and the description."""
    found = _DESCRIPTION.search(source.text)
    if not found:
        return source, ()
    words = source.cut(found.end(), len(source.text)).strip()
    run = read_inlines(words, around)
    if run.name:
        around.faults.syntax(run.name.place, "a line of a calculation has no name")
    return source.cut(0, found.start()).strip(), run.content


def _read(
    symbol: str, right: Stretch, description: Inlines, place: Place, faults: Faults
) -> CalculationLine | None:
    if right.text.startswith("[_"):
        return _measured(symbol, right, description, place, faults)
    arrows = list(_ARROW.finditer(right.text))
    if not arrows and _is_value(right.text):
        quantity = read_quantity(right, faults)
        if quantity is None:
            return None
        return Given(symbol, quantity, False, description, place, right.place())
    end = arrows[-1].start() if arrows else len(right.text)
    working = right.cut(0, end).strip()
    expression = read_expression(working, faults)
    unit = target = None
    if arrows:
        target = right.cut(arrows[-1].end(), len(right.text)).strip()
        unit = read_unit(target, faults)
    if expression is None or (target and unit is None):
        return None
    return Computed(
        symbol,
        expression,
        working.text,
        unit,
        description,
        place,
        working.place(),
        target.place() if target else None,
    )


def _measured(
    symbol: str, right: Stretch, description: Inlines, place: Place, faults: Faults
) -> Given | None:
    """What the class measures, in a blank."""
    if not right.text.endswith("_]"):
        message = "this blank is not closed; close it with _]"
        faults.syntax(right.place(0, 2), message)
        return None
    inside = right.cut(2, len(right.text) - 2).strip()
    quantity = read_quantity(inside, faults)
    if quantity is None:
        return None
    return Given(symbol, quantity, True, description, place, inside.place())


def _is_value(text: str) -> bool:
    """Whether a text is meant as a value and not as an expression."""
    if not _NUMBER_FIRST.match(text):
        return False
    try:
        parse_quantity(text)
    except QuantityError:
        return not _COMPUTES.search(text) or not _is_expression(text)
    return True


def _is_expression(text: str) -> bool:
    try:
        parse_expression(text)
    except ExpressionError:
        return False
    return True


def _note_repeated(lines: list[CalculationLine], faults: Faults) -> None:
    """A symbol is defined once; the author's own answer may follow its result."""
    known: dict[str, CalculationLine] = {}
    for line in lines:
        before = known.setdefault(line.symbol, line)
        if before is line:
            continue
        if isinstance(before, Computed) and isinstance(line, Given):
            known[line.symbol] = line
            continue
        message = f"{line.symbol} is defined on line {before.place.line} already"
        faults.syntax(line.place, message, "give it another symbol")
