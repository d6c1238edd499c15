"""What the technician makes, weighs and puts out, for one whole class, in a few words.

Both versions are planned for the newer manual's class, so that a change of the
class, which the settings tell, does not come up again with every bottle.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from manualgen.model.manual import Settings
from manualgen.model.place import Place
from manualgen.preparation.making import Making
from manualgen.preparation.needs import Need, Order, Shape, Sitting
from manualgen.preparation.plan import Plan, plan
from manualgen.preparation.solutions import Solution
from manualgen.quantities.figures import rounded_to_figures
from manualgen.review.writing import said
from manualgen.working.worked import WorkedExperiment

_FIGURES = 4
_LITRE = 1000


def class_plan(work: WorkedExperiment, settings: Settings) -> Plan:
    """What is prepared of one experiment for the class of these settings."""
    return plan(Order((Sitting(work, settings.groups),), settings.spare.si_value))


def prepared(planned: Plan) -> Mapping[Place, str]:
    """What is prepared of each listed chemical, by the place of its entry."""
    found: dict[Place, list[str]] = {}
    for solution in planned.solutions:
        for need in solution.needs:
            making = _made(solution) if _is_first(need, solution.needs) else ""
            told = "; ".join(filter(None, (_taken(need), making)))
            found.setdefault(need.entry.listed.place, []).append(told)
    for supplied in planned.supplied:
        for need in supplied.needs:
            found.setdefault(need.entry.listed.place, []).append(_taken(need))
    return {place: "; ".join(filter(None, texts)) for place, texts in found.items()}


def set_out(planned: Plan) -> Mapping[Place, str]:
    """How many pieces the class takes, by the place of the entry."""
    return {
        pieces.listed.place: f"the class takes {pieces.count}"
        + (f", and {pieces.spare} to spare" if pieces.spare else "")
        for pieces in planned.apparatus
    }


def bases(planned: Plan) -> Mapping[str, str]:
    """Solutions that are made only for others to be dissolved in, by name."""
    return {s.identity.name: _made(s) for s in planned.solutions if not s.needs}


def _is_first(need: Need, needs: Sequence[Need]) -> bool:
    return needs[0] is need


def _taken(need: Need) -> str:
    """``12 groups take 720 cm³, the spare included``."""
    if need.total is None:
        return ""
    what = f" of {need.identity.name}" if need.entry.listed.sets else ""
    shared = need.entry.listed.shared is not None
    who = "the class takes" if shared else f"{need.portions} groups take"
    if need.portions == 1:
        who = "the class takes"
    spare = "" if shared else ", the spare included"
    return f"{who} {_amount(need.total, need.shape)}{what}{spare}"


def _amount(total: Fraction, shape: Shape) -> str:
    match shape:
        case Shape.SOLUTION | Shape.LIQUID:
            return f"{_number(total)} cm³"
        case Shape.SOLID:
            return f"{_number(total)} g"
        case Shape.PIECES:
            return _number(total)


def _made(solution: Solution) -> str:
    if solution.making is None:
        return str(solution.problem or "")
    making = solution.making
    is_stronger = solution.stronger is not None
    return (
        f"make {_volume(making.volume)} from {_start(making, is_stronger=is_stronger)}"
    )


def _start(making: Making, *, is_stronger: bool) -> str:
    unit = "g" if making.mass is not None else "cm³"
    also = [
        f"{_number(added.mass)} g of {added.name}"
        if added.mass is not None
        else f"{_number(added.volume or Fraction(0))} cm³ of {added.name}"
        for batch in making.batches
        for added in batch.also
    ]
    called = said(making.start.called)
    if is_stronger:
        called = f"the stronger {called}"
    taken = f"{_number(making.taken)} {unit} of {called}"
    first = [b.measured for b in making.batches if b.dilutions and b.measured]
    if first:
        measured = sum((m.total for m in first), Fraction(0))
        taken += f", diluted first, and {_number(measured)} cm³ of that"
    return " and ".join((taken, *also))


def _volume(cm3: Fraction) -> str:
    if cm3 >= _LITRE:
        return f"{_number(cm3 / _LITRE)} dm³"
    return f"{_number(cm3)} cm³"


def _number(value: Fraction) -> str:
    """To four figures, without noughts that say nothing."""
    if value.denominator == 1:
        return str(value.numerator)
    rounded: Decimal = rounded_to_figures(value, _FIGURES)
    text = format(rounded, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
