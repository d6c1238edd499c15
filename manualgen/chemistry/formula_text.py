"""Formulas from text, in every writing that can be read in one way only.

ASCII and Unicode mix freely: ``SO4^2-``, ``SO₄²⁻``, ``Na+``, ``NH4+``,
``Na2CO3.10H2O``, ``MgSO4·xH2O``, ``(C2H4)n``. What the trade does not write is
refused with the place and, where it can be guessed, the mend.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Final, Literal

from manualgen.chemistry.charge_text import read_charge
from manualgen.chemistry.elements import elements
from manualgen.chemistry.errors import FormulaError
from manualgen.chemistry.formula import Adduct, Atom, Bond, Formula, Group

if TYPE_CHECKING:
    from manualgen.chemistry.formula import Part

LONGEST: Final = 300
"""Characters of a formula; no substance of a school's needs as many."""

DEEPEST: Final = 6
"""Brackets within brackets."""

LARGEST: Final = 99_999
"""The largest subscript and the largest number of water molecules."""

_SYMBOL = re.compile(r"[A-Z][a-z]*")
_SUBSCRIPT = re.compile(r"[0-9₀-₉]+")
_UNKNOWN = re.compile(r"[nₙ](?![a-z])")
_DOT = re.compile(r"\s*[·.•∙⋅]\s*")
_MULTIPLE = re.compile(
    r"(?:(?P<n>\d+(?:\.\d+|/\d+)?)|(?P<half>½)|(?P<x>[xyn])(?=[A-Z(\[]))?\s*"
)
_BOND = re.compile(r"[-–=≡](?=[A-Z(\[])")
_ELECTRON = re.compile(r"e(?:\^?[-−–]|⁻)")
_BRACKETS: Final[dict[str, tuple[Literal["(", "["], str]]] = {
    "(": ("(", ")"),
    "[": ("[", "]"),
}
_TO_ASCII = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")
_ACID = re.compile(r"HA|A(?:\^?[-−–]|⁻)")
"""Any weak acid and its ion, as pH and buffers are explained."""


@lru_cache(maxsize=4096)
def parse_formula(text: str) -> Formula:
    """The formula that ``text`` writes; remembered, since a manual repeats itself.

    Raises `FormulaError` where it is none, or can be read in two ways.

    >>> str(parse_formula("Na₂CO₃.10H₂O"))
    'Na2CO3·10H2O'
    """
    if len(text) > LONGEST:
        raise FormulaError(f"a formula of more than {LONGEST} characters", 0, len(text))
    bare = text.strip()
    if not bare:
        raise FormulaError("no formula here", 0, len(text))
    try:
        return _parse(bare)
    except FormulaError as error:
        start = text.index(bare)
        raise error.within(text, start, start + len(bare)) from None


def _parse(text: str) -> Formula:
    if _ELECTRON.fullmatch(text):
        return Formula((), -1)
    charge = read_charge(text)
    reader = _Reader(text, charge.start, allow="RA" if _ACID.fullmatch(text) else "R")
    formula = Formula(reader.parts(), charge.charge, reader.adducts())
    reader.expect_end()
    _refuse_nought_for_oxygen(text, formula)
    return formula


