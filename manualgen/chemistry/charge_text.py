"""The charge at the end of a formula, in all its writings.

``^2+`` and ``²⁺`` say that they are charges. A bare sign does too (``Na+``),
but a bare digit before it may be a subscript: ``O2-`` is oxide to one reader
and superoxide to the next, and neither is guessed at.
"""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from manualgen.chemistry.errors import FormulaError

HIGHEST: Final = 20
"""The largest charge; school ions end at 4, heteropolyanions reach the teens."""

_MINUS = "−–⁻-"
_SIGN = rf"[+⁺{_MINUS}]"
_ANY_MARK = re.compile(rf"[\^⁰¹²³⁴⁵⁶⁷⁸⁹+⁺{_MINUS}]")
_MARKED = re.compile(
    rf"\^\{{?(?:(?P<n>\d*)(?P<s>{_SIGN})|(?P<s2>{_SIGN})(?P<n2>\d+))\}}?$"
    rf"|(?P<n3>[⁰¹²³⁴⁵⁶⁷⁸⁹]+)(?P<s3>{_SIGN})$"
)
_BARE = re.compile(rf"(?P<digits>[0-9]*)(?P<signs>{_SIGN}+)$")
_TURNED = re.compile(rf"(?P<sign>{_SIGN})(?P<digits>[0-9]+)$")
_UNSIGNED = re.compile(r"\^\{?\d*\}?$|[⁰¹²³⁴⁵⁶⁷⁸⁹]+$")
_TO_ASCII = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")
_MONATOMIC = re.compile(r"[A-Z][a-z]?")

# Oxide, sulfide, nitride … : the anion that a bare "O2-" most likely means.
_USUAL_ANIONS = frozenset({"O2", "S2", "Se2", "Te2", "N3", "P3", "As3", "C4"})
# Vanadium is the one metal with both cations, VO2^+ and VO^2+, on a school's bench.
_OXO_CATIONS_READ_TWO_WAYS = frozenset({"VO"})


class ChargeText(NamedTuple):
    """Where a charge begins in a text, and what it is."""

    start: int
    charge: int


def read_charge(text: str) -> ChargeText:
    """The charge with which ``text`` ends; 0, and the text's end, without one.

    Raises `FormulaError` for a charge that can be read in two ways, one without
    its sign, and one that no ion has.
    """
    if not _ANY_MARK.search(text):
        return ChargeText(len(text), 0)
    if marked := _MARKED.search(text):
        digits = marked["n"] or marked["n2"] or marked["n3"] or "1"
        sign = marked["s"] or marked["s2"] or marked["s3"]
        return _sized(text, marked.start(), int(digits.translate(_TO_ASCII)), sign)
    if bare := _BARE.search(text):
        return _read_bare(text, bare)
    if turned := _TURNED.search(text):
        mend = f"{text[: turned.start()]}^{_size(turned['digits'], turned['sign'])}"
        message = f"{text} has its charge turned round; write {mend}"
        raise FormulaError(message, turned.start(), len(text), mend)
    if unsigned := _UNSIGNED.search(text):
        message = f"{text} has a charge without a sign; write + or - behind it"
        raise FormulaError(message, unsigned.start(), len(text))
    return ChargeText(len(text), 0)


def _read_bare(text: str, bare: re.Match[str]) -> ChargeText:
    signs, digits = bare["signs"], bare["digits"]
    start = bare.start("signs")
    if len({_is_minus(s) for s in signs}) > 1:
        raise FormulaError(f"{text} has signs of both kinds", start, len(text))
    body = text[: bare.start()]
    if body and body[-1] in "₀₁₂₃₄₅₆₇₈₉" and digits:
        return _sized(text, bare.start(), int(digits), signs)
    if len(signs) == 1 and _is_read_two_ways(body, digits):
        raise _ambiguous(text, body, digits, signs)
    return _sized(text, start, len(signs), signs[0])


def _is_read_two_ways(body: str, digits: str) -> bool:
    """Whether the digits before a bare sign could be a subscript or the charge."""
    if not digits:
        return False
    if len(digits) > 1:
        return digits[-1] != "0"
    monatomic = _MONATOMIC.fullmatch(body) is not None
    return monatomic or body.endswith("]") or body in _OXO_CATIONS_READ_TWO_WAYS


def _ambiguous(text: str, body: str, digits: str, sign: str) -> FormulaError:
    """The refusal of a bare charge, the likelier of its two meanings first."""
    as_charge = f"{body}{digits[:-1]}^{_size(digits[-1], sign)}"
    as_subscript = f"{body}{digits}^{_size('1', sign)}"
    likely, other = as_charge, as_subscript
    if _means_subscript(body, digits, sign):
        likely, other = other, likely
    message = (
        f"{text} can be read as {likely} or as {other}; write the one that is meant"
    )
    return FormulaError(message, len(body), len(text), likely)


def _means_subscript(body: str, digits: str, sign: str) -> bool:
    if len(digits) > 1:
        return int(digits[-1]) > 4
    if _is_minus(sign) and not body.endswith("]"):
        return body + digits not in _USUAL_ANIONS
    return body in _OXO_CATIONS_READ_TWO_WAYS


def _sized(text: str, start: int, size: int, sign: str) -> ChargeText:
    if not 0 < size <= HIGHEST:
        message = f"{text} has a charge of {size}, which no ion has"
        raise FormulaError(message, start, len(text))
    return ChargeText(start, -size if _is_minus(sign[0]) else size)


def _is_minus(sign: str) -> bool:
    return sign in _MINUS


def _size(digits: str, sign: str) -> str:
    """A charge in this format's own writing, without the ``^``."""
    number = "" if digits == "1" else digits
    return number + ("-" if _is_minus(sign) else "+")
