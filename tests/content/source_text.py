"""An experiment's own figures, read from its Markdown as text, and what is printed.

Nothing here knows how manualgen reads a source: fences are found by a pattern,
tables by YAML, numbers and units by pint. Only what the manual prints is asked
of manualgen, and of nothing but its last step, the values as they are stated.
"""

from __future__ import annotations

import csv
import datetime
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from math import sqrt
from pathlib import Path

import pint
import yaml
from molmass import Formula

from manualgen.build import read_and_work
from manualgen.quantities import Quantity
from manualgen.working.worked import Worked, WorkedExperiment

CONTENT = Path(__file__).parents[2] / "content"
UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
FARADAY = 96485.33212
"""C/mol, CODATA 2018; exact in the SI of 2019."""
GAS_CONSTANT = 8.314462618
"""J/(mol K), CODATA 2018; exact in the SI of 2019."""

_FENCE = re.compile(r"^ *```(\w+)(?: #([\w-]+))?[^\n]*\n(.*?)^ *```", re.M | re.S)
_GIVEN = re.compile(
    r"(?P<number>[−-]?[\d.]+)(?: ± (?P<half_width>[\d.]+))?"
    r"(?P<standard> \(k=1\))?"
    r"(?: (?P<unit>[a-zA-Z°%][^\s*+()]*))?(?: \([a-z ]+\))?"
)


def paths() -> dict[str, Path]:
    """Every experiment's file by its id."""
    return {path.stem: path for path in sorted(CONTENT.rglob("*.md"))}


@dataclass(frozen=True)
class Given:
    """A value that the source states, in the coherent SI unit."""

    value: float
    doubt: float
    """The standard uncertainty of the half-width stated, a/√3 (GUM 4.3.7)."""


def si(number: float, unit: str) -> float:
    """A number of a unit in the coherent SI unit; °C becomes K."""
    if unit in ("°C", "degC"):
        return float(UNITS.Quantity(number, "degC").to("kelvin").magnitude)
    return float(UNITS.Quantity(number, pint_unit(unit)).to_base_units().magnitude)


def pint_unit(unit: str) -> str:
    """``mol/dm3`` and ``s-1`` as pint writes them."""
    if unit == "1":
        return ""
    words = re.sub(r"(?<=[a-z])(-?\d)", r"**\1", unit)
    return words.replace("%", "percent").replace("°C", "delta_degC")


def molar_mass(formula: str) -> float:
    """In kg/mol, by molmass."""
    return float(Formula(formula).mass) / 1000


@dataclass(frozen=True)
class Source:
    """The text of one experiment."""

    path: Path
    text: str

    @property
    def front_matter(self) -> Mapping[str, object]:
        """The head of the file, all values as text."""
        head = self.text.split("\n---\n", 1)[0].removeprefix("---\n")
        matter: Mapping[str, object] = yaml.load(head, Loader=yaml.CBaseLoader)
        return matter

    @property
    def prose(self) -> str:
        """The whole text on one line, without the marks of quotes."""
        return re.sub(r"\s+", " ", re.sub(r"\n *> ?", "\n", self.text))

    def listed(self, name: str, shown: str | None = None) -> dict[str, float]:
        """Strength and amount of a chemical of the list, by their units' kind.

        Keys are ``mol/dm3``, ``cm3`` and ``g``; values are in coherent SI units.
        """
        entries = self.front_matter["chemicals"]
        assert isinstance(entries, list)
        lines = [
            e if isinstance(e, str) else ", ".join(map(str, e.values()))
            for e in entries
        ]
        line = next(e for e in lines if e.startswith(name) and (shown or "") in e)
        units = re.findall(r", ([\d.]+) (mol/dm3|cm3|g)\b", line)
        return {unit: si(float(number), unit) for number, unit in units}

    def fences(self, kind: str) -> Iterator[tuple[str, str]]:
        """The name and the body of every fence of a kind."""
        for found in _FENCE.finditer(self.text):
            if found[1] == kind:
                yield found[2] or "", found[3]

    def column(self, table: str, symbol: str) -> list[float]:
        """A column of readings or of given values, in the unit of its head."""
        body = next(body for name, body in self.fences("readings") if name == table)
        columns = yaml.load(body, Loader=yaml.CBaseLoader)["columns"]
        column = next(c for c in columns if c["symbol"] == symbol)
        cells = column.get("sample", column.get("given"))
        return [float(cell) for cell in self._cells(cells)]

    def _cells(self, cells: str | list[str]) -> list[str]:
        if isinstance(cells, list):
            return cells
        name, heading = cells.split("#")
        with (self.path.parent / name).open(encoding="utf-8") as file:
            return [row[heading] for row in csv.DictReader(file)]

    def lines(self) -> Iterator[tuple[str, str]]:
        """Symbol and right side of each line of the calculations, in order."""
        for _, body in self.fences("calculation"):
            for line in body.splitlines():
                symbol, right = re.sub(r"\s+#.*", "", line).split(" = ", 1)
                yield symbol.strip(), right.strip()

    def given(self, symbol: str) -> Given:
        """A value that a calculation states, with its half-width if it has one."""
        found = _GIVEN.fullmatch(_bare(dict(self.lines())[symbol]))
        assert found, symbol
        unit = found["unit"] or "1"
        width = found["half_width"]
        step = si(float(width), unit.replace("°C", "K")) if width else 0.0
        number = si(float(found["number"].replace("−", "-")), unit)
        return Given(number, step if found["standard"] else step / sqrt(3))

    @property
    def results(self) -> set[str]:
        """What the manual works out: lines, means, coefficients and columns."""
        return {
            *(s for s, right in self.lines() if not _GIVEN.fullmatch(_bare(right))),
            *(name for fence in self.fences("readings") for name in _of_table(*fence)),
            *(name for fence in self.fences("graph") for name in _of_graph(*fence)),
        }


def _bare(right: str) -> str:
    return right.removeprefix("[_").removesuffix("_]")


def _of_table(name: str, body: str) -> Iterator[str]:
    table = yaml.load(body, Loader=yaml.CBaseLoader)
    if "mean" in table:
        yield f"{name}.mean"
    for column in table["columns"]:
        if "formula" in column:
            yield f"{name}.{column['symbol']}"


def _of_graph(name: str, body: str) -> Iterator[str]:
    kind = re.search(r"^line: (\w+)( fits)?", body, re.M)
    told = {
        "fit": ("gradient", "intercept"),
        "two": ("crossing_x", "crossing_y"),
        "tangent": ("tangent",),
        "curve": (),
    }
    for coefficient in told[kind[1]] if kind else ():
        yield f"{name}.{coefficient}"


@cache
def source(experiment: str) -> Source:
    path = paths()[experiment]
    return Source(path, path.read_text(encoding="utf-8"))


@cache
def worked() -> Worked:
    """The manual as manualgen works it out, on a day of its school year."""
    return read_and_work(CONTENT, None, datetime.date(2026, 9, 1))


def practical(experiment: str) -> WorkedExperiment:
    """One experiment of it."""
    return next(e for e in worked().experiments if e.experiment.id == experiment)


def printed(experiment: str, name: str) -> Quantity:
    """A value as the teacher's edition prints it."""
    return practical(experiment).numbers.stated[name]
