"""Reading a number as it stands in a text: `0.0250`, `4.29 × 10^-5`, `−75`.

Figures are never lost: the value is a `Decimal` with the noughts that were
typed, and the power of ten that was typed is remembered beside it, so that
`25.0e-3` can be printed as 25.0 × 10⁻³ and not as something of equal size.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from manualgen.quantities.errors import QuantityError

MOST_FIGURES = 25
LARGEST_POWER = 99

_MINUS = "−–-"
_NUMBER = re.compile(
    rf"""
    (?P<sign>[+{_MINUS}])?\s?
    (?:
      (?P<only>10\^\(?(?P<bare>[+{_MINUS}]?\d{{1,3}})\)?|10(?P<bare_raised>[⁺⁻]?[⁰¹²³⁴-⁹]{{1,3}}))
    |
      (?P<whole>\d{{1,3}}(?:[ \u00a0\u2009\u202f]\d{{3}})+(?!\d)|\d*)
      (?:(?P<mark>[.,])(?P<after>\d+))?
      (?:
        [eE](?P<e>[+{_MINUS}]?\d{{1,3}})(?!\d)
      | \s*[×xX*·⋅]\s*10
        (?: (?:\^|\*\*)\s*[({{]?(?P<caret>[+{_MINUS}]?\d{{1,3}})[)}}]?
          | (?P<raised>[⁺⁻]?[⁰¹²³⁴-⁹]{{1,3}})
          | (?P<lost>[{_MINUS}]\d{{1,2}}|[1-9]\d?)
        )(?![\d.])
      )?
    )
    """,
    re.VERBOSE,
)
_PLAIN = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻−–", "0123456789+---")


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number read, and how it was written."""

    value: Decimal
    end: int
    """Where the text goes on."""
    power: int = 0
    """The power of ten that was written out."""
    lost_superscript: bool = False
    """Whether the power stood on the line, as in `10-3`."""
    has_plus: bool = False
    """Whether a plus was typed, as for an enthalpy change."""


def read_number(text: str, start: int) -> Numeral | None:
    """The number that begins there, if one does.

    Raises `QuantityError` for a comma that may be a decimal comma or a mark of
    thousands, and for a number out of all measure.
    """
    found = _NUMBER.match(text, start)
    if not found or not (found["whole"] or found["after"] or found["only"]):
        return None
    if found["mark"] == ",":
        _refuse_thousands(found)
    power = _written_power(found)
    mantissa = Decimal(1) if found["only"] else _mantissa(found)
    if len(mantissa.as_tuple().digits) > MOST_FIGURES or abs(power) > LARGEST_POWER:
        raise QuantityError("number", "a number out of all measure", start, found.end())
    value = mantissa.scaleb(power)
    signed = -value if found["sign"] and found["sign"] in _MINUS else value
    is_lost = found["lost"] is not None
    return Numeral(signed, found.end(), power, is_lost, found["sign"] == "+")


_POWER_OF_TEN = re.compile(
    rf"\s*[×xX*·⋅]\s*10(?:\^\(?(?P<caret>[+{_MINUS}]?\d{{1,2}})\)?|(?P<raised>[⁺⁻]?[⁰¹²³⁴-⁹]{{1,2}}))"
)


def read_power_of_ten(text: str, start: int) -> tuple[int, int] | None:
    """The power after a bracket, as in `(4.29 ± 0.02) × 10^-5`, and its end."""
    found = _POWER_OF_TEN.match(text, start)
    if not found:
        return None
    written: str = found["caret"] or found["raised"]
    return int(written.translate(_PLAIN)), found.end()


def _mantissa(found: re.Match[str]) -> Decimal:
    whole = re.sub(r"\s", "", found["whole"] or "")
    return Decimal(f"{whole or '0'}.{found['after'] or ''}".rstrip("."))


def _written_power(found: re.Match[str]) -> int:
    for name in ("e", "caret", "raised", "lost", "bare", "bare_raised"):
        if found[name]:
            return int(found[name].translate(_PLAIN))
    return 0


def _refuse_thousands(found: re.Match[str]) -> None:
    """A comma before three figures may mark thousands; nobody can tell."""
    whole, after = found["whole"], found["after"]
    if len(after) != 3 or not whole or whole.startswith("0") or len(whole) > 3:
        return
    raise QuantityError(
        "number",
        f"{whole},{after} may be {whole}{after} or {whole}.{after}",
        found.start(),
        found.end(),
        f"{whole}{after}",
    )
