"""Numbers and units as they are said: *half molar*, *two point five grams*.

Only masses, volumes, strengths and temperatures are put into figures; *five
minutes* is good English as it stands.
"""

from __future__ import annotations

import re
from decimal import Decimal
from functools import cache

from manualgen.adopting.vocabulary import alternatives, table

_HALF = Decimal("0.5")
_HUNDRED = "hundred"


@cache
def _row(name: str) -> dict[str, str]:
    row = table().row("spoken").row(name)
    return {word: row.text(word) for word in row.cells}


@cache
def spoken_pattern() -> str:
    """A pattern for a number in words behind which a unit may stand."""
    digit = rf"(?:{alternatives(_row('numbers'))})"
    tens = rf"(?:{alternatives(_row('tens'))})"
    small = rf"(?:{tens}(?:[\s-]{digit})?|{digit})"
    whole = rf"(?:(?:an?|{digit})\s+hundred(?:\s+(?:and\s+)?{small})?|{small})"
    behind = rf"(?:\s+point(?:\s+{digit})+|\s+and\s+a\s+half)?"
    return (
        rf"(?<![\w-])(?:{whole}{behind}|point(?:\s+{digit})+|(?:a\s+)?half(?:\s+an?)?)"
    )


@cache
def spoken_units() -> dict[str, str]:
    """Units as they are said, and their symbols."""
    return _row("units")


@cache
def _said() -> re.Pattern[str]:
    return re.compile(rf"({spoken_pattern()})\s+(.+)", re.IGNORECASE)


def in_figures(text: str) -> str:
    """A quantity with its number in figures and its unit as a symbol.

    >>> in_figures("half molar"), in_figures("two point five grams")
    ('0.5 molar', '2.5 grams')
    """
    found = _said().fullmatch(text)
    number, unit = (str(_value(found[1])), found[2]) if found else _parted(text)
    symbol = spoken_units().get(" ".join(unit.casefold().split()), unit)
    return f"{number} {symbol}" if found or symbol != unit else text


def _parted(text: str) -> tuple[str, str]:
    number, _, unit = text.partition(" ")
    return number, unit


def _value(said: str) -> Decimal:
    words = said.casefold().replace("-", " ").split()
    if words[-3:] == ["and", "a", "half"]:
        return _whole(words[:-3]) + _HALF
    if "half" in words:
        return _HALF
    if "point" in words:
        at = words.index("point")
        digits = "".join(_row("numbers")[word] for word in words[at + 1 :])
        return Decimal(f"{_whole(words[:at])}.{digits}")
    return Decimal(_whole(words))


def _whole(words: list[str]) -> int:
    if _HUNDRED in words:
        at = words.index(_HUNDRED)
        hundreds = 1 if words[0] in ("a", "an") else _whole(words[:at])
        return 100 * hundreds + _whole(words[at + 1 :])
    figures = {**_row("numbers"), **_row("tens")}
    return sum(int(figures[word]) for word in words if word in figures)
