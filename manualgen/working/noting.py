"""Faults in expressions as findings-to-be: their place, their check, their mend."""

from __future__ import annotations

from manualgen.model.finding import Fault, Noted
from manualgen.model.place import Place
from manualgen.quantities.expression import ExpressionError
from manualgen.quantities.refusals import DimensionError, UnknownNameError
from manualgen.working.ledger import Ledger


def noted(error: ExpressionError, place: Place, ledger: Ledger) -> Noted:
    """What is wrong with an expression that stands at a place of the source."""
    at = place.within(error.start, error.end)
    if isinstance(error, DimensionError):
        fault = Fault(at, error.message, error.suggestion)
        return Noted("calculation-dimension", fault)
    later = isinstance(error, UnknownNameError) and ledger.defined_on.get(error.name)
    if isinstance(error, UnknownNameError) and later:
        message = f"{error.name} is used here and defined only on line {later}"
        return Noted("calculation-undefined", Fault(at, message))
    if isinstance(error, UnknownNameError) and (kin := _kin(error.name, ledger)):
        of, _, what = error.name.partition(".")
        message = f"{of} has no {what}; it has {' and '.join(kin)}"
        return Noted("calculation-undefined", Fault(at, message, error.suggestion))
    return Noted("calculation-undefined", Fault(at, error.message, error.suggestion))


def _kin(name: str, ledger: Ledger) -> list[str]:
    """What the table or graph of a dotted name has to give."""
    of, dot, _ = name.partition(".")
    known = sorted({*ledger.values, *ledger.without_value})
    return [n.removeprefix(of + dot) for n in known if dot and n.startswith(of + dot)]
