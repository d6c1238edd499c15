"""Whether an author's answer is the computed one, and if not, what went wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import gcd

from manualgen.model.fences import Given
from manualgen.model.manual import Settings
from manualgen.quantities import Quantity
from manualgen.quantities.figures import (
    place,
    rounded_to_place,
    significant_figures,
)
from manualgen.quantities.mend import typed
from manualgen.quantities.value import Value, datum
from manualgen.working.calculations import WorkedAnswer
from manualgen.working.numbers import Numbers
from manualgen.working.stated import stated
from manualgen.working.variants import (
    Variant,
    rounded_on_the_way,
    values_under,
    variants,
)

LARGEST_POWER = 12
LARGEST_RATIO = 6


@dataclass(frozen=True, slots=True)
class Comparison:
    """An answer beside the value that its expression has, in the answer's unit."""

    answer: Quantity
    value: Value

    @property
    def computed(self) -> Fraction:
        """The computed number, unrounded."""
        return self.value.in_unit(self.answer.unit)

    @property
    def last(self) -> int:
        """The place of the answer's last figure; noughts of a whole number may not count."""
        return last_place_stated(self.answer.value)

    def is_near(self, number: Fraction) -> bool:
        """Whether a number is the answer, to the figures that the answer has."""
        half = Fraction(10) ** self.last / 2
        return abs(number - Fraction(self.answer.value)) <= half

    @property
    def agrees(self) -> bool:
        """Whether the answer is the computed value."""
        return self.is_near(self.computed)


def last_place_stated(value: Decimal) -> int:
    """The power of ten of the last figure that a number surely states.

    >>> last_place_stated(Decimal("250")), last_place_stated(Decimal("25.0"))
    (1, -1)
    """
    last = place(value)
    return last if last < 0 or not value else max(last, place(value.normalize()))


