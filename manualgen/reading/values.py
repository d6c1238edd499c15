"""Values in the settings and fences: quantities, counts, dates, choices."""

from __future__ import annotations

import datetime
import re
from collections.abc import Collection
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import TypeVar

from manualgen.quantities import (
    Quantity,
    QuantityError,
    Unit,
    parse_quantity,
    parse_unit,
)
from manualgen.quantities.expression import Expression, ExpressionError
from manualgen.quantities.kinds import NORMALITY, PURE, a_kind, kind_of
from manualgen.quantities.parser import parse_expression
from manualgen.reading.faults import Faults
from manualgen.reading.span import Refusal, note_refusal, quantity_refusal
from manualgen.reading.stretch import Stretch

E = TypeVar("E", bound=StrEnum)


def read_quantity(
    text: Stretch, faults: Faults, kinds: Collection[str] = (), what: str = ""
) -> Quantity | None:
    """A quantity of one of ``kinds`` (of any, if none is named).

    ``what`` says what is expected: "a time".
    """
    try:
        quantity = parse_quantity(text.text)
    except QuantityError as error:
        note_refusal(quantity_refusal(error), text, faults)
        return None
    kind = kind_of(quantity.unit)
    if kinds and kind not in kinds:
        message = f"{text.text} is {a_kind(quantity.unit)}, and {what} belongs here"
        if kind == "force" and "strength" in what:
            message += f"; {NORMALITY}"
        mend = _likely(text.text, kind, kinds)
        faults.note("unit-dimension", text.place(), message, mend)
        return None
    return quantity


def _likely(text: str, kind: str, kinds: Collection[str]) -> str | None:
    """What is usually meant by a quantity of the wrong kind."""
    if kind == PURE and "time" in kinds:
        return f"{text} min"
    if kind == "amount of substance" and "amount concentration" in kinds:
        return f"{text}/dm3, if that is its strength"
    return None


def read_unit(text: Stretch, faults: Faults) -> Unit | None:
    """A unit alone."""
    try:
        return parse_unit(text.text)
    except QuantityError as error:
        note_refusal(quantity_refusal(error), text, faults)
        return None


def read_expression(text: Stretch, faults: Faults) -> Expression | None:
    """An expression."""
    try:
        return parse_expression(text.text)
    except ExpressionError as error:
        refusal = Refusal(
            "source-syntax", error.message, error.start, error.end, error.suggestion
        )
        note_refusal(refusal, text, faults)
        return None


def read_count(text: Stretch, faults: Faults, what: str) -> int | None:
    """A whole number from 1 on."""
    if re.fullmatch(r"0*[1-9]\d{0,5}", text.text, re.ASCII):
        return int(text.text)
    faults.syntax(text.place(), f"{text.text!r} is no {what}; write a whole number")
    return None


def read_date(text: Stretch, faults: Faults) -> datetime.date | None:
    """A date as ISO 8601 writes it."""
    try:
        return datetime.date.fromisoformat(text.text)
    except ValueError:
        message = f"{text.text!r} is no date; write year-month-day, as in 2026-06-12"
        faults.syntax(text.place(), message)
        return None


def read_choice(text: Stretch, choices: type[E], faults: Faults, what: str) -> E | None:
    """One of a few words."""
    try:
        return choices(text.text)
    except ValueError:
        faults.unknown(text.place(), what, text.text, [c.value for c in choices])
        return None


def decimal_of(text: str) -> Decimal | None:
    """The number that a text is; a minus may be a hyphen or a true one."""
    try:
        number = Decimal(text.replace("−", "-").strip())
    except InvalidOperation:
        return None
    return number if number.is_finite() and abs(number.adjusted()) < 100 else None
