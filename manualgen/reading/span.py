"""What stands in backticks: a formula, an equation, a quantity or a computed value.

Each reading is remembered by its text, for a manual writes ``NaOH`` a hundred
times; the place is added to what is remembered.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from manualgen.chemistry import (
    ChemistryError,
    Equation,
    FormulaError,
    Term,
    is_equation_like,
    parse_equation,
    parse_formula,
    parse_term,
)
from manualgen.model.finding import Edit
from manualgen.model.text import (
    EquationSpan,
    FormulaSpan,
    Inline,
    QuantitySpan,
    UnreadSpan,
    ValueSpan,
)
from manualgen.quantities import Quantity, QuantityError, parse_quantity
from manualgen.reading.charge_writing import is_charge_writing
from manualgen.reading.faults import Faults
from manualgen.reading.stretch import Stretch
from manualgen.reading.symbols import VALUE_NAME

LONGEST = 500
"""Characters of a code span that are read."""

_VALUE_SHORT = re.compile(r"value\s+(?!of\b)([A-Za-z]\w*)")
_VALUE = re.compile(r"value\s+of\s+(\S.*)")
_NUMBER_FIRST = re.compile(r"[(\s]*[-−–+±]?\s*[.,]?\d")
_UNIT_FIRST = re.compile(r"\s*[a-zµ°%]")
"""No formula of a substance begins with a small letter."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a text is none of the things that it could be."""

    check: str
    message: str
    start: int
    end: int
    mend: str | None = None
    """What to write instead of ``start`` to ``end``."""


@dataclass(frozen=True, slots=True)
class _Value:
    symbol: str


_Meaning: TypeAlias = Term | Equation | Quantity | _Value | Refusal


def read_span(content: Stretch, faults: Faults) -> Inline:
    """The meaning of a code span; a span without one is noted, and kept as typed."""
    source, place = content.text.replace("\n", " "), content.place()
    match _meaning(source):
        case Term(formula=formula, state=state):
            return FormulaSpan(formula, state, source, place)
        case Equation() as equation:
            return EquationSpan(equation, source, place)
        case Quantity() as quantity:
            return QuantitySpan(quantity, source, place)
        case _Value(symbol):
            return ValueSpan(symbol, place)
        case Refusal() as refusal:
            note_refusal(refusal, content, faults)
            return UnreadSpan(source, place)


def note_bad_formula(text: Stretch, faults: Faults) -> None:
    """Note a formula, written without backticks, that is none."""
    if isinstance(refusal := _species(text.text), Refusal):
        note_refusal(refusal, text, faults)


def note_refusal(refusal: Refusal, content: Stretch, faults: Faults) -> None:
    """Write down a refusal of a part of ``content``."""
    place = content.place(refusal.start, max(refusal.end, refusal.start + 1))
    mend = refusal.mend
    bounds = content.text, refusal.start, refusal.end
    edit = None
    if mend and is_charge_writing(*bounds, mend):
        edit = Edit(place, mend, content.text[refusal.start : refusal.end])
    faults.note(refusal.check, place, refusal.message, mend, edit)


@lru_cache(maxsize=8192)
def _meaning(text: str) -> _Meaning:
    if len(text) > LONGEST:
        message = f"more than {LONGEST} characters in backticks are not read"
        return Refusal("formula-invalid", message, 0, len(text))
    if found := _VALUE.fullmatch(text.strip()):
        return _value(text, found[1])
    if found := _VALUE_SHORT.fullmatch(text.strip()):
        message = "a computed value is asked for as value of its symbol"
        return Refusal("source-syntax", message, 0, len(text), f"value of {found[1]}")
    if is_equation_like(text):
        return _equation(text)
    if _NUMBER_FIRST.match(text):
        return _quantity(text)
    return _species(text)


def _value(text: str, symbol: str) -> _Value | Refusal:
    if VALUE_NAME.fullmatch(symbol):
        return _Value(symbol)
    start = text.index(symbol)
    message = f"{symbol!r} is no symbol: letters, digits and _"
    return Refusal("source-syntax", message, start, start + len(symbol))


def _equation(text: str) -> Equation | Refusal:
    try:
        return parse_equation(text)
    except ChemistryError as error:
        return chemistry_refusal(error, text)


def _species(text: str) -> Term | Refusal:
    try:
        return parse_term(text)
    except ChemistryError as error:
        return _bare_unit(text) or chemistry_refusal(error, text)


def _bare_unit(text: str) -> Refusal | None:
    """The complaint about ``mol dm-3``, a unit whose number stands elsewhere."""
    if not _UNIT_FIRST.match(text):
        return None
    try:
        parse_quantity(f"1 {text}")
    except QuantityError:
        return None
    message = (
        f"{text} is a unit without its number: take the number into the backticks, "
        "or leave them out"
    )
    return Refusal("formula-invalid", message, 0, len(text))


def _quantity(text: str) -> Quantity | Refusal:
    try:
        return parse_quantity(text)
    except QuantityError as error:
        return _counted_formula(text) or quantity_refusal(error, "formula-invalid")


def _counted_formula(text: str) -> Refusal | None:
    """The complaint about ``2 NaOH``, which is neither a quantity nor an equation."""
    try:
        term = parse_term(text)
        parse_formula(str(term.formula))
    except ChemistryError:
        return None
    message = "a formula in the line has no coefficient; put the number before the span"
    return Refusal("formula-invalid", message, 0, len(text), term.species)


def chemistry_refusal(
    error: ChemistryError, text: str, check: str = "formula-invalid"
) -> Refusal:
    """A fault of chemistry; its mend is for the whole text.

    ``check`` is named where an equation could not be taken apart at all.
    """
    named = "formula-invalid" if isinstance(error, FormulaError) else check
    start, end = error.start, error.end
    mend = error.suggestion
    if mend is not None:
        start, end, mend = _differing(text, mend, start, end)
    return Refusal(named, error.message, start, end, mend)


def _differing(text: str, mended: str, start: int, end: int) -> tuple[int, int, str]:
    """The offending bounds, and what of a mended whole text stands between them."""
    before, after = text[:start], text[end:]
    fits = mended.startswith(before) and mended.endswith(after)
    if fits and len(mended) >= len(before) + len(after):
        return start, end, mended[start : len(mended) - len(after)]
    return 0, len(text), mended


def quantity_refusal(error: QuantityError, check: str = "source-syntax") -> Refusal:
    """A fault of a quantity, under the check that its kind belongs to.

    ``check`` is named for a text that is no quantity at all.
    """
    named = _CHECK_OF_KIND.get(error.kind, check)
    return Refusal(named, error.message, error.start, error.end, error.suggestion)


_CHECK_OF_KIND = {"unknown-unit": "unit-unknown", "dimension": "unit-dimension"}
