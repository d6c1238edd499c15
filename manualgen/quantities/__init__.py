"""A leaf: units, quantities with their figures, expressions and fits.

`parse_quantity` and `parse_unit` read what an author typed; a `Quantity` keeps
every figure of it; `printed` gives it back in the house style.
"""

from manualgen.quantities.dimension import Dimension
from manualgen.quantities.errors import QuantityError
from manualgen.quantities.figures import Rounding
from manualgen.quantities.quantity import Quantity
from manualgen.quantities.quantity_text import parse_quantity
from manualgen.quantities.style import (
    DecimalMark,
    HouseStyle,
    Units,
    Volume,
    printed,
    printed_unit,
)
from manualgen.quantities.unit_text import parse_unit
from manualgen.quantities.units import PURE_NUMBER, Slip, Unit, Verdict

__all__ = [
    "PURE_NUMBER",
    "DecimalMark",
    "Dimension",
    "HouseStyle",
    "Quantity",
    "QuantityError",
    "Rounding",
    "Slip",
    "Unit",
    "Units",
    "Verdict",
    "Volume",
    "parse_quantity",
    "parse_unit",
    "printed",
    "printed_unit",
]
