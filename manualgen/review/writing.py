"""Running text as a reviewer reads it: on one line, spans as they were typed.

`written` is all that the teacher can read; `shown` leaves out what stands in
the blanks, as the student's page does.  A quantity or a formula counts as one
word, so its blanks are no-break ones, which `said` turns into blanks again.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar

from manualgen.model.text import (
    Blank,
    Emphasis,
    EquationSpan,
    FormulaSpan,
    Inline,
    Inlines,
    LineBreak,
    Marks,
    OutsideLink,
    Picture,
    QuantitySpan,
    Reference,
    UnreadSpan,
    ValueSpan,
    Words,
)
from manualgen.quantities import Quantity, printed
from manualgen.quantities.style import AS_TYPED, NO_BREAK

T = TypeVar("T")
EMPTY_BLANK = "[____]"
_BLANKS = re.compile(r"[ \t\r\n]+")


def words_of(text: str) -> str:
    """Text as it is compared: a line wrapped elsewhere is the same text."""
    return _BLANKS.sub(" ", text).strip(" ")


def said(text: str) -> str:
    """Text as it is told, without no-break blanks."""
    return text.replace(NO_BREAK, " ")


def written(content: Inlines) -> str:
    """Everything that is written, the words of blanks in their brackets."""
    return words_of("".join(_written(inline, shows=False) for inline in content))


def shown(content: Inlines) -> str:
    """What students read of it: their blanks are empty."""
    return words_of("".join(_written(inline, shows=True) for inline in content))


def of_both(
    told: Callable[[T], str | None], old: T | None, new: T | None
) -> tuple[str | None, str | None]:
    """What is told of either version, None for the one that has none."""
    return (
        None if old is None else told(old),
        None if new is None else told(new),
    )


def quantity_text(quantity: Quantity | None) -> str | None:
    """A quantity in the standards' writing, None for none."""
    return None if quantity is None else printed(quantity, AS_TYPED)


def _written(inline: Inline, *, shows: bool) -> str:
    match inline:
        case Words():
            return inline.text
        case LineBreak():
            return " / " if inline.hard else " "
        case FormulaSpan() | EquationSpan() | QuantitySpan() | UnreadSpan():
            return inline.source.replace(" ", NO_BREAK)
        case ValueSpan():
            return (
                EMPTY_BLANK if shows else f"value{NO_BREAK}of{NO_BREAK}{inline.symbol}"
            )
        case Marks():
            limit = "max " if inline.maximum else ""
            return f"[{limit}{inline.number}]"
        case Picture():
            return f"{inline.description} ({inline.file})"
        case _:
            return _holder(inline, shows=shows)


def _holder(inline: Emphasis | Blank | Reference | OutsideLink, *, shows: bool) -> str:
    inside = "".join(_written(i, shows=shows) for i in inline.content)
    match inline:
        case Emphasis():
            mark = "**" if inline.strong else "*"
            return f"{mark}{inside}{mark}"
        case Blank():
            return EMPTY_BLANK if shows else f"[_{inside}_]"
        case Reference():
            name = f"#{inline.name}" if inline.name else ""
            return f"{inside} ({inline.experiment or ''}{name})"
        case OutsideLink():
            return f"{inside} ({inline.address})"
