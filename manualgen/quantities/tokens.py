"""An expression's text to tokens.

Two things are swallowed whole, because their insides follow other rules: a
number with its unit in brackets, ``(4.18 J/g/K)``, and what stands between the
brackets of ``M(...)`` and ``mean(...)``.  Signs may be typed or typeset: ``×``
and ``·`` multiply, ``÷`` divides, ``−`` is a minus, ``²`` a power.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum, auto

from manualgen.quantities.expression import ExpressionError

LONGEST = 500
"""Characters in an expression; the longest sensible one has under a hundred."""


class Kind(Enum):
    """What a token is."""

    NUMBER = auto()
    MEASURED = auto()
    NAME = auto()
    CALL = auto()
    """``M`` or ``mean``, followed by its `RAW` argument."""
    RAW = auto()
    OPERATOR = auto()
    OPEN = auto()
    CLOSE = auto()
    END = auto()


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the text, with its signs in ASCII."""

    kind: Kind
    text: str
    start: int
    end: int


_SIGNS = {"×": "*", "·": "*", "⋅": "*", "÷": "/", "−": "-", "–": "-"}
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_NUMBER = r"(?:[0-9]{1,40}(?:\.[0-9]{0,40})?|\.[0-9]{1,40})(?:[eE][+\-−]?[0-9]{1,3})?"
_FIRST = r"[^\W\d⁰¹²³⁴⁵⁶⁷⁸⁹½¼¾]"
_NAME = rf"{_FIRST}(?:{_FIRST}|\d)*"
_TOKEN = re.compile(
    rf"""\s*(?:
      (?P<call>mean|M)\s*(?=\()
    | (?P<number>{_NUMBER}(?![\w.]|,\d|\s*[%°‰]))
    | (?P<name>{_NAME}(?:\.{_NAME})*)
    | (?P<power>\*\*)
    | (?P<raised>⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)
    | (?P<sign>[-+*/^×·⋅÷−–])
    | (?P<open>\()
    | (?P<close>\))
    )""",
    re.VERBOSE,
)
_WITH_UNIT = re.compile(
    rf"""\(\s*[+\-−]?\s*(?>{_NUMBER})
         (?:\s*[×*]\s*10\s*\^\s*[+\-−]?\d+)?
         \s*(?:[^\W\d]|[%°‰±]|\(\s*k\s*=)""",
    re.VERBOSE,
)


def tokenise(text: str) -> list[Token]:
    """The tokens of an expression, closed by an END.

    Raises `ExpressionError` at the first thing that belongs in no expression.
    """
    if len(text) > LONGEST:
        raise ExpressionError(
            f"an expression of {len(text)} characters; part it into lines of at "
            f"most {LONGEST}",
            LONGEST,
            len(text),
        )
    tokens: list[Token] = []
    at = 0
    while text[at:].strip():
        tokens += _tokens_at(text, at)
        at = tokens[-1].end
    return [*tokens, Token(Kind.END, "", len(text.rstrip()), len(text))]


def _tokens_at(text: str, at: int) -> list[Token]:
    at += len(text[at:]) - len(text[at:].lstrip())
    if _WITH_UNIT.match(text, at):
        return [_raw(Kind.MEASURED, text, at)]
    match = _TOKEN.match(text, at)
    if not match:
        raise _stranger(text, at)
    kind, piece = str(match.lastgroup), match[str(match.lastgroup)]
    if kind == "call":
        name = Token(Kind.CALL, piece, at, at + len(piece))
        return [name, _raw(Kind.RAW, text, match.end())]
    if kind == "raised":
        power = Token(Kind.OPERATOR, "^", at, at)
        sign = piece.startswith("⁻")
        minus = [Token(Kind.OPERATOR, "-", at, at + 1)] if sign else []
        digits = piece.lstrip("⁻").translate(_RAISED)
        return [power, *minus, Token(Kind.NUMBER, digits, at + sign, match.end())]
    return [_plain(kind, piece, at, match.end())]


def _plain(kind: str, piece: str, start: int, end: int) -> Token:
    match kind:
        case "number":
            return Token(Kind.NUMBER, piece.replace("−", "-"), start, end)
        case "name":
            return Token(Kind.NAME, "pi" if piece == "π" else piece, start, end)
        case "power":
            return Token(Kind.OPERATOR, "^", start, end)
        case "open":
            return Token(Kind.OPEN, piece, start, end)
        case "close":
            return Token(Kind.CLOSE, piece, start, end)
        case _:
            return Token(Kind.OPERATOR, _SIGNS.get(piece, piece), start, end)


def _raw(kind: Kind, text: str, start: int) -> Token:
    """What stands between the bracket at ``start`` and its partner."""
    depth = 0
    for at in range(start, len(text)):
        depth += {"(": 1, ")": -1}.get(text[at], 0)
        if depth == 0:
            return Token(kind, text[start + 1 : at], start, at + 1)
    raise ExpressionError(
        "a bracket is not closed", start, len(text), text[start:] + ")"
    )


_STRANGERS = (
    (
        re.compile(r"(\d+),(\d+)"),
        "{0}: the decimal sign of a source is a point",
        "{1}.{2}",
    ),
    (
        re.compile(rf"({_NUMBER})\s*([%°‰]\w*)"),
        "{0}: a number with its unit stands in brackets",
        "({1} {2})",
    ),
    (re.compile(r"\d[\d.]*[eE][+\-−]?\d+"), "{0} is a number out of all measure", None),
    (
        re.compile(rf"({_NUMBER})({_NAME})"),
        "{0}: a product needs its sign, and a number with its unit stands in brackets",
        "{1} * {2}",
    ),
)


def _stranger(text: str, at: int) -> ExpressionError:
    """Why no token begins here."""
    for pattern, message, mend in _STRANGERS:
        found = pattern.match(text, at)
        if found:
            pieces = (found[0], *found.groups())
            suggestion = mend.format(*pieces) if mend else None
            return ExpressionError(message.format(*pieces), at, found.end(), suggestion)
    return ExpressionError(f"{text[at]} belongs in no expression", at, at + 1)
