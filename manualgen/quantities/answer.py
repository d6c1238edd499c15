"""The answer of `manualgen quantity TEXT`: as a JSON object and as lines.

Nothing of a house style is known here, so the preferred writing is that of the
standards in the author's own choice of volume.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypedDict

from manualgen.quantities.dimension import Dimension
from manualgen.quantities.errors import QuantityError
from manualgen.quantities.kinds import kind_of, si_symbol
from manualgen.quantities.mend import mended
from manualgen.quantities.quantity import Quantity
from manualgen.quantities.quantity_text import parse_quantity
from manualgen.quantities.style import AS_TYPED, NO_BREAK, printed, printed_number
from manualgen.quantities.units import Verdict, superscript


class QuantityAnswer(TypedDict):
    """The object that `--format json` prints; absent values are null."""

    version: int
    status: Literal["ok", "discouraged", "invalid"]
    value: float | None
    unit: str | None
    upper: float | None
    half_width: float | None
    si_value: float | None
    si_unit: str | None
    dimensions: dict[str, int | float]
    kind: str | None
    significant_figures: int | None
    preferred: str | None
    message: str | None


def quantity_answer(text: str) -> QuantityAnswer:
    """What one quantity is, or why the text is none."""
    try:
        return _of_quantity(parse_quantity(text))
    except QuantityError as error:
        return _of_error(text, error)


def quantity_lines(text: str) -> str:
    """The same for a reader: two lines, or one that says what is wrong."""
    answer = quantity_answer(text)
    preferred, stated = answer["preferred"], text.strip()
    mend = f"; write {preferred}" if preferred and preferred != stated else ""
    if answer["status"] == "invalid":
        return f"{stated}: {answer['message']}{mend}"
    head = f"{preferred} ({answer['kind']})"
    if answer["message"]:
        head = f"{stated} ({answer['kind']}): {answer['message']}{mend}"
    return f"{head}\n  {_size(parse_quantity(text))}"


def _size(quantity: Quantity) -> str:
    """The value in SI units and its figures."""
    count = quantity.significant_figures
    figures = f"{count} significant figure{'' if count == 1 else 's'}"
    value = _in_powers(quantity.si_value)
    if quantity.si_upper is not None:
        value += f" to {_in_powers(quantity.si_upper)}"
    unit = si_symbol(quantity.dimension).removeprefix("1")
    return f"= {value} {unit}".rstrip() + f", {figures}"


def _in_powers(value: Fraction) -> str:
    """A number to ten figures, large and small ones with a power of ten."""
    number = Decimal(f"{float(value):.10g}")
    power = number.adjusted() if number and abs(number.adjusted()) > 4 else 0
    plain = printed_number(number.scaleb(-power).normalize(), AS_TYPED)
    return f"{plain} × 10{superscript(power)}" if power else plain


def _of_quantity(quantity: Quantity) -> QuantityAnswer:
    is_ok = quantity.verdict is Verdict.OK
    better = mended(quantity)
    return {
        "version": 1,
        "status": "ok" if is_ok else "discouraged",
        "value": float(quantity.value),
        "unit": quantity.unit.text,
        "upper": _number(quantity.upper),
        "half_width": _number(quantity.half_width),
        "si_value": float(quantity.si_value),
        "si_unit": si_symbol(quantity.dimension),
        "dimensions": _dimensions(quantity.dimension),
        "kind": kind_of(quantity.unit),
        "significant_figures": quantity.significant_figures,
        "preferred": printed(better, AS_TYPED).replace(NO_BREAK, " "),
        "message": None if is_ok else _reasons(quantity),
    }


def _reasons(quantity: Quantity) -> str:
    return "; ".join(dict.fromkeys(slip.why for slip in quantity.slips))


def _number(value: Decimal | None) -> float | None:
    return None if value is None else float(value)


def _dimensions(dimension: Dimension) -> dict[str, int | float]:
    return {
        base: power if isinstance(power, int) else float(power)
        for base, power in dimension.stated().items()
    }


def _of_error(text: str, error: QuantityError) -> QuantityAnswer:
    mend = error.suggestion
    return {
        "version": 1,
        "status": "invalid",
        "value": None,
        "unit": None,
        "upper": None,
        "half_width": None,
        "si_value": None,
        "si_unit": None,
        "dimensions": {},
        "kind": None,
        "significant_figures": None,
        "preferred": mend and text[: error.start] + mend + text[error.end :],
        "message": error.message,
    }
