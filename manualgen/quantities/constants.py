"""The constants that an expression may name without defining them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from importlib.resources import files

import yaml

from manualgen.quantities.quantity import Quantity
from manualgen.quantities.unit_text import parse_unit
from manualgen.quantities.value import Value, constant


@dataclass(frozen=True, slots=True)
class Constant:
    """A constant of nature, taken as exact."""

    symbol: str
    name: str
    quantity: Quantity
    source: str

    @property
    def value(self) -> Value:
        """The constant in a calculation, which it limits in no way."""
        return replace(constant(self.quantity), precision=None)


@cache
def constants() -> Mapping[str, Constant]:
    """The constants by symbol: R, F, N_A, pi."""
    text = files("manualgen").joinpath("data/constants.yaml").read_text("utf-8")
    rows = yaml.load(text, Loader=yaml.CBaseLoader)["constants"]
    return {
        row["symbol"]: Constant(
            row["symbol"],
            row["name"],
            Quantity(Decimal(row["value"]), parse_unit(row["unit"])),
            row["source"],
        )
        for row in rows
    }