class _Reader:
    """A place in a text and what can be read from there on."""

    __slots__ = ("allow", "at", "end", "text")

    def __init__(self, text: str, end: int, allow: str) -> None:
        self.text = text
        self.end = end
        self.allow = allow
        self.at = 0

    def adducts(self) -> tuple[Adduct, ...]:
        """What follows centred dots, each with its number."""
        found: list[Adduct] = []
        while self._take(_DOT):
            start = self.at
            multiple = self._take(_MULTIPLE)
            number = self._multiple(multiple, start) if multiple else 1
            found.append(Adduct(number, self.parts()))
        return tuple(found)

    def parts(self, depth: int = 0) -> tuple[Part, ...]:
        """Atoms, groups and bonds as far as they go; at least one."""
        found: list[Part] = []
        while (part := self._part(depth)) is not None:
            found.append(part)
        if not found:
            self._refuse_here()
        return tuple(found)

    def expect_end(self) -> None:
        """Raise unless everything before the charge has been read."""
        if self.at < self.end:
            self._refuse_here()

    def _part(self, depth: int) -> Part | None:
        if bond := self._take(_BOND):
            sign = bond[0]
            return Bond("=" if sign == "=" else "≡" if sign == "≡" else "-")
        if symbol := self._take(_SYMBOL):
            self._expect_element(symbol)
            return Atom(symbol[0], self._subscript())
        if self.at < self.end and self.text[self.at] in _BRACKETS:
            return self._group(depth)
        return None

    def _group(self, depth: int) -> Group:
        start = self.at
        opening, closing = _BRACKETS[self.text[start]]
        if depth == DEEPEST:
            raise self._error("brackets nested too deeply", start, start + 1)
        self.at += 1
        parts = self.parts(depth + 1)
        if self.at >= self.end:
            raise self._error(f"the bracket {opening} is not closed", start, start + 1)
        if self.text[self.at] != closing:
            if self.text[self.at] not in ")]" and closing not in self.text[self.at :]:
                message = f"the bracket {opening} is not closed"
                raise self._error(message, start, start + 1)
            self._refuse_here()
        self.at += 1
        if depth == 0 and self._take(_UNKNOWN):
            return Group(opening, parts, "n")
        return Group(opening, parts, self._subscript())

    def _subscript(self) -> int:
        written = self._take(_SUBSCRIPT)
        return self._whole(written[0], written.start()) if written else 1

    def _multiple(self, written: re.Match[str], start: int) -> int | Fraction | str:
        if written["x"]:
            return written["x"]
        if written["half"]:
            return Fraction(1, 2)
        if not written["n"]:
            return 1
        if written["n"].isdigit():
            return self._whole(written["n"], start)
        number = _fraction(written["n"])
        if number is None or number.denominator not in (1, 2, 3, 4):
            raise self._error(
                f"{written['n']} is no number of molecules", start, self.at
            )
        return int(number) if number.denominator == 1 else number

    def _whole(self, digits: str, start: int) -> int:
        ascii_digits = digits.translate(_TO_ASCII)
        if ascii_digits.startswith("0"):
            mend = f"{self.text[:start]}O{self.text[start + 1 :]}"
            message = f"a subscript cannot begin with 0 (nought); is the letter O meant? {mend}"
            raise self._error(message, start, start + 1, mend)
        if len(ascii_digits) > len(str(LARGEST)):
            message = f"a number above {LARGEST} in a formula"
            raise self._error(message, start, start + len(digits))
        return int(ascii_digits)

    def _expect_element(self, symbol: re.Match[str]) -> None:
        if symbol[0] in elements() or symbol[0] in self.allow:
            return
        message = f"{symbol[0]} is no element"
        mend = self._in_other_case(symbol)
        if mend is not None:
            message += f"; is {mend} meant?"
        raise self._error(message, symbol.start(), symbol.end(), mend)

    def _in_other_case(self, symbol: re.Match[str]) -> str | None:
        """The formula with a letter that was typed large or small by mistake.

        ``NaOh`` is NaOH, and ``NaCL`` is NaCl.
        """
        start, end = symbol.span()
        before, after = self.text[:start], self.text[end:]
        if len(symbol[0]) == 2 and set(symbol[0].upper()) <= set(elements()):
            return f"{before}{symbol[0].upper()}{after}"
        pair = before[-1:] + symbol[0].lower()
        if pair in elements() and len(symbol[0]) == 1:
            return f"{before[:-1]}{pair}{after}"
        return None

    def _refuse_here(self) -> None:
        if self.at >= self.end:
            raise self._error("the formula breaks off", max(self.at - 1, 0), self.end)
        letter = self.text[self.at]
        if letter in ")]":
            message = f"the bracket {letter} closes none that is open"
        elif letter.isspace():
            message = "a blank inside a formula"
        elif letter.islower():
            message = f"{letter} begins no element; symbols begin with a capital"
        else:
            message = f"{letter} has no place in a formula"
        raise self._error(message, self.at, self.at + 1)

    def _error(
        self, message: str, start: int, end: int, mend: str | None = None
    ) -> FormulaError:
        return FormulaError(f"{self.text}: {message}", start, end, mend)

    def _take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        found = pattern.match(self.text, self.at, self.end)
        if found:
            self.at = found.end()
        return found


def _fraction(text: str) -> Fraction | None:
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        return None


def _refuse_nought_for_oxygen(text: str, formula: Formula) -> None:
    """Refuse ``H20``: twenty atoms of hydrogen are always water mistyped."""
    if formula.parts == (Atom("H", 20),) or any(
        adduct.parts == (Atom("H", 20),) for adduct in formula.adducts
    ):
        mend = text.replace("H20", "H2O").replace("H₂₀", "H₂O")
        raise FormulaError(
            f"{text}: H20 with a nought; write {mend}", 0, len(text), mend
        )
