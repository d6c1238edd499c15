"""How the made-up experiment is written down, and what stands in its gaps."""

from __future__ import annotations

from typing import Literal

from manualgen.chemistry import parse_equation, parse_formula
from manualgen.editions.key import Filled, FilledLine
from manualgen.editions.line import Gap, GapWidth, Line
from manualgen.editions.sheet import Text
from manualgen.model.place import Place
from manualgen.model.text import EquationSpan, FormulaSpan, QuantitySpan, Words
from manualgen.quantities import parse_quantity

HERE = Place("sample.md")


def words(text: str) -> Words:
    return Words(text, HERE)


def chem(text: str, state: Literal["s", "l", "g", "aq"] | None = None) -> FormulaSpan:
    return FormulaSpan(parse_formula(text), state, text, HERE)


def eq(text: str) -> EquationSpan:
    return EquationSpan(parse_equation(text), text, HERE)


def qty(text: str) -> QuantitySpan:
    return QuantitySpan(parse_quantity(text), text, HERE)


def text(*pieces: str | object) -> Text:
    return Text(line(*pieces))


def line(*pieces: object) -> Line:
    return tuple(words(p) if isinstance(p, str) else p for p in pieces)  # type: ignore[misc]


FILLED: dict[int, Filled] = {}


def gap(width: GapWidth, *filling: object) -> Gap:
    key = len(FILLED) + 1
    FILLED[key] = FilledLine(line(*filling))
    return Gap(key, width)


def key(filling: Filled) -> int:
    FILLED[len(FILLED) + 1] = filling
    return len(FILLED)
