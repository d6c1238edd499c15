"""Experiments in miniature for the tests of what is worked out."""

from __future__ import annotations

from collections.abc import Callable

from manualgen.quantities.uncertainty import combined_uncertainty
from manualgen.quantities.value import Value
from manualgen.working.calculations import WorkedLine
from manualgen.working.numbers import Numbers
from manualgen.working.worked import Worked


def experiment(*blocks: str, apparatus: tuple[str, ...] = ()) -> str:
    """An experiment with these fences in its results."""
    listed = "".join(f"  - {piece}\n" for piece in apparatus)
    head = "---\ntitle: Example\n" + (f"apparatus:\n{listed}" if listed else "")
    method = "---\n\n## Method\n\n1. Look.\n\n## Results\n\n"
    return head + method + "\n".join(blocks)


def fence(kind: str, *lines: str) -> str:
    """A fence of a kind and name, ``readings #titres``."""
    return "```" + kind + "\n" + "\n".join(lines) + "\n```\n"


def numbers_of(
    text: str, work_out: Callable[..., Worked], settings: str = ""
) -> Numbers:
    """The numbers of an experiment."""
    return work_out(text, settings=settings).experiments[0].numbers


def line_of(numbers: Numbers, symbol: str) -> WorkedLine:
    """The line that gives a symbol its value."""
    lines = [line for c in numbers.calculations for line in c.lines]
    return next(line for line in lines if line.line.symbol == symbol)


def shown(numbers: Numbers, name: str) -> tuple[str, str | None]:
    """A value and its uncertainty, as they are printed."""
    quantity = numbers.stated[name]
    width = quantity.half_width
    return str(quantity.value), None if width is None else str(width)


def standard(value: Value) -> float:
    """A value's standard uncertainty, in SI units."""
    u = combined_uncertainty(value.sensitivities)
    assert u is not None
    return u


TITRES = fence(
    "readings #titres",
    "rows: [rough, 1, 2, 3]",
    "columns:",
    "  - {symbol: V1, heading: Initial reading, unit: cm3, sample: [0.00, 0.10, 0.25, 0.05]}",
    "  - {symbol: V2, heading: Final reading, unit: cm3, sample: [21.90, 21.55, 21.75, 21.45]}",
    "  - {symbol: Vt, heading: Titre, unit: cm3, formula: V2 - V1}",
    "mean: {of: Vt, rows: [1, 2, 3], concordant: 0.10 cm3}",
)
"""Titres of 21.90, 21.45, 21.50 and 21.40 cm3."""
