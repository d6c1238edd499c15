"""What an expression cannot be: the refusals of evaluation, and words for them."""

from __future__ import annotations

from manualgen.quantities.dimension import Dimension
from manualgen.quantities.expression import ExpressionError
from manualgen.quantities.kinds import si_symbol
from manualgen.quantities.unit_table import unit_table


class UndefinedError(ExpressionError):
    """An operation that has no result."""


class UnknownNameError(UndefinedError):
    """A name that nothing defines."""

    def __init__(
        self,
        name: str,
        message: str,
        start: int,
        end: int,
        suggestion: str | None = None,
    ) -> None:
        super().__init__(message, start, end, suggestion)
        self.name = name


class DimensionError(ExpressionError):
    """Things of unlike dimensions added, or °C where kelvin are needed."""


def kind_of(dimension: Dimension) -> str:
    """What values of a dimension measure, with its article: ``a volume``."""
    if dimension.is_one:
        return "a pure number"
    kind = unit_table().kinds.get(dimension)
    if kind:
        return f"an {kind}" if kind[0] in "aeiou" else f"a {kind}"
    return f"a quantity in {si_symbol(dimension)}"
