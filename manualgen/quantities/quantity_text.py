"""Reading a quantity as authors type it.

    25.0 cm3                      a value and its unit
    20 to 25 °C                   a range, also 20–25 °C
    25.00 ± 0.06 cm3              with its half-width, also with brackets or +/-
    25.00 ± 0.02 (k=1) cm3        a standard uncertainty already
    25.00 cm3 (pipette)           the tolerance is the listed piece's
    2 min 30 s                    time in two units
    ± 0.05 cm3                    a half-width alone
    12                            a pure number

What can be read but is wrongly written is read, and noted as a slip; what
cannot raises `QuantityError` with the words at fault.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from manualgen.quantities.dimension import Dimension
from manualgen.quantities.errors import QuantityError
from manualgen.quantities.numbers import Numeral, read_number, read_power_of_ten
from manualgen.quantities.quantity import Quantity
from manualgen.quantities.unit_text import parse_unit
from manualgen.quantities.units import PURE_NUMBER, Slip, Unit, Verdict

LONGEST = 120

_RANGE = re.compile(r"\s+to\s+|\s*[–—-]\s*")
_PLUS_MINUS = re.compile(r"\s*(?:±|\+/?[-−–])\s*")
_REPEATED = re.compile(
    r"\s*(?P<unit>[^\s±](?:[^±]*[^\s±])?)(?=(?:\s*±|\s*\+/-|\s+to\s|\s*[–—])\s*[-−]?\d)"
)
_OPENING = re.compile(r"\(\s*(?=[^()]*(?:±|\+/?-)[^()]*\))")
_CLOSING = re.compile(r"\s*\)")
_STANDARD = re.compile(r"\s*\(\s*k\s*=\s*1\s*\)")
_PIECE = re.compile(r"\s\((?P<piece>[^()/%=±]+)\)$")
_TWO_TIMES = re.compile(
    r"\s*(\d+)\s*([a-zA-Z]+)\s+(?:and\s+)?(\d[\d.]*)\s*([a-zA-Z]+)\s*"
)

_NO_SPACE = "a space stands between a number and its unit"
_ON_THE_LINE = "the power of ten has lost its superscript"


@lru_cache(maxsize=4096)
def parse_quantity(text: str) -> Quantity:
    """The quantity that a text states, its figures kept.

    Raises `QuantityError`, whose `start` and `end` count characters of the
    text, and whose `suggestion` is a better writing where there is one.
    """
    if len(text) > LONGEST:
        message = "too long for a quantity"
        raise QuantityError("too-long", message, LONGEST, len(text))
    if not text.strip():
        raise QuantityError("empty", "no quantity", 0, len(text))
    return _time_in_two_units(text) or _QuantityReader(text).whole()


def _time_in_two_units(text: str) -> Quantity | None:
    """`2 min 30 s`, the only quantities that may stand in two units."""
    found = _TWO_TIMES.fullmatch(text)
    if not found:
        return None
    try:
        terms = (
            parse_quantity(f"{found[1]} {found[2]}"),
            parse_quantity(f"{found[3]} {found[4]}"),
        )
    except QuantityError:
        return None
    large, small = terms
    time = Dimension(time=1)
    if not (large.dimension == small.dimension == time) or (
        large.unit.factor <= small.unit.factor
    ):
        return None
    ratio = Fraction(large.unit.factor, small.unit.factor)
    value = large.value * Decimal(ratio.numerator) / ratio.denominator + small.value
    slips = tuple(
        slip.shifted(found.start(at) - len(number) - 1)
        for term, at, number in ((large, 2, found[1]), (small, 4, found[3]))
        for slip in term.slips
    )
    return Quantity(value, small.unit, mixed=terms, slips=slips)


def backwards(value: Numeral, upper: Numeral, text: str) -> QuantityError:
    """The error for a range whose first end is not the lower one."""
    message = "a range is written from its lower end to its upper end"
    mend = f"{upper.value} to {value.value}{text[upper.end :]}"
    return QuantityError("range", message, 0, len(text), mend)


class _QuantityReader:
    """A text and how far it has been read."""

    def __init__(self, text: str) -> None:
        self.text = text.rstrip()
        self.at = len(text) - len(text.lstrip())
        self.slips: list[Slip] = []

    def whole(self) -> Quantity:
        is_width = self.take(_PLUS_MINUS)
        bracketed = self.take(_OPENING)
        value = self.number()
        self.take_repeated_unit()
        upper = self.number_after(_RANGE)
        half_width = None if upper else self.number_after(_PLUS_MINUS)
        standard = self.take(_STANDARD)
        power = self.power_behind_bracket() if bracketed else 0
        of, standard_behind = self.take_end()
        unit = self.unit()
        if upper and upper.value <= value.value:
            raise backwards(value, upper, self.text)
        return Quantity(
            value.value.scaleb(power),
            unit.difference if is_width else unit,
            upper.value if upper else None,
            half_width.value.scaleb(power) if half_width else None,
            standard=standard or standard_behind,
            of=of,
            power=value.power + power,
            sign="±" if is_width else "+" if value.has_plus else "",
            slips=tuple(self.slips),
        )

    def take(self, pattern: re.Pattern[str]) -> bool:
        """Read on past a pattern, if it stands here."""
        found = pattern.match(self.text, self.at)
        if found:
            self.at = found.end()
        return bool(found)

    def number(self) -> Numeral:
        numeral = self.number_at(self.at)
        if numeral is None:
            words = self.text[self.at :]
            message = f"a quantity begins with a number, and {words} does not"
            raise QuantityError("number", message, self.at, len(self.text))
        return numeral

    def number_after(self, mark: re.Pattern[str]) -> Numeral | None:
        """The number after a mark, if both are there."""
        found = mark.match(self.text, self.at)
        return self.number_at(found.end()) if found else None

    def number_at(self, start: int) -> Numeral | None:
        numeral = read_number(self.text, start)
        if numeral:
            self.at = numeral.end
            if numeral.lost_superscript:
                self.slip(Verdict.DISCOURAGED, start, self.at, _ON_THE_LINE)
        return numeral

    def power_behind_bracket(self) -> int:
        """Read past the bracket round value and half-width, and its power of ten."""
        if not self.take(_CLOSING):
            raise QuantityError("syntax", "a bracket is not closed", 0, self.at)
        found = read_power_of_ten(self.text, self.at)
        if found is None:
            return 0
        power, self.at = found
        return power

    def take_repeated_unit(self) -> None:
        """Read past the first unit of `25.0 cm3 ± 0.1 cm3`."""
        found = _REPEATED.match(self.text, self.at)
        if found and self.text.endswith(found["unit"]):
            self.at = found.end()

    def take_end(self) -> tuple[str | None, bool]:
        """The piece in brackets at the end, and whether `(k=1)` stands there."""
        standard = re.search(_STANDARD.pattern + "$", self.text[self.at :])
        piece = _PIECE.search(self.text, self.at)
        last = standard or piece
        if last:
            self.text = self.text[: len(self.text) - len(last[0])]
        return piece["piece"].strip() if piece and not standard else None, bool(
            standard
        )

    def unit(self) -> Unit:
        words = self.text[self.at :]
        if not words.strip():
            return PURE_NUMBER
        start = self.at + len(words) - len(words.lstrip())
        try:
            unit = parse_unit(words.strip())
        except QuantityError as error:
            raise error.shifted(start) from None
        self.slips += (slip.shifted(start) for slip in unit.slips)
        if start == self.at and words != "°" and not words.startswith(("%", "‰")):
            self.slip(Verdict.TOLERATED, start, len(self.text), _NO_SPACE)
        return unit

    def slip(self, verdict: Verdict, start: int, end: int, why: str) -> None:
        self.slips.append(Slip(verdict, start, end, self.text[start:end], why))
