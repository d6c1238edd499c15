"""Everything that can be told of one equation, worked out once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from manualgen.chemistry.balance import balance
from manualgen.chemistry.net_ionic import net_ionic
from manualgen.chemistry.redox import Redox, redox
from manualgen.chemistry.redox_halves import redox_halves

if TYPE_CHECKING:
    from manualgen.chemistry.balance import Balance
    from manualgen.chemistry.equation import Equation
    from manualgen.chemistry.formula import Formula
    from manualgen.chemistry.medium import Medium


@dataclass(frozen=True, slots=True)
class EquationFacts:
    """An equation's balance, and what follows where there is one."""

    balance: Balance
    net_ionic: Equation | None = None
    """None where nothing is dissolved, or nothing reacts."""
    spectators: tuple[Formula, ...] = ()
    redox: Redox = field(default_factory=Redox)
    halves: tuple[Equation, ...] = ()
    """The oxidation and the reduction; none where nothing is oxidised."""
    remark: str | None = None
    """What is to be said beside the balance: that no reaction takes place."""


def equation_facts(equation: Equation, medium: Medium | None) -> EquationFacts:
    """Balance an equation and take it apart."""
    found = balance(equation, medium)
    if found.status in ("impossible", "ambiguous"):
        return EquationFacts(found)
    ionic = net_ionic(found.equation)
    nothing_happens = ionic.complete is not None and not ionic.is_reaction
    is_split = ionic.net is not None and any(t.formula.charge for t in ionic.net.terms)
    return EquationFacts(
        found,
        ionic.net if is_split else None,
        tuple(term.formula for term in ionic.spectators),
        redox(found.equation),
        redox_halves(found.equation),
        ionic.message if nothing_happens else None,
    )
