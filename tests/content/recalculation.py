"""Results worked out a second time, with the law of propagation of uncertainty.

An experiment's own figures go in with their standard uncertainties, each
independent of the others; its results come out with theirs, by small steps of
each input (JCGM 100:2008, 5.1.2). A fitted line goes in as its height at the
middle of the readings and its gradient, which do not depend on each other.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import sqrt

import numpy as np
import numpy.typing as npt

from tests.content.source_text import Source, si

Array = npt.NDArray[np.float64]
Values = Mapping[str, Array]
Work = Callable[[Values], dict[str, float | Array]]

BALANCE = 0.005
"""g, half of the last digit of a display that shows 0.01 g (GUM F.2.2.1)."""
DISPLAY = 0.05
"""°C, half of the last digit of a thermometer that shows 0.1 °C (GUM F.2.2.1)."""
READ = 0.05
"""cm³, to what manual.yaml says that a burette is read."""
BURETTE_B, PIPETTE_25_B, PIPETTE_1_B, FLASK_250_B = 0.1, 0.06, 0.015, 0.3
"""cm³, class B: ISO 385:2005, ISO 648:2008, ISO 1042:1998, in secondary copies."""


@dataclass
class Recalculation:
    """The figures that an experiment starts from, and what is made of them."""

    source: Source
    values: dict[str, Array] = field(default_factory=dict)
    doubts: dict[str, Array] = field(default_factory=dict)
    work: Work = field(default=lambda values: {})

    def put(self, name: str, numbers: float | Sequence[float], doubt: float) -> None:
        """A figure, or several, with their standard uncertainty."""
        self.values[name] = np.atleast_1d(np.array(numbers, dtype=float))
        self.doubts[name] = np.full(self.values[name].shape, doubt)

    def put_limits(
        self, name: str, number: float, half_width: float, unit: str
    ) -> None:
        """A figure with the half-width that its instrument allows."""
        self.put(name, si(number, unit), si(half_width, unit) / sqrt(3))

    def put_given(self, *symbols: str) -> None:
        """What the calculation states, with the half-width that it states."""
        for symbol in symbols:
            given = self.source.given(symbol)
            self.put(symbol, given.value, given.doubt)

    def put_column(
        self, table: str, symbol: str, unit: str, half_width: float = 0.0
    ) -> None:
        """A column of readings, each with the half-width of its instrument."""
        numbers = [si(number, unit) for number in self.source.column(table, symbol)]
        step = si(half_width, unit.replace("°C", "K"))
        self.put(f"{table}.{symbol}", numbers, step / sqrt(3))

    def put_line(self, name: str, x: Array, y: Array) -> None:
        """The least-squares line through points, as numpy finds it."""
        (gradient, intercept), covariance = np.polyfit(x, y, 1, cov=True)
        middle = float(np.mean(x))
        height = gradient * middle + intercept
        variance = float(np.sum((y - gradient * x - intercept) ** 2)) / (len(x) - 2)
        self.put(f"{name} gradient", gradient, sqrt(covariance[0][0]))
        self.put(f"{name} height", height, sqrt(variance / len(x)))
        self.put(f"{name} middle", middle, 0.0)

    def results(self) -> dict[str, tuple[Array, float]]:
        """Every result with its standard uncertainty, in coherent SI units."""
        return {
            name: (np.atleast_1d(np.array(value)), self._doubt(name))
            for name, value in self.work(self.values).items()
        }

    def _doubt(self, name: str) -> float:
        total = 0.0
        for given, doubts in self.doubts.items():
            for n in np.flatnonzero(doubts):
                up, down = (self._moved(given, n, s * doubts[n]) for s in (1, -1))
                change = np.array(self.work(up)[name]) - np.array(self.work(down)[name])
                total += float(np.max(np.abs(change)) / 2) ** 2
        return sqrt(total)

    def _moved(self, name: str, n: np.intp, step: float) -> dict[str, Array]:
        moved = {other: numbers.copy() for other, numbers in self.values.items()}
        moved[name][n] += step
        return moved


def gradient_and_intercept(v: Values, name: str) -> tuple[float, float]:
    """Of a line that was put in."""
    gradient = float(v[f"{name} gradient"][0])
    height, middle = float(v[f"{name} height"][0]), float(v[f"{name} middle"][0])
    return gradient, height - gradient * middle


def unexplained(readings: Array, doubt_of_mean: float) -> float:
    """What the scatter of a mean exceeds the uncertainty of its readings by.

    The experimental standard deviation of the mean is GUM 4.2.3's; that only
    what the instruments do not explain is added is this manual's own rule.
    """
    scatter = float(np.var(readings, ddof=1)) / len(readings)
    return sqrt(max(0.0, scatter - doubt_of_mean**2))
