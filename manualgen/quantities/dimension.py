"""The dimension of a quantity: what kind of thing it measures.

A product of powers of the seven base quantities of the SI (SI Brochure, 9th
ed., 2.3.3). Two quantities may be added or compared only if their dimensions
are the same; a dimension says nothing of the size of a unit. Powers are whole
numbers in nearly all of school chemistry; a square root makes halves of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

Power = int | Fraction


@dataclass(frozen=True, slots=True)
class Dimension:
    """The powers of the seven base quantities; all nought is dimension one.

    >>> (Dimension(amount=1) / Dimension(length=3)).stated()
    {'length': -3, 'amount': 1}
    """

    length: Power = 0
    mass: Power = 0
    time: Power = 0
    current: Power = 0
    temperature: Power = 0
    amount: Power = 0
    luminous: Power = 0

    def __reduce__(self) -> tuple[object, ...]:
        """Dimensions that come from other processes are kept once each."""
        return _shared, self.powers

    @property
    def powers(self) -> tuple[Power, ...]:
        """The seven powers, in the order of the fields."""
        return (
            self.length,
            self.mass,
            self.time,
            self.current,
            self.temperature,
            self.amount,
            self.luminous,
        )

    @property
    def is_one(self) -> bool:
        """Whether this is the dimension of a pure number."""
        return not any(self.powers)

    def stated(self) -> dict[str, Power]:
        """The powers that are not nought, by the name of the base quantity."""
        named = zip(self.__dataclass_fields__, self.powers, strict=True)
        return {name: power for name, power in named if power}

    def __mul__(self, other: Dimension) -> Dimension:
        pairs = zip(self.powers, other.powers, strict=True)
        return Dimension(*(a + b for a, b in pairs))

    def __truediv__(self, other: Dimension) -> Dimension:
        pairs = zip(self.powers, other.powers, strict=True)
        return Dimension(*(a - b for a, b in pairs))

    def __pow__(self, power: Power) -> Dimension:
        return Dimension(*(whole(a * power) for a in self.powers))


@lru_cache(maxsize=1024)
def _shared(*powers: Power) -> Dimension:
    return Dimension(*powers)


ONE = Dimension()


def whole(power: Power) -> Power:
    """The same power as an `int` where it is one."""
    return power.numerator if power.denominator == 1 else power
