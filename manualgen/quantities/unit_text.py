"""Reading a unit: `mol/dm3`, `mol dm^-3`, `J/(g K)`, `cm³`, `% w/v`.

    unit    = product { "/" product-or-bracket }
    product = power { ("·" | "*" | blank) power }
    power   = word [ "^" ] [ whole number ] | "(" unit ")" [ power ]

A word is looked up whole in the table; see `unit_table`. After a solidus one
power stands below it. A second one without brackets, as in `J/g K`, is read as
standing below too, since nobody means it otherwise, and noted as a slip; one
that has a negative power of its own, as in `J/g K-1`, needs no solidus.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from fractions import Fraction
from functools import cache, lru_cache

from manualgen.quantities.dimension import Power
from manualgen.quantities.errors import QuantityError
from manualgen.quantities.unit_table import Writing, unit_table
from manualgen.quantities.units import PURE_NUMBER, Part, Slip, Unit, Verdict, unit_of

LONGEST = 80
DEEPEST = 3
HIGHEST_POWER = 12
SHORTEST_NAME = 2
"""Words no longer than this are like too many units in all but the capitals."""
SMALLEST = Fraction(1, 10**99)
"""Bounds the size of a unit, so that every value fits a number of the machine."""

_LETTER = r"[^\W\d_⁰¹²³⁴-⁹]"
_WORD = re.compile(rf"%|‰|[°º˚]?{_LETTER}+|[°º˚℃℉]")
_POWER = re.compile(
    r"(?:\^|\*\*)\s*\(\s*(?P<over>[-−+]?\d{1,3})\s*/\s*(?P<under>\d{1,2})\s*\)"
    r"|(?:\^|\*\*|\s(?=[-−–]))?(?P<bracket>[({])?(?P<plain>[-−–+]?\d{1,3})(?(bracket)[)}])"
    r"|(?P<raised>[⁺⁻]?[⁰¹²³⁴-⁹]{1,3})"
)
_BETWEEN = re.compile(r"\s*[·⋅∙*×.]\s*|\s+")
_SOLIDUS = re.compile(r"\s*[/∕⁄]\s*|\s+per\s+")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻−–", "0123456789+---")


@lru_cache(maxsize=4096)
def parse_unit(text: str) -> Unit:
    """The unit that a text names; `1` is the unit of a pure number.

    Raises `QuantityError` with the words at fault and, for a word that is no
    unit, the nearest that is one.
    """
    if len(text) > LONGEST:
        raise QuantityError("too-long", "too long for a unit", LONGEST, len(text))
    reader = _UnitReader(text)
    return reader.whole()


@cache
def _phrases() -> re.Pattern[str]:
    """The writings that are not a single word, the longest first."""
    phrases = [w for w in unit_table().writings if not _WORD.fullmatch(w)]
    longest_first = sorted(phrases, key=len, reverse=True)
    either = "|".join(re.escape(phrase) for phrase in longest_first)
    return re.compile(rf"(?:{either})(?!{_LETTER})")


class _UnitReader:
    """A text and how far it has been read."""

    def __init__(self, text: str) -> None:
        self.text = text.rstrip()
        self.at = 0
        self.slips: list[Slip] = []

    def whole(self) -> Unit:
        self.skip_blanks()
        if self.text[self.at :] == "1":
            return PURE_NUMBER
        if self.at == len(self.text):
            raise QuantityError("empty", "no unit", 0, len(self.text))
        parts = self.product_and_ratio(depth=0)
        self.full_stop()
        unit = Unit(unit_of(parts).parts, self.text.strip(), tuple(self.slips))
        if not SMALLEST < unit.factor < 1 / SMALLEST:
            raise QuantityError("number", "a unit out of all measure", 0, self.at)
        return unit

    def skip_blanks(self) -> None:
        while self.at < len(self.text) and self.text[self.at].isspace():
            self.at += 1

    def product_and_ratio(self, depth: int) -> list[Part]:
        """`unit` of the grammar above."""
        start, loose = self.at, False
        parts = self.numerator(depth)
        below = False
        while not self.finished(depth):
            if self.take(_SOLIDUS):
                below = True
                parts += inverse(self.factor(depth))
            elif self.take(_BETWEEN):
                power = self.factor(depth)
                loose = loose or (below and _all_above(power))
                parts += inverse(power) if below and _all_above(power) else power
            elif self.follows_degree():
                loose, parts = (
                    True,
                    parts
                    + (inverse(self.factor(depth)) if below else self.factor(depth)),
                )
            else:
                raise self.unexpected()
        if loose:
            why = "a product below the solidus wants brackets, as in J/(g K)"
            self.slip(Verdict.DISCOURAGED, start, why)
        return parts

    def numerator(self, depth: int) -> list[Part]:
        if re.compile(r"1\s*(?=[/∕⁄])").match(self.text, self.at):
            self.at += 1
            return []
        return self.factor(depth)

    def finished(self, depth: int) -> bool:
        rest = self.text[self.at :].lstrip()
        return not rest or rest == "." or (depth > 0 and rest.startswith(")"))

    def follows_degree(self) -> bool:
        """Whether a degree sign follows at once, as in `J/g°C`."""
        return self.at > 0 and self.text.startswith("°", self.at)

    def factor(self, depth: int) -> list[Part]:
        """One word or bracket, with its power."""
        if self.text.startswith("(", self.at):
            parts = self.bracket(depth + 1)
        else:
            parts = self.word()
        power = self.exponent()
        return [(named, own * power) for named, own in parts]

    def bracket(self, depth: int) -> list[Part]:
        start = self.at
        if depth > DEEPEST:
            raise QuantityError("syntax", "brackets too deep", start, start + 1)
        self.at += 1
        self.skip_blanks()
        parts = self.product_and_ratio(depth)
        self.skip_blanks()
        if not self.text.startswith(")", self.at):
            raise QuantityError("syntax", "a bracket is not closed", start, start + 1)
        self.at += 1
        return parts

    def exponent(self) -> Power:
        found = _POWER.match(self.text, self.at)
        if not found:
            return 1
        start, self.at = self.at, found.end()
        power = _power(found)
        if abs(Fraction(power)) > HIGHEST_POWER or power == 0:
            raise QuantityError(
                "syntax", f"no power for a unit: {power}", start, self.at
            )
        return power

    def word(self) -> list[Part]:
        """The unit that the next word or phrase names."""
        start = self.at
        found = _phrases().match(self.text, start) or _WORD.match(self.text, start)
        if not found:
            raise self.unexpected()
        written = found[0]
        writing = unit_table().writings.get(written)
        if writing is None:
            raise unknown_unit(self.text, written, start)
        self.at = found.end()
        self.judge(writing, start)
        if isinstance(writing.means, str):
            return list(parse_unit(writing.means).parts)
        return [(writing.means, 1)]

    def judge(self, writing: Writing, start: int) -> None:
        if writing.verdict:
            self.slip(writing.verdict, start, writing.why, writing.convert_to)

    def full_stop(self) -> None:
        if self.text.startswith(".", self.at):
            self.at += 1
            why = "a symbol has no full stop"
            self.slip(Verdict.DISCOURAGED, self.at - 1, why)

    def slip(
        self, verdict: Verdict, start: int, why: str, convert_to: str | None = None
    ) -> None:
        written = self.text[start : self.at]
        self.slips.append(Slip(verdict, start, self.at, written, why, convert_to))

    def take(self, pattern: re.Pattern[str]) -> bool:
        found = pattern.match(self.text, self.at)
        if found:
            self.at = found.end()
        return bool(found)

    def unexpected(self) -> QuantityError:
        rest = self.text[self.at :].strip() or "the end"
        message = f"no unit can be read from {rest}"
        return QuantityError("syntax", message, self.at, len(self.text))


def inverse(parts: list[Part]) -> list[Part]:
    """The parts below the solidus."""
    return [(named, -power) for named, power in parts]


def _all_above(parts: list[Part]) -> bool:
    return all(power > 0 for _, power in parts)


def _power(found: re.Match[str]) -> Power:
    if found["over"]:
        under = int(found["under"]) or 1
        return Fraction(int(found["over"].translate(_RAISED)), under)
    return int((found["plain"] or found["raised"]).translate(_RAISED))


def unknown_unit(text: str, written: str, start: int) -> QuantityError:
    """The error for a word that is no unit, with the nearest that is one."""
    end, before = start + len(written), text[:start].strip()
    message = f"{written} is no unit"
    near = nearest_unit(written)
    if near:
        message += f"; did you mean {near}?"
    elif before:
        message = f"{written} after {before} is no unit; a quantity ends with its unit"
    return QuantityError("unknown-unit", message, start, end, near)


def nearest_unit(written: str) -> str | None:
    """The known unit most like this word, by capitals first."""
    table = unit_table()
    folded = written.casefold()
    longer = (w for w in table.writings if len(w) > SHORTEST_NAME)
    for unit in (*table.common, *longer):
        if unit.casefold() == folded:
            return unit
    by_folded = {unit.casefold(): unit for unit in reversed(table.common)}
    near = get_close_matches(folded, by_folded, cutoff=0.6)
    alike = [unit for unit in near if unit[0] == folded[0]]
    return next((by_folded[unit] for unit in alike + near), None)