def correct(comparison: Comparison, settings: Settings) -> Quantity:
    """The computed value with as many places as the answer, if the data allow them."""
    allowed = stated(comparison.value, comparison.answer.unit, settings)
    most = place(allowed.value)
    if significant_figures(comparison.answer.value) < 2:
        return Quantity(allowed.value, comparison.answer.unit)
    figures = significant_figures(comparison.answer.value)
    leading = allowed.value.adjusted() if allowed.value else 0
    last = max(most, leading - figures + 1)
    number = rounded_to_place(comparison.computed, last, settings.rounding)
    return Quantity(number, comparison.answer.unit)


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an answer is off, and what to write where the answer itself is right."""

    words: str
    mend: str | None = None


@dataclass(frozen=True, slots=True)
class Alternative:
    """A calculation with a mistake in it, and what it comes to."""

    variant: Variant
    values: Mapping[str, Value]
    answer: Given | None = None
    """The wrong answer that is carried forward, if it is that."""


def alternatives(
    numbers: Numbers, wrong: Iterable[WorkedAnswer]
) -> tuple[Alternative, ...]:
    """The calculations with each of the usual mistakes, then with each wrong answer."""
    usual = [Alternative(v, values_under(v, numbers)) for v in variants(numbers)]
    for answer in (worked.answer for worked in wrong):
        value = datum(answer.symbol, answer.quantity)
        taken = Variant("", {answer.symbol: value})
        usual.append(Alternative(taken, values_under(taken, numbers), answer))
    return tuple(usual)


def reason(
    worked: WorkedAnswer,
    comparison: Comparison,
    numbers: Numbers,
    others: tuple[Alternative, ...],
) -> Reason | None:
    """Why an answer may be off, where that can be told."""
    guesses: tuple[Callable[[], Reason | None], ...] = (
        lambda: _other_calculation(worked, comparison, others),
        lambda: _sign(comparison),
        lambda: _power_of_ten(comparison),
        lambda: _last_figure(worked, comparison, numbers),
        lambda: _ratio(comparison),
    )
    return next((found for guess in guesses if (found := guess())), None)


def _other_calculation(
    worked: WorkedAnswer, comparison: Comparison, others: tuple[Alternative, ...]
) -> Reason | None:
    """The mistake in the calculation that gives just this answer."""
    symbol = worked.answer.symbol
    for other in others:
        carried = other.answer
        if carried and (
            carried.symbol == symbol or carried.place > worked.answer.place
        ):
            continue
        if not _gives(other.values.get(symbol), comparison):
            continue
        if carried is None:
            words = f"that is what comes out if {other.variant.what}"
            return Reason(words, other.variant.mend)
        said = f"{carried.symbol} = {typed(carried.quantity)}"
        return Reason(f"it follows from {said} on line {carried.place.line}")
    return None


def _gives(value: Value | None, comparison: Comparison) -> bool:
    if value is None or value.dimension != comparison.value.dimension:
        return False
    return comparison.is_near(value.in_unit(comparison.answer.unit))


def _earlier(worked: WorkedAnswer, numbers: Numbers) -> Iterator[WorkedAnswer]:
    for calculation in numbers.calculations:
        for other in calculation.answers:
            if other.answer.place < worked.answer.place:
                yield other


def _sign(comparison: Comparison) -> Reason | None:
    turned = comparison.is_near(-comparison.computed)
    return Reason("only the sign differs") if turned else None


def _power_of_ten(comparison: Comparison) -> Reason | None:
    for power in range(1, LARGEST_POWER + 1):
        factor = Fraction(10) ** power
        for size, scaled in (
            ("large", comparison.computed * factor),
            ("small", comparison.computed / factor),
        ):
            if comparison.computed and comparison.is_near(scaled):
                slip = _slip(comparison, power)
                return Reason(f"it is {10**power} times too {size}: {slip}")
    return None


def _slip(comparison: Comparison, power: int) -> str:
    """How one comes to be wrong by a power of ten."""
    if power != 3:
        return "the decimal point has moved"
    kind = comparison.answer.unit.dimension.stated()
    if kind == {"mass": 1}:
        return "g and mg (or kg and g) are mixed up"
    if kind == {"length": 3}:
        return "cm3 and dm3 are mixed up"
    return "a step from cm3 to dm3, or another thousand, is forgotten or taken twice"


def _last_figure(
    worked: WorkedAnswer, comparison: Comparison, numbers: Numbers
) -> Reason | None:
    step = Fraction(10) ** comparison.last
    away = abs(comparison.computed - Fraction(comparison.answer.value))
    if away > 3 * step or significant_figures(comparison.answer.value) < 2:
        return None
    symbol = worked.answer.symbol
    said = {o.answer.symbol: o.answer.quantity for o in _earlier(worked, numbers)}
    values = values_under(rounded_on_the_way(symbol, numbers, said), numbers)
    if _gives(values.get(symbol), comparison):
        words = "the last figure comes of rounding on the way; carry every figure"
        return Reason(words)
    return Reason("only the last figure is off")


def _ratio(comparison: Comparison) -> Reason | None:
    if significant_figures(comparison.answer.value) < 2:
        return None
    for above, below in _small_ratios():
        if comparison.is_near(comparison.computed * above / below):
            times = f"{above}/{below} of" if below > 1 else f"{above} times"
            return Reason(f"it is {times} that, as with a molar ratio taken wrongly")
    return None


def _small_ratios() -> Iterator[tuple[int, int]]:
    sizes = range(1, LARGEST_RATIO + 1)
    pairs = [(a, b) for a in sizes for b in sizes if a != b and gcd(a, b) == 1]
    return iter(sorted(pairs, key=sum))


def message_of(
    symbol: str, comparison: Comparison, right: Quantity, why: Reason | None
) -> str:
    """The finding's sentence."""
    said = (
        f"{symbol} is given as {typed(comparison.answer)} and comes to {typed(right)}"
    )
    return f"{said}; {why.words}" if why else said
