"""How large a making is, and in what a volume or a mass is measured.

A flask that would waste more than a quarter gives way to two smaller makings:
1056 cm³ is 1 dm³ and 100 cm³, not 2 dm³.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from manualgen.preparation.rules import measures

FLASK = "volumetric flask"
PIPETTE = "pipette"
BURETTE = "burette"
CYLINDER = "measuring cylinder"
_LEAST_FLASK = 100


@dataclass(frozen=True, slots=True)
class Portion:
    """A volume that one instrument measures, once or more often."""

    volume: Fraction
    """In cm³, as it is read."""
    instrument: str
    capacity: Fraction
    times: int = 1


@dataclass(frozen=True, slots=True)
class Measured:
    """A volume as it is measured: the portions that add up to it."""

    portions: tuple[Portion, ...]

    @property
    def total(self) -> Fraction:
        """All that is measured, in cm³."""
        return sum((p.volume * p.times for p in self.portions), Fraction(0))


def makings_for(needed: Fraction) -> tuple[Fraction, ...]:
    """The volumes to make so that there is at least what is needed, in cm³.

    >>> [int(volume) for volume in makings_for(Fraction(1056))]
    [1000, 100]
    >>> [int(volume) for volume in makings_for(Fraction(430))]
    [500]
    >>> [int(volume) for volume in makings_for(Fraction(2112))]
    [2000, 200]
    """
    sizes = measures().makings
    largest = sizes[-1]
    full, rest = divmod(needed, largest)
    made = full * largest
    return (largest,) * int(full) + (_rest_in(rest, made) if rest else ())


def least_waste(needed: Fraction) -> tuple[Fraction, ...]:
    """One or two flasks, whichever leave the least over."""
    full, rest = divmod(needed, measures().makings[-1])
    last = min((_one(rest), _two(rest)), key=lambda f: (sum(f), len(f)))
    return (measures().makings[-1],) * int(full) + (last if rest else ())


def costly_volume(needed: Fraction) -> Fraction:
    """What is needed, rounded up to what a cylinder of its size shows, in cm³."""
    steps = measures().costly_steps
    step = next((s for upto, s in steps if needed <= upto), steps[-1][1])
    return ceil(needed / step) * step


def is_flask_size(volume: Fraction) -> bool:
    """Whether there is a volumetric flask of just this volume, in cm³."""
    return volume in measures().makings


def rounded_to(value: Fraction, step: Fraction) -> Fraction:
    """The nearest multiple of a step, a half going up."""
    return (value / step + Fraction(1, 2)).__floor__() * step


def rounded_up_to(value: Fraction, step: Fraction) -> Fraction:
    """The next multiple of a step that is no less."""
    return ceil(value / step) * step


def by_cylinder(volume: Fraction) -> Measured:
    """A volume by the smallest cylinder that holds it, to half a graduation."""
    cylinders = measures().cylinders
    capacity, reads = next((c for c in cylinders if c[0] >= volume), cylinders[-1])
    return Measured((Portion(rounded_to(volume, reads), CYLINDER, capacity),))


def exactly(volume: Fraction) -> Measured:
    """A volume by flasks and pipettes as far as they fit, the rest by burette."""
    m = measures()
    portions: list[Portion] = []
    rest = volume
    flasks = [(s, FLASK) for s in reversed(m.makings) if s >= _LEAST_FLASK]
    for size, instrument in (*flasks, (m.pipettes[-1], PIPETTE)):
        times, rest = divmod(rest, size)
        if times:
            portions.append(Portion(size, instrument, size, int(times)))
    if rest in m.pipettes:
        portions.append(Portion(rest, PIPETTE, rest))
    elif read := rounded_to(rest, m.burette_reads):
        portions.append(Portion(read, BURETTE, m.burette))
    return Measured(tuple(portions))


def _rest_in(needed: Fraction, made: Fraction) -> tuple[Fraction, ...]:
    """What is made beside full flasks; the waste is a part of all that is made."""
    one, two = _one(needed), _two(needed)
    wasted = (one[0] - needed) / (one[0] + made)
    if wasted > measures().waste and sum(two) < one[0]:
        return two
    return one


def _one(needed: Fraction) -> tuple[Fraction, ...]:
    return (next(s for s in measures().makings if s >= needed),)


def _two(needed: Fraction) -> tuple[Fraction, ...]:
    """The two makings that hold what is needed with the least waste."""
    sizes = measures().makings
    pairs = [(a, b) for a in sizes for b in sizes if a >= b and a + b >= needed]
    return min(pairs, key=lambda p: (sum(p), -p[0]))
