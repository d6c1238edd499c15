"""Units and their algebra.

A `Unit` is a product of powers of named units: `mol dm⁻³` is mol to the first
and dm to the minus third. It keeps the text that the author typed beside the
parts that it means, so that the house style can print the one and a finding
can point at the other. Its factor takes a number in this unit to the coherent
SI unit, exactly.

A temperature is told from a difference of temperatures: `°C` standing alone
has an offset of 273.15; in a product, a ratio or a power, and as `difference`,
it has none and is as large as the kelvin (SI Brochure, 9th ed., 2.3.1).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from decimal import Context, Decimal
from enum import IntEnum
from fractions import Fraction
from functools import lru_cache

from manualgen.quantities.dimension import ONE, Dimension, Power, whole


class Verdict(IntEnum):
    """What the standards say of a writing, from good to bad."""

    OK = 0
    """Right, or accepted for use with the SI."""
    TOLERATED = 1
    """Not the standards' choice, but sound in a practical: `% w/v`, `ppm`."""
    DISCOURAGED = 2
    """Wrong or obsolete: `gm`, `cc`, `mmHg`; there is a better writing."""


@dataclass(frozen=True, slots=True)
class Slip:
    """Words that can be read but that the standards write in another way."""

    verdict: Verdict
    start: int
    """Where the words begin in the text read, counted from 0."""
    end: int
    written: str
    why: str
    convert_to: str | None = None
    """The unit to convert to, where another symbol alone would not do."""

    def shifted(self, by: int) -> Slip:
        """The same slip in a text that has so many characters before this one."""
        return replace(self, start=self.start + by, end=self.end + by)


@dataclass(frozen=True, slots=True)
class NamedUnit:
    """A unit with a symbol of its own, its prefix included: mol, cm, kPa, °C."""

    symbol: str
    """As it is printed."""
    factor: Fraction
    """One of these in the coherent SI unit."""
    dimension: Dimension
    offset: Fraction = Fraction(0)
    """What is added to a number before the factor: 273.15 for °C."""
    kind: str = ""
    """What it measures, where the dimension does not tell: mass fraction, count."""
    is_word: bool = False
    """Whether it is printed as it was typed, plural and all: drops, weeks."""


Part = tuple[NamedUnit, Power]

_NO_OFFSET = Fraction(0)


@dataclass(frozen=True, slots=True, eq=False)
class Unit:
    """A product of powers of named units; equal whatever way it was typed."""

    parts: tuple[Part, ...] = ()
    text: str = "1"
    """As the author typed it."""
    slips: tuple[Slip, ...] = ()
    factor: Fraction = field(default=Fraction(1), init=False)
    """A number in this unit times this is the number in the coherent SI unit."""
    dimension: Dimension = field(default=ONE, init=False)

    def __post_init__(self) -> None:
        factor, dimension = Fraction(1), ONE
        for named, power in self.parts:
            factor *= exact_power(named.factor, power)
            dimension *= named.dimension**power
        object.__setattr__(self, "factor", factor)
        object.__setattr__(self, "dimension", dimension)

    def __reduce__(self) -> tuple[object, ...]:
        """Units that come from other processes are kept once, as are those read here."""
        return _shared, (self.parts, self.text, self.slips)

    @property
    def offset(self) -> Fraction:
        """What is added before the factor; nought unless a temperature in °C, °F."""
        match self.parts:
            case ((named, 1),):
                return named.offset
            case _:
                return _NO_OFFSET

    @property
    def difference(self) -> Unit:
        """The unit for a difference of two values in this one, without offset."""
        if not self.offset:
            return self
        ((named, _),) = self.parts
        return Unit(((replace(named, offset=Fraction(0)), 1),), self.text)

    @property
    def verdict(self) -> Verdict:
        """The worst that the standards say of any word in the text."""
        return max((slip.verdict for slip in self.slips), default=Verdict.OK)

    @property
    def symbol(self) -> str:
        """As the standards print it: `mol dm⁻³`, ordinary spaces between."""
        return " ".join(raised(named.symbol, power) for named, power in self.parts)

    def __mul__(self, other: Unit) -> Unit:
        return unit_of(self.parts + other.parts)

    def __truediv__(self, other: Unit) -> Unit:
        return self * other**-1

    def __pow__(self, power: Power) -> Unit:
        return unit_of((named, whole(own * power)) for named, own in self.parts)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Unit):
            return NotImplemented
        return frozenset(self.parts) == frozenset(other.parts)

    def __hash__(self) -> int:
        return hash(frozenset((named.symbol, power) for named, power in self.parts))

    def __str__(self) -> str:
        return self.symbol


@lru_cache(maxsize=4096)
def _shared(parts: tuple[Part, ...], text: str, slips: tuple[Slip, ...]) -> Unit:
    return Unit(parts, text, slips)


PURE_NUMBER = Unit()


def unit_of(parts: Iterable[Part]) -> Unit:
    """The unit with these parts, those of one symbol taken together."""
    stated = tuple(parts)
    if len(stated) == 1 and stated[0][1] == 1:
        return Unit(stated, typed_symbol(stated))
    powers: dict[NamedUnit, Power] = {}
    for named, power in stated:
        plain = replace(named, offset=Fraction(0)) if named.offset else named
        powers[plain] = whole(powers.get(plain, 0) + power)
    kept = tuple((named, power) for named, power in powers.items() if power)
    return Unit(kept, typed_symbol(kept))


def typed_symbol(parts: tuple[Part, ...]) -> str:
    """The parts as an author types them: `mol/dm3`, `J/(g K)`, `s-1`, `1`."""
    above = [(named, power) for named, power in parts if power > 0]
    below = [(named, -power) for named, power in parts if power < 0]
    if not above or not below:
        return " ".join(_typed(named, power) for named, power in parts) or "1"
    over = " ".join(_typed(named, power) for named, power in above)
    under = " ".join(_typed(named, power) for named, power in below)
    return f"{over}/({under})" if len(below) > 1 else f"{over}/{under}"


def _typed(named: NamedUnit, power: Power) -> str:
    if power == 1:
        return named.symbol
    return (
        f"{named.symbol}{power}"
        if isinstance(power, int)
        else f"{named.symbol}^({power})"
    )


_SUPERSCRIPT = str.maketrans("0123456789-/.", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻ᐟ·")


def raised(symbol: str, power: Power) -> str:
    """A symbol with its power as a superscript: `cm³`, `s⁻¹`."""
    return symbol if power == 1 else symbol + superscript(power)


def superscript(power: Power) -> str:
    """A power in superior figures."""
    return str(power).translate(_SUPERSCRIPT)


def exact_power(factor: Fraction, power: Power) -> Fraction:
    """A factor to a power; a root that is no fraction is given to 60 digits."""
    if power.denominator == 1:
        return factor**power.numerator
    roots = (_root(n, power.denominator) for n in factor.as_integer_ratio())
    above, below = roots
    return (above / below) ** power.numerator


def _root(number: int, degree: int) -> Fraction:
    context = Context(prec=60)
    root = context.power(Decimal(number), context.divide(Decimal(1), Decimal(degree)))
    near = int(root.to_integral_value())
    return Fraction(near) if near**degree == number else Fraction(root)
